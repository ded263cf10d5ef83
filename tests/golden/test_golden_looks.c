/* Looks at the same thing: chances that looks_twice.py worked out in 50 digits, world by world. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "small_book.h"
#include "telltale.h"
#include "testing.h"

static const char rules[] =
    "book:\n"
    "  title: Looks\n"
    "  roles: [anybody]\n"
    "  two-faults: 0 %\n"
    "  not-listed: 0 %\n"
    "instruments:\n"
    "  gauge: {text: the gauge, wrong: 3 %, another: the spare gauge}\n"
    "  ears: {text: your ears, wrong: 4 %, own: yes}\n"
    "  poor: {text: the old meter, wrong: 20 %}\n"
    "questions:\n"
    "  dial: {ask: Dial, instrument: gauge, read-right: 95 %}\n"
    "  level:\n"
    "    ask: Level\n"
    "    instrument: gauge\n"
    "    read-right: 90 %\n"
    "    answers: {low: Low, mid: Middle, high: High}\n"
    "  hum: {ask: Hum, instrument: ears, read-right: 92 %}\n"
    "  drip: {ask: Drip, read-right: 95 %}\n"
    "  haze: {ask: Haze, instrument: poor, read-right: 95 %}\n"
    "symptoms:\n"
    "  dial-y: {text: A, when: {dial: yes}, shown-by: {a: 90 %, b: 20 %, c: 10 %}}\n"
    "  dial-n: {text: B, when: {dial: no}, shown-by: {a: 10 %, b: 80 %, c: 90 %}}\n"
    "  low: {text: C, when: {level: low}, shown-by: {a: 70 %, b: 10 %, c: 30 %}}\n"
    "  mid: {text: D, when: {level: mid}, shown-by: {a: 20 %, b: 30 %, c: 40 %}}\n"
    "  high: {text: E, when: {level: high}, shown-by: {a: 10 %, b: 60 %, c: 30 %}}\n"
    "  hum-y: {text: F, when: {hum: yes}, shown-by: {a: 30 %, b: 85 %, c: 50 %}}\n"
    "  hum-n: {text: G, when: {hum: no}, shown-by: {a: 70 %, b: 15 %, c: 50 %}}\n"
    "  drip-y: {text: H, when: {drip: yes}, shown-by: {a: 15 %, b: 10 %, c: 90 %}}\n"
    "  drip-n: {text: I, when: {drip: no}, shown-by: {a: 85 %, b: 90 %, c: 10 %}}\n"
    "  haze-y: {text: J, when: {haze: yes}, shown-by: {a: 60 %, b: 20 %, c: 30 %}}\n"
    "  haze-n: {text: K, when: {haze: no}, shown-by: {a: 40 %, b: 80 %, c: 70 %}}\n"
    "causes:\n"
    "  a: {text: First, how-often: 5}\n"
    "  b: {text: Second, how-often: 3}\n"
    "  c: {text: Third, how-often: 2}\n";

/* "dial=yes": first; "dial~yes": again; "dial!yes": with another. */
static void tell(tt_book *book, tt_case *c, char *said)
{
    for (char *rest = NULL, *one = strtok_r(said, ",", &rest); one != NULL;
         one = strtok_r(NULL, ",", &rest)) {
        char *is = strpbrk(one, "=~!");
        assert_non_null(is);
        const char op = *is;
        *is = '\0';
        tt_reply reply;
        const char *why;
        const uint32_t question = tt_question_find(book, one);
        assert_int_not_equal(question, TT_NONE);
        assert_int_equal(tt_reply_read(c, question, is + 1, &reply, &why), TT_OK);
        const tt_again how = op == '~' ? TT_LOOK_AGAIN : TT_LOOK_ANOTHER;
        assert_int_equal(op == '=' ? tt_answer(c, question, &reply)
                                   : tt_answer_again(c, question, &reply, how),
                         TT_OK);
    }
}

static double chance_of(tt_case *c, const char *cause)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("no cause %s", cause);
    return NAN;
}

static void chances_are_those_of_all_worlds(void **state)
{
    (void)state;
    tt_book *book = small_book(rules);
    FILE *golden = fopen(TT_SOURCE_DIR "/tests/golden/data/looks_twice.tsv", "r");
    assert_non_null(golden);
    char said[200], cause[40], number[60];
    unsigned lines = 0;
    for (; fscanf(golden, "%199s %39s %59s", said, cause, number) == 3; lines++) {
        tt_case *c = NULL;
        char line[200];
        snprintf(line, sizeof line, "%s", said);
        assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
        tell(book, c, said);
        const double wanted = strtod(number, NULL), is = chance_of(c, cause);
        if (!(fabs(is - wanted) < 1e-12)) fail_msg("%s %s: %.17g, not %s", line, cause, is, number);
        tt_case_free(c);
    }
    assert_int_equal(lines, 51);
    fclose(golden);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(chances_are_those_of_all_worlds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
