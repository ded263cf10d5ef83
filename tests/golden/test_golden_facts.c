/* Facts not yet told: chances that facts_untold.py worked out in 50 digits from one whole table. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "small_book.h"
#include "telltale.h"
#include "testing.h"

static const char rules[] =
    "book:\n"
    "  title: Facts\n"
    "  roles: [anybody]\n"
    "  two-faults: 0 %\n"
    "questions:\n"
    "  sign: {ask: Sign, usual: no}\n"
    "  season:\n"
    "    ask: Which season is it?\n"
    "    about: today\n"
    "    answers: {cold: Cold, mild: Mild, warm: Warm}\n"
    "    shares: {cold: 25 %, mild: 50 %, warm: 25 %}\n"
    "  wind:\n"
    "    ask: Is there wind?\n"
    "    about: today\n"
    "    shares: {yes: 30 %, no: 70 %}\n"
    "  side:\n"
    "    ask: From which side?\n"
    "    about: today\n"
    "    only-when: {wind: yes}\n"
    "    answers: {left: Left, right: Right}\n"
    "    shares: {left: 60 %, right: 40 %}\n"
    "symptoms:\n"
    "  shows:\n"
    "    text: It shows\n"
    "    when: {sign: yes}\n"
    "    shown-by: {frost: often, dust: often, leak: often, worn: often}\n"
    "causes:\n"
    "  frost: {text: Frost, how-often: 2}\n"
    "  dust: {text: Dust, how-often: 3}\n"
    "  leak: {text: Leak, how-often: 1}\n"
    "  worn: {text: Worn, how-often: 5}\n"
    "conclusions: {dusty: {text: Dusty}}\n"
    "rules:\n"
    "  cold: {when: {season: cold}, then: {likelier: {frost: 10 times}}}\n"
    "  no-cold: {when: {season: [mild, warm]}, then: {rule-out: [frost]}}\n"
    "  blown: {when: {wind: yes}, then: {less-likely: {frost: 3 times}}}\n"
    "  dust-flies: {when: {wind: yes, season: warm}, then: {set: {dusty: yes}}}\n"
    "  dust: {when: {dusty: yes}, then: {likelier: {dust: 4 times}}}\n"
    "  field: {when: {side: left}, then: {likelier: {dust: 6 times}}}\n"
    "  pipes:\n"
    "    when: {any: [{wind: no}, {season: cold}]}\n"
    "    then: {likelier: {leak: 2 times}}\n";

static void tell(tt_book *book, tt_case *c, char *said)
{
    for (char *rest = NULL, *one = strtok_r(said, ",", &rest); one != NULL;
         one = strtok_r(NULL, ",", &rest)) {
        char *is = strchr(one, '=');
        if (is == NULL) continue;
        *is = '\0';
        tt_reply reply;
        const char *why;
        const uint32_t question = tt_question_find(book, one);
        assert_int_not_equal(question, TT_NONE);
        assert_int_equal(tt_reply_read(c, question, is + 1, &reply, &why), TT_OK);
        assert_int_equal(tt_answer(c, question, &reply), TT_OK);
    }
}

static double chance_of(tt_case *c, const char *cause)
{
    const tt_view *v = NULL;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("no cause %s", cause);
    return NAN;
}

static void chances_are_those_of_the_whole_table(void **state)
{
    (void)state;
    tt_book *book = small_book(rules);
    FILE *golden = fopen(TT_SOURCE_DIR "/tests/golden/data/facts_untold.tsv", "r");
    assert_non_null(golden);
    char said[200], cause[40], number[60];
    unsigned lines = 0;
    for (; fscanf(golden, "%199s %39s %59s", said, cause, number) == 3; lines++) {
        tt_case *c = NULL;
        assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
        tell(book, c, said);
        double wanted = strtod(number, NULL), is = chance_of(c, cause);
        if (!(fabs(is - wanted) < 1e-12)) fail_msg("%s %s: %.17g, not %s", said, cause, is, number);
        tt_case_free(c);
    }
    assert_int_equal(lines, 32);
    fclose(golden);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(chances_are_those_of_the_whole_table)};
    return cmocka_run_group_tests_name("golden facts", tests, NULL, NULL);
}
