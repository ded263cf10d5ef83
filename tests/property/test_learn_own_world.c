/* A shipped book learned from calls that are drawn from its own numbers, with its facts, rules,
 * several pieces of equipment and slips: `learn` has nothing to say against the author, whose
 * numbers are the truth. Calls are those of `rehearse`; every question about signs is answered, and
 * what was wrong is told.
 *
 * TT_OWN_CALLS: so many calls instead. */
#include <stdio.h>
#include <stdlib.h>

#include "rehearse/made_call.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

static arena *a;

static void tell(tt_case *c, const made_call *call)
{
    const program *p = call->from->prog;
    for (uint32_t q = 0; q < p->book->question_count; q++) {
        if (!p->is_evidence[q] || p->book->questions[q].kind == QUESTION_QUANTITY) continue;
        const tt_reply said = call_reply(call, q, 0);
        if (tt_answer(c, q, &said) == TT_NO_MEMORY) fail_msg("no memory");
    }
}

static bool add_call(tt_learning *l, const made_from *from, const world *in, uint64_t number)
{
    tt_case *c;
    made_call call;
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    assert_int_equal(tt_case_new(tt_learning_book(l), &(tt_options){.role = TT_NONE}, &c), TT_OK);
    assert_int_equal(call_draw(keep, scratch, from, in, number, c, &call), TT_OK);
    const bool alone = call.size == 1;
    if (alone) {
        const str name = from->prog->book->causes[call.causes[0]].id.name;
        tell(c, &call);
        assert_int_equal(tt_learning_add(l, c, str_copy(keep, name).p, true), TT_OK);
    }
    tt_case_free(c);
    arena_free(keep);
    arena_free(scratch);
    return alone;
}

static void print_number(const tt_learned *n)
{
    print_message("%d %s %s (%s): %.4f, learned %.4f (%.4f to %.4f) from %.1f of %.0f\n", n->kind,
                  n->symptom, n->cause, n->at, n->before, n->after, n->low, n->high, n->cases,
                  n->of);
}

static void check_book(const shipped_book *shipped, uint32_t calls)
{
    tt_learning *l;
    tt_report *report;
    const tt_lesson *lesson;
    tt_source *files = ARENA_ARRAY(a, tt_source, shipped->files.count);
    for (uint32_t i = 0; i < shipped->files.count; i++)
        files[i] = (tt_source){shipped->files.items[i].name.p, shipped->files.items[i].bytes.p,
                               shipped->files.items[i].bytes.n};
    assert_int_equal(tt_learning_new(files, shipped->files.count, &l, &report), TT_OK);
    tt_report_free(report);
    const program *p = tt_learning_book(l)->prog;
    const world in = world_written(a, p);
    const made_from from = {.prog = p, .seed = 11};
    for (uint64_t i = 0; i < calls; i++) add_call(l, &from, &in, i);
    assert_int_equal(tt_learning_look(l, "2026-01-01T00:00:00Z", &lesson), TT_OK);
    uint32_t outside = 0;
    for (uint32_t i = 0; i < lesson->count; i++) {
        outside += lesson->items[i].outside;
        if (lesson->items[i].outside) print_number(&lesson->items[i]);
    }
    print_message("%s: %u of %u numbers lie outside, %u cases\n", shipped->folder, outside,
                  lesson->count, lesson->cases);
    assert_true(lesson->count > 20);
    assert_true(outside <= 0.07 * lesson->count);
    tt_learning_free(l);
}

static void true_numbers_are_left_in_peace(void **state)
{
    (void)state;
    const char *wanted = getenv("TT_OWN_CALLS");
    const shipped_book foam_line = shipped_named(a, "foam-line");
    check_book(&foam_line, wanted != NULL ? (uint32_t)strtoul(wanted, NULL, 10) : 600);
}

static int begin(void **state)
{
    (void)state;
    a = test_arena();
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(true_numbers_are_left_in_peace)};
    return cmocka_run_group_tests_name("learn own world", tests, begin, NULL);
}
