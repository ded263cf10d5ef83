/* A case that was learned from stands as before: learning looks at one fault at a time, whoever
 * looks at it afterwards sees two as well. */
#include <stdlib.h>

#include "base/arena.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

static const char rules[] =
    "book:\n"
    "  title: Pumps\n"
    "  roles: [helper]\n"
    "  two-faults: 20 %\n"
    "questions:\n"
    "  hum:\n"
    "    ask: How is the pump?\n"
    "    answers: {loud: Loud, quiet: Quiet}\n"
    "  drip:\n"
    "    ask: Does it drip?\n"
    "symptoms:\n"
    "  hums: {when: {hum: loud}, shown-by: {worn: usually}}\n"
    "  drips: {text: Drips, when: {drip: yes}, shown-by: {loose: usually}}\n"
    "causes:\n"
    "  worn: {text: Worn}\n"
    "  loose: {text: Loose}\n"
    "fixes:\n"
    "  mend:\n"
    "    text: Mend it\n"
    "    role: helper\n"
    "    cures: {worn: usually, loose: usually}\n"
    "    harm: none\n"
    "    put-back: not needed\n";

static tt_case *both_are_seen(const tt_book *book)
{
    static const char *const seen[][2] = {{"hum", "loud"}, {"drip", "yes"}};
    tt_case *c;
    assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    for (size_t i = 0; i < sizeof seen / sizeof *seen; i++) {
        const uint32_t question = tt_question_find(book, seen[i][0]);
        tt_reply reply;
        const char *why;
        assert_int_equal(tt_reply_read(c, question, seen[i][1], &reply, &why), TT_OK);
        assert_int_equal(tt_answer(c, question, &reply), TT_OK);
    }
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "mend"), TT_GONE), TT_OK);
    return c;
}

static char *standing_of(const tt_book *book, tt_case *c)
{
    const tt_origin origin = {.book = book, .revision = ""};
    char *json;
    assert_int_equal(tt_standing_json(&origin, c, &json), TT_OK);
    return json;
}

/* Whether somebody had looked at it before or not. */
static void it_stands_as_before(void **state)
{
    (void)state;
    tt_learning *l;
    tt_report *report;
    const tt_source file = {"rules.yaml", rules, sizeof rules - 1};
    const tt_status status = tt_learning_new(&file, 1, &l, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    const tt_book *book = tt_learning_book(l);
    tt_case *looked_at = both_are_seen(book), *unseen = both_are_seen(book);
    const tt_view *v;
    assert_int_equal(tt_look(looked_at, &v), TT_OK);
    assert_true(v->two_faults > 0.2);
    char *before = standing_of(book, looked_at);
    assert_int_equal(tt_learning_add(l, looked_at, "worn", false), TT_OK);
    assert_int_equal(tt_learning_add(l, unseen, "worn", false), TT_OK);
    char *after = standing_of(book, looked_at), *first = standing_of(book, unseen);
    assert_string_equal(after, before);
    assert_string_equal(first, before);
    free(before);
    free(after);
    free(first);
    tt_case_free(looked_at);
    tt_case_free(unseen);
    tt_learning_free(l);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(it_stands_as_before)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
