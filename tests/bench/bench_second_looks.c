/* What second looks are worth: made-up calls of a shipped book, played as they are and again by a
 * case that never looks twice, with the same luck.
 *
 *     bench_second_looks BOOK ROLE CALLS [FIRST [SEED]]
 *
 * Minutes are those worked by everybody, waiting aside; and those of whoever asked first, a
 * call-out counted. See docs/mathematics.md, "Looking twice". */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "rehearse/play.h"
#include "shipped_books.h"
#include "test_sources.h"

typedef struct sums {
    double of, squares;
} sums;

typedef struct bench {
    const tt_book *book;
    uint32_t role;
    arena *keep, *of_call;
    made_from from;
    world in;
    uint64_t calls, with_looks, looks, with_clash, false_clash, fixes[2];
    sums own, all; /* minutes more for never looking twice */
    double minutes[2], worked[2];
} bench;

static tt_case *fresh(const bench *b, bool once)
{
    tt_case *c = NULL;
    if (tt_case_new(b->book, &(tt_options){.role = b->role}, &c) != TT_OK) abort();
    c->looks_once = once;
    return c;
}

static played play(bench *b, const made_call *drawn, bool once)
{
    played out;
    made_call call = call_copy(b->of_call, drawn);
    tt_case *c = fresh(b, once);
    if (call_play(b->of_call, c, &call, WAY_TELLTALE, &out) != TT_OK) abort();
    tt_case_free(c);
    return out;
}

static void add(sums *s, double x)
{
    s->of += x;
    s->squares += x * x;
}

static double worked(const played *p)
{
    return p->working + p->over.minutes;
}

static void one_call(bench *b, uint64_t number)
{
    made_call call;
    arena_back_to(b->of_call, (arena_mark){NULL, 0});
    tt_case *c = fresh(b, false);
    if (call_draw(b->of_call, b->of_call, &b->from, &b->in, number, c, &call) != TT_OK) abort();
    tt_case_free(c);
    const played twice = play(b, &call, false);
    const uint32_t looks = twice.looks + twice.over.looks;
    const played once = looks > 0 ? play(b, &call, true) : twice;
    const double own = once.minutes - twice.minutes, all = worked(&once) - worked(&twice);
    b->calls++;
    b->looks += looks;
    b->with_looks += looks > 0;
    b->with_clash += twice.clashes > 0;
    b->false_clash += twice.false_clashes > 0;
    b->minutes[0] += twice.minutes;
    b->minutes[1] += once.minutes;
    b->worked[0] += worked(&twice);
    b->worked[1] += worked(&once);
    b->fixes[0] += twice.fixes + twice.over.fixes;
    b->fixes[1] += once.fixes + once.over.fixes;
    add(&b->own, own);
    add(&b->all, all);
    if (getenv("TT_TELL") != NULL && looks > 0)
        printf("call %llu: %u looks, %u clashes, %.1f min and %.1f by all less\n",
               (unsigned long long)number, looks, twice.clashes, own, all);
}

static void tell(const char *what, const sums *s, uint64_t calls)
{
    const double n = (double)calls, mean = s->of / n;
    printf("%s: %.2f ± %.2f minutes a call more without\n", what, mean,
           1.96 * sqrt(fmax(0, s->squares / n - mean * mean) / n));
}

int main(int argc, char **argv)
{
    if (argc < 4) return 1;
    arena *keep = test_arena();
    const shipped_book shipped = shipped_named(keep, argv[1]);
    const uint64_t first = argc > 4 ? strtoull(argv[4], NULL, 10) : 0;
    bench b = {.book = shipped_load(keep, &shipped), .keep = keep, .of_call = test_arena()};
    b.role = tt_role_find(b.book, argv[2]);
    b.from = (made_from){.prog = b.book->prog, .seed = argc > 5 ? strtoull(argv[5], NULL, 10) : 1};
    b.in = world_written(keep, b.book->prog);
    for (uint64_t i = 0; i < strtoull(argv[3], NULL, 10); i++) one_call(&b, first + i);
    const double n = (double)b.calls;
    printf("%s, %s: %llu calls, %.3f further looks a call, in %llu of them\n", argv[1], argv[2],
           (unsigned long long)b.calls, (double)b.looks / n, (unsigned long long)b.with_looks);
    printf("clashes told in %llu calls, with nothing read amiss in %llu\n",
           (unsigned long long)b.with_clash, (unsigned long long)b.false_clash);
    printf("minutes %.2f with, %.2f without; worked by all %.2f and %.2f; fixes %.3f and %.3f\n",
           b.minutes[0] / n, b.minutes[1] / n, b.worked[0] / n, b.worked[1] / n,
           (double)b.fixes[0] / n, (double)b.fixes[1] / n);
    tell("whoever asks", &b.own, b.calls);
    tell("worked by all", &b.all, b.calls);
    return 0;
}
