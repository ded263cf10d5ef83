/* How far people walk in made-up calls of a shipped book: a line a call, for comparing two builds
 * call by call.
 *
 *     bench_places BOOK ROLE CALLS [FIRST [SEED]]
 *
 * A line: changes of place, minutes of walking, minutes with walking of whoever asks first and of
 * all, how often somebody had to be waited for, questions. See docs/mathematics.md, "Places". */
#include <stdio.h>
#include <stdlib.h>

#include "rehearse/play.h"
#include "shipped_books.h"
#include "test_sources.h"

static uint32_t place_of(const book *b, const played_step *s)
{
    if (s->fix) return b->fixes[s->subject].place;
    const struct question *q = &b->questions[s->subject];
    uint32_t place = q->place;
    for (uint32_t i = 0; q->kind == QUESTION_QUANTITY && i < q->beneath.count; i++)
        if (b->questions[q->beneath.items[i]].place != NO_ID)
            place = b->questions[q->beneath.items[i]].place;
    return place;
}

static void tell(const book *b, const played *p)
{
    uint32_t at = NO_ID, changes = 0;
    double minutes = 0;
    for (uint32_t i = 0; i < p->path_count; i++) {
        const uint32_t place = place_of(b, &p->path[i]);
        if (place == NO_ID) continue;
        changes += at != NO_ID && place != at;
        if (at != NO_ID && place != at) minutes += book_walk(b, at, place);
        at = place;
    }
    printf("%u %.3f %.3f %.3f %u %u\n", changes, minutes, p->working + minutes,
           p->working + minutes + p->over.minutes, (p->end == END_CALLED) + p->over.times,
           p->questions);
}

int main(int argc, char **argv)
{
    if (argc < 4) return 1;
    arena *keep = test_arena(), *of_call = test_arena();
    const uint64_t first = argc > 4 ? strtoull(argv[4], NULL, 10) : 0;
    const shipped_book shipped = shipped_named(keep, argv[1]);
    const tt_book *book = shipped_load(keep, &shipped);
    const uint32_t role = tt_role_find(book, argv[2]);
    const made_from from = {.prog = book->prog, .seed = argc > 5 ? strtoull(argv[5], NULL, 10) : 1};
    const world in = world_written(keep, book->prog);
    for (uint64_t i = 0; i < strtoull(argv[3], NULL, 10); i++) {
        made_call call;
        played out;
        tt_case *c[2];
        arena_back_to(of_call, (arena_mark){NULL, 0});
        for (int k = 0; k < 2; k++)
            if (tt_case_new(book, &(tt_options){.role = role}, &c[k]) != TT_OK) abort();
        if (call_draw(of_call, of_call, &from, &in, first + i, c[0], &call) != TT_OK ||
            call_play(of_call, c[1], &call, WAY_TELLTALE, &out) != TT_OK)
            abort();
        tell(book->book, &out);
        for (int k = 0; k < 2; k++) tt_case_free(c[k]);
    }
    return 0;
}
