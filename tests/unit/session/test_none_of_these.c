/* What a case says where no listed cause holds: probably none of these, nothing out of order. And
 * how few causes hold nearly all of the belief. */
#include <math.h>
#include <string.h>

#include "open_gate.h"
#include "show/standing_text.h"
#include "small_book.h"
#include "test_sources.h"
#include "testing.h"

/* Three fixes that nearly always cure; three looks that are usually in order. */
static const char book_text[] =
    "book: {title: Pump, roles: [anybody], not-listed: 5 %, two-faults: 0 %}\n"
    "questions:\n"
    "  drip: {ask: Drips, answers: {yes: Yes, no: No}, usual: no, read-right: 99 %}\n"
    "  hum: {ask: Hums, answers: {yes: Yes, no: No}, usual: no}\n"
    "  lamp: {ask: Dark, answers: {yes: Yes, no: No}, usual: no}\n"
    "symptoms:\n"
    "  drips: {text: Drips, when: {drip: yes}, shown-by: {seal: 60 %}, otherwise: 1 %}\n"
    "  hums: {text: Hums, when: {hum: yes}, shown-by: {motor: 60 %}}\n"
    "  dark: {text: Dark, when: {lamp: yes}, shown-by: {fuse: 60 %}}\n"
    "causes:\n"
    "  seal: {text: Seal}\n"
    "  motor: {text: Motor}\n"
    "  fuse: {text: Fuse}\n"
    "fixes:\n"
    "  mend-seal: {text: Seal, role: anybody, cures: {seal: 99 %}, takes: 5 min, harm: none, "
    "put-back: not needed}\n"
    "  mend-motor: {text: Motor, role: anybody, cures: {motor: 99 %}, takes: 5 min, harm: none, "
    "put-back: not needed}\n"
    "  mend-fuse: {text: Fuse, role: anybody, cures: {fuse: 99 %}, takes: 5 min, harm: none, "
    "put-back: not needed}\n";

static const tt_view *look(tt_case *c)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    return v;
}

static tt_case *begun(const tt_book *book)
{
    tt_case *c;
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    open_gate(c);
    return c;
}

static const char *leads(arena *keep, const tt_view *v)
{
    const list_end end = end_of_list(v, v->cause_count);
    const char *words = where_it_leads(keep, TONGUE_EN, &end);
    return words == NULL ? "" : words;
}

static void answer(tt_case *c, const tt_book *book, const char *question, uint32_t option)
{
    const tt_reply reply = {.kind = TT_ANSWER, .option = option};
    assert_int_equal(tt_answer(c, tt_question_find(book, question), &reply), TT_OK);
}

static void after_three_in_vain_it_is_probably_none(void **state)
{
    (void)state;
    static const char *const fixes[] = {"mend-seal", "mend-motor", "mend-fuse"};
    tt_book *book = small_book(book_text);
    arena *keep = test_arena();
    tt_case *c = begun(book);
    for (int i = 0; i < 3; i++) {
        assert_false(look(c)->probably_none);
        assert_int_equal(tt_fix_tried(c, tt_fix_find(book, fixes[i]), TT_NO_CHANGE), TT_OK);
    }
    const tt_view *v = look(c);
    assert_true(v->not_listed_leads && v->probably_none && !v->nothing_wrong);
    assert_non_null(strstr(leads(keep, v), "Probably none of these"));
    tt_case_free(c);
    arena_free(keep);
    tt_book_free(book);
}

static void three_looks_in_order_say_so(void **state)
{
    (void)state;
    tt_book *book = small_book(book_text);
    arena *keep = test_arena();
    tt_case *c = begun(book);
    answer(c, book, "drip", 1);
    answer(c, book, "hum", 1);
    assert_false(look(c)->nothing_wrong);
    answer(c, book, "lamp", 1);
    assert_true(look(c)->nothing_wrong);
    assert_non_null(strstr(leads(keep, look(c)), "Nothing here is out of order"));
    answer(c, book, "lamp", 0);
    assert_false(look(c)->nothing_wrong);
    tt_case_free(c);
    arena_free(keep);
    tt_book_free(book);
}

static void the_set_holds_nine_in_ten_and_no_smaller_one_does(void **state)
{
    (void)state;
    tt_book *book = small_book(book_text);
    tt_case *c = begun(book);
    for (uint32_t told = 0; told < 2; told++) {
        const tt_view *v = look(c);
        double held = 0;
        for (uint32_t i = 0; i < v->likely_count; i++) {
            assert_true(held < .9);
            held += v->causes[i].chance;
        }
        assert_true(held >= .9);
        assert_true(fabs(v->likely_chance - held) < 1e-12);
        assert_int_equal(v->likely_count, told == 0 ? 3 : 1);
        answer(c, book, "drip", 0);
    }
    tt_case_free(c);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(after_three_in_vain_it_is_probably_none),
        cmocka_unit_test(three_looks_in_order_say_so),
        cmocka_unit_test(the_set_holds_nine_in_ten_and_no_smaller_one_does),
    };
    return cmocka_run_group_tests_name("none of these", tests, NULL, NULL);
}
