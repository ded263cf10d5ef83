/* The clairvoyant against a twin that goes through every order of fixes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "choice_twin.h"
#include "luck.h"
#include "open_gate.h"
#include "rehearse/clairvoyant.h"
#include "small_book.h"
#include "test_sources.h"

enum { FIXES = 5, BOOKS = 60, CALL_OUT = 90 };

/* Two causes; fixes that cure one of them, or both, with chances and minutes of all sorts. */
static const char *draw_book(arena *keep, uint64_t *random)
{
    text_builder b = {.keep = keep};
    text_add(&b,
             STR("book: {title: Two, roles: [anybody, fitter], not-listed: 5 %, two-faults: 20 %, "
                 "call-out: 90 minutes}\n"
                 "questions:\n  lamp:\n    ask: Is it dark?\n    takes: 1 min\n"
                 "symptoms:\n  dark: {text: Dark, when: {lamp: yes}, shown-by: {a: 80 %}}\n"
                 "causes:\n  a: {text: A}\n  b: {text: B}\n"
                 "fixes:\n"));
    for (unsigned f = 0; f < FIXES; f++) {
        const unsigned which = 1 + luck_below(random, 3);
        const char *role = luck_below(random, 6) == 0 ? "fitter" : "anybody";
        const unsigned one = 5 + luck_below(random, 95), two = 5 + luck_below(random, 95),
                       wrongly = luck_below(random, 40);
        str cures = which == 1   ? str_printf(keep, "{a: %u %%}", one)
                    : which == 2 ? str_printf(keep, "{b: %u %%}", two)
                                 : str_printf(keep, "{a: %u %%, b: %u %%}", one, two);
        text_add(&b,
                 str_printf(keep,
                            "  f%u: {text: F, role: %s, cures: %.*s, done-wrongly: %u %%, takes: "
                            "%u min, harm: none, put-back: not needed}\n",
                            f, role, STR_ARG(cures), wrongly, 1 + luck_below(random, 60)));
    }
    return text_done(&b).p;
}

static double cure(const made_call *call, uint32_t fix, uint32_t cause)
{
    const struct fix *f = &call->from->prog->book->fixes[fix];
    for (uint32_t i = 0; i < f->cures_count; i++)
        if (f->cures[i].cause == cause) return f->cures[i].chance;
    return 0;
}

/* Expected minutes of the best course, remembering nothing. `left`: bits of the two causes. */
static double best(const made_call *call, unsigned tried, unsigned left, uint32_t *first)
{
    const book *b = call->from->prog->book;
    double least = left == 0 ? 0 : CALL_OUT;
    *first = NO_ID;
    for (uint32_t f = 0; f < FIXES && left != 0; f++) {
        uint32_t ignored;
        if ((tried >> f & 1) != 0 || b->fixes[f].role != 0) continue;
        double minutes = b->fixes[f].minutes;
        for (unsigned gone = 0; gone < 4; gone++) {
            const double wrongly = b->fixes[f].done_wrongly;
            double chance = (gone & ~left) == 0 ? 1 - wrongly : 0;
            for (unsigned k = 0; k < 2; k++)
                if ((left >> k & 1) != 0)
                    chance *= (gone >> k & 1) != 0 ? cure(call, f, call->causes[k])
                                                   : 1 - cure(call, f, call->causes[k]);
            if (gone == 0) chance += wrongly;
            if (chance > 0) minutes += chance * best(call, tried | 1U << f, left & ~gone, &ignored);
        }
        if (minutes < least - 1e-9) *first = f;
        least = fmin(least, minutes);
    }
    return least;
}

static void check_call(arena *keep, tt_book *book, made_call *call)
{
    tt_case *c;
    const tt_view *v;
    uint32_t first;
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    open_gate(c);
    assert_int_equal(tt_look(c, &v), TT_OK);
    best(call, 0, (1U << call->size) - 1, &first);
    assert_int_equal(clairvoyant_fix(keep, c, call), first);
    if (first != NO_ID) { /* and on, once it was in vain */
        assert_int_equal(tt_fix_tried(c, first, TT_NO_CHANGE), TT_OK);
        assert_int_equal(tt_look(c, &v), TT_OK);
        const uint32_t before = first;
        best(call, 1U << before, (1U << call->size) - 1, &first);
        assert_int_equal(clairvoyant_fix(keep, c, call), first);
    }
    tt_case_free(c);
}

static void it_takes_the_cheapest_course(void **state)
{
    (void)state;
    uint64_t random = 17;
    for (int i = 0; i < BOOKS; i++) {
        arena *keep = test_arena();
        tt_book *book = small_book(draw_book(keep, &random));
        const world in = world_written(keep, book->prog);
        const made_from from = {.prog = book->prog, .seed = 1};
        made_call call = {.from = &from, .in = &in};
        check_call(keep, book, &call); /* not listed: calling at once */
        call.size = 1;
        check_call(keep, book, &call);
        call.causes[0] = 1;
        check_call(keep, book, &call);
        call.size = 2;
        call.causes[0] = 0;
        call.causes[1] = 1;
        check_call(keep, book, &call);
        tt_book_free(book);
        arena_free(keep);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(it_takes_the_cheapest_course)};
    return cmocka_run_group_tests_name("clairvoyant", tests, NULL, NULL);
}
