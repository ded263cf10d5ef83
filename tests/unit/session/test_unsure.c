/* Somebody who can't answer is not asked through the whole book: each "not sure" makes the next
 * answer less likely. */
#include "testing.h"

#include "open_gate.h"
#include "small_book.h"
#include "telltale.h"
#include "test_sources.h"

enum { CAUSES = 24 };

/* Every cause has one question of its own and a fix of its own. */
static const char *book_of_many(arena *a)
{
    text_builder b = {.keep = a};
    text_add(&b, STR("book:\n  title: Many\n  roles: [helper, technician]\nquestions:\n"));
    for (int i = 0; i < CAUSES; i++)
        text_addf(&b, "  q%02d:\n    ask: Sign %d?\n    usual: no\n    takes: 1 min\n", i, i);
    text_add(&b, STR("symptoms:\n"));
    for (int i = 0; i < CAUSES; i++)
        text_addf(&b,
                  "  s%02d:\n    text: Sign %d\n    when: {q%02d: yes}\n    shown-by: {c%02d: "
                  "almost always}\n",
                  i, i, i, i);
    text_add(&b, STR("causes:\n"));
    for (int i = 0; i < CAUSES; i++) text_addf(&b, "  c%02d: {text: Cause-%d}\n", i, i);
    text_add(&b, STR("fixes:\n"));
    for (int i = 0; i < CAUSES; i++)
        text_addf(&b,
                  "  f%02d:\n    text: Fix %d\n    role: helper\n    cures: {c%02d: usually}\n    "
                  "harm: none\n    put-back: not needed\n",
                  i, i, i);
    return text_done(&b).p;
}

/* Questions asked until something else comes, all answered alike. */
static unsigned asked(const tt_book *book, tt_reply reply)
{
    tt_case *c;
    const tt_view *v;
    unsigned count = 0;
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    open_gate(c);
    while (tt_look(c, &v) == TT_OK && v->step == TT_ASK) {
        assert_int_equal(tt_answer(c, v->next.question, &reply), TT_OK);
        count++;
    }
    tt_case_free(c);
    return count;
}

static void who_cannot_answer_is_soon_handed_over(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_book *book = small_book(book_of_many(a));
    unsigned unsure = asked(book, (tt_reply){.kind = TT_UNSURE}),
             cannot = asked(book, (tt_reply){.kind = TT_CANNOT});
    assert_true(unsure >= 2);
    assert_true(unsure <= CAUSES * 2 / 3); /* all of them, if nobody counted */
    assert_int_equal(cannot, unsure);
    tt_book_free(book);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(who_cannot_answer_is_soon_handed_over)};
    return cmocka_run_group_tests_name("unsure", tests, NULL, NULL);
}
