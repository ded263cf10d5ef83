/* Which cause was taken for which, and what would tell them apart. */
#include "rehearse/confused.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "rehearse/estimate.h"

enum { SHOWN = 20 };

/* Most calls first; the tally holds them by cause, so ties are in name order. */
static int by_count(const void *a, const void *b)
{
    const mistaken *x = a, *y = b;
    if (x->count != y->count) return THREE_WAY(y->count, x->count);
    int causes = THREE_WAY(x->cause, y->cause);
    return causes != 0 ? causes : THREE_WAY(x->blamed, y->blamed);
}

static const bool *askable_by(arena *scratch, const book *b, uint32_t role)
{
    bool *askable = ARENA_ARRAY(scratch, bool, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        askable[q] = book_may_work(b, role, b->questions[q].role, &b->questions[q].harm) &&
                     b->questions[q].about == ABOUT_FAULT && !safety_forbids(&b->questions[q].harm);
    return askable;
}

/* Of a component with several questions, the one that alone tells most. */
static uint32_t best_question(arena *scratch, const net *n, uint32_t component_index,
                              uint32_t cause, uint32_t rival, const bool *askable)
{
    assert(component_index < n->component_count && cause != rival);
    const component *g = &n->components[component_index];
    uint32_t best = NO_ID, ignored;
    double least = INFINITY;
    for (uint32_t i = 0; i < g->finding_count; i++) {
        if (!askable[g->findings[i]]) continue;
        bool *alone = ARENA_ARRAY(scratch, bool, n->in.finding_count);
        alone[g->findings[i]] = true;
        double overlap = belief_overlap(n, scratch, cause, rival, alone, &ignored);
        if (overlap >= least) continue;
        least = overlap;
        best = g->findings[i];
    }
    return best;
}

static bool serves(const struct fix *f, uint32_t cause)
{
    for (uint32_t i = 0; i < f->cures_count; i++)
        if (f->cures[i].cause == cause) return true;
    return false;
}

static bool one_fix_serves(const book *b, uint32_t cause, uint32_t rival)
{
    for (uint32_t f = 0; f < b->fix_count; f++)
        if (serves(&b->fixes[f], cause) && serves(&b->fixes[f], rival)) return true;
    return false;
}

static const char *name_of(arena *keep, const book *b, uint32_t cause)
{
    assert(cause <= b->cause_count);
    return cause == b->cause_count ? NULL : cstr(keep, b->causes[cause].id.name);
}

static const char *text_of(arena *keep, const book *b, uint32_t cause)
{
    assert(cause <= b->cause_count);
    return cause == b->cause_count ? "Something not listed here"
                                   : cstr(keep, texts_for(&b->causes[cause].text, b->language));
}

static void add_help(arena *keep, arena *scratch, const program *p, const mistaken *m,
                     const bool *askable, tt_confused *out)
{
    assert(m->cause != m->blamed && m->count > 0);
    uint32_t component_index;
    out->overlap =
        belief_overlap(p->evidence, scratch, m->cause, m->blamed, askable, &component_index);
    out->one_fix = one_fix_serves(p->book, m->cause, m->blamed);
    if (component_index == NO_COMPONENT) return;
    uint32_t q = best_question(scratch, p->evidence, component_index, m->cause, m->blamed, askable);
    if (q == NO_ID) return;
    out->question = cstr(keep, p->book->questions[q].id.name);
    out->ask = cstr(keep, texts_for(&p->book->questions[q].ask, p->book->language));
}

const tt_confused *confused_pairs(arena *keep, arena *scratch, const program *p, const tally *t,
                                  uint32_t role, uint32_t *count)
{
    assert(role < p->book->role_count);
    const book *b = p->book;
    mistaken *sorted = ARENA_ARRAY(scratch, mistaken, t->mistake_count);
    for (uint32_t i = 0; i < t->mistake_count; i++) sorted[i] = t->mistakes[i];
    SORT(sorted, t->mistake_count, by_count);
    const bool *askable = askable_by(scratch, b, role);
    *count = t->mistake_count < SHOWN ? t->mistake_count : SHOWN;
    tt_confused *all = ARENA_ARRAY(keep, tt_confused, *count);
    for (uint32_t i = 0; i < *count; i++) {
        const mistaken *m = &sorted[i];
        all[i] = (tt_confused){.name = name_of(keep, b, m->cause),
                               .text = text_of(keep, b, m->cause),
                               .blamed_name = name_of(keep, b, m->blamed),
                               .blamed_text = text_of(keep, b, m->blamed),
                               .calls = share_of(m->count, t->calls_of[m->cause]),
                               .overlap = NAN};
        if (m->cause < b->cause_count && m->blamed < b->cause_count)
            add_help(keep, scratch, p, m, askable, &all[i]);
    }
    return all;
}
