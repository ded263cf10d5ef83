/* Which numbers of the author move the result most. */
#include "rehearse/moving.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "rehearse/estimate.h"

enum { SHOWN = 10 };

typedef struct mover {
    uint32_t number;
    double minutes; /* the larger of both ways */
} mover;

static int strongest_first(const void *a, const void *b)
{
    const mover *x = a, *y = b;
    if (x->minutes != y->minutes) return THREE_WAY(y->minutes, x->minutes);
    return THREE_WAY(x->number, y->number);
}

/* 0 where luck alone may have done it. */
static double told(const tt_mean *m)
{
    return fabs(m->mean) > m->plus_minus ? fabs(m->mean) : 0;
}

static const char *of_words(arena *keep, const book *b, const written_number *n)
{
    const uint32_t at = n->places[0].entry;
    if (n->kind == NUMBER_HOW_OFTEN) return "";
    return cstr(keep, n->kind == NUMBER_CURES ? b->fixes[at].id.name : b->symptoms[at].id.name);
}

static tt_moving moving_of(arena *keep, const tt_book *book, const sensitivity *s, const tally *t,
                           uint32_t i)
{
    static const char *const kinds[] = {[NUMBER_HOW_OFTEN] = "how-often",
                                        [NUMBER_SHOWN_BY] = "shown-by",
                                        [NUMBER_OTHERWISE] = "otherwise",
                                        [NUMBER_CURES] = "cures"};
    const written_number *n = &s->numbers[i];
    const uint32_t cause = number_cause(s->prog, n);
    assert(n->kind <= NUMBER_CURES);
    return (tt_moving){.kind = kinds[n->kind],
                       .cause = cause == NO_ID ? "" : cstr(keep, book->book->causes[cause].id.name),
                       .of = of_words(keep, book->book, n),
                       .written = cstr(keep, number_text(s->prog, n)),
                       .at = place_words(keep, book, n->said),
                       .above = moved_by(t, i, ABOVE),
                       .below = moved_by(t, i, BELOW)};
}

const tt_moving *moving_numbers(arena *keep, arena *scratch, const tt_book *b, const sensitivity *s,
                                const tally *t, uint32_t *count)
{
    mover *all = ARENA_ARRAY(scratch, mover, s->count);
    uint32_t told_count = 0;
    for (uint32_t i = 0; i < s->count; i++) {
        const tt_mean above = moved_by(t, i, ABOVE), below = moved_by(t, i, BELOW);
        const double minutes = fmax(told(&above), told(&below));
        if (minutes > 0) all[told_count++] = (mover){i, minutes};
    }
    SORT(all, told_count, strongest_first);
    *count = told_count < SHOWN ? told_count : SHOWN;
    tt_moving *out = ARENA_ARRAY(keep, tt_moving, *count);
    for (uint32_t i = 0; i < *count; i++) out[i] = moving_of(keep, b, s, t, all[i].number);
    return out;
}
