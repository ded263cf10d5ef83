/* More facts bear on one cause than one sum goes over: then each rule is summed by itself. Where
 * rules share no fact that is exact, and here a twin has the same chances in closed form, raked to
 * the facts' shares; a rule over too many facts waits until they are told. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "compile/facts.h"
#include "session/session.h"
#include "small_book.h"
#include "testing.h"

enum { FACTS = 15, SHARE = 30, FIRST = 3, SECOND = 1, TIMES_OF_ANY = 7 };
#define CLOSE 1e-9

_Static_assert(1 << FACTS > FACTS_COMBINATIONS_MAX, "or all is one sum");

/* Odd facts speak for the first cause, the others against it. */
static double factor_of(uint32_t fact)
{
    return fact % 2 == 1 ? 2.0 + fact % 3 : 1.0 / (2 + fact % 4);
}

static void write_rules(FILE *out)
{
    for (uint32_t i = 0; i < FACTS; i++)
        fprintf(out, "  rule-%u:\n    when: {fact-%u: yes}\n    then: {%s: {hose: %.0f times}}\n",
                i, i, factor_of(i) > 1 ? "likelier" : "less-likely",
                factor_of(i) > 1 ? factor_of(i) : 1 / factor_of(i));
}

static void write_rule_of_any(FILE *out)
{
    fputs("  rule-any:\n    when:\n      any: [", out);
    for (uint32_t i = 0; i < FACTS; i++) fprintf(out, "%s{fact-%u: yes}", i > 0 ? ", " : "", i);
    fprintf(out, "]\n    then: {likelier: {hose: %d times}}\n", TIMES_OF_ANY);
}

static tt_book *book_with(void (*rules)(FILE *out))
{
    char *text = NULL;
    size_t size;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    fputs("book: {title: Many, roles: [anybody], two-faults: 0 %}\nquestions:\n  sign: {ask: Sign, "
          "usual: no}\n",
          out);
    for (uint32_t i = 0; i < FACTS; i++)
        fprintf(out,
                "  fact-%u:\n    ask: Fact %u?\n    about: today\n    answers: {yes: Yes, no: "
                "No}\n    shares: {yes: %d %%, no: %d %%}\n",
                i, i, SHARE, 100 - SHARE);
    fprintf(out,
            "symptoms:\n  shows:\n    text: It shows\n    when: {sign: yes}\n    shown-by: {hose: "
            "50 %%, pump: 50 %%}\n"
            "causes:\n  hose: {text: Hose, how-often: %d}\n  pump: {text: Pump, how-often: "
            "%d}\nrules:\n",
            FIRST, SECOND);
    rules(out);
    fclose(out);
    tt_book *book = small_book(text);
    free(text);
    return book;
}

/* ---- the twin ---- */

typedef struct twin {
    double yes[FACTS]; /* so that each fact is as common as its share says, over both causes */
} twin;

static double mean_of(const twin *t, uint32_t fact)
{
    return t->yes[fact] * factor_of(fact) + 1 - t->yes[fact];
}

/* Weights of both causes; told: 1 yes, 0 no, -1 not. */
static void weights(const twin *t, const int *told, double out[2])
{
    out[0] = FIRST;
    out[1] = SECOND;
    for (uint32_t i = 0; i < FACTS; i++) {
        const double chance = told[i] < 0 ? 1 : told[i] == 1 ? t->yes[i] : 1 - t->yes[i];
        out[0] *= told[i] < 0 ? mean_of(t, i) : told[i] == 1 ? chance * factor_of(i) : chance;
        out[1] *= chance;
    }
}

static void rake(twin *t)
{
    int nothing[FACTS];
    double off = 1;
    for (uint32_t i = 0; i < FACTS; i++) nothing[i] = -1;
    for (uint32_t i = 0; i < FACTS; i++) t->yes[i] = SHARE / 100.0;
    for (uint32_t sweep = 0; sweep < 3000 && off > 1e-15; sweep++) {
        off = 0;
        for (uint32_t i = 0; i < FACTS; i++) {
            double w[2];
            weights(t, nothing, w);
            const double is = (w[0] * t->yes[i] * factor_of(i) / mean_of(t, i) + w[1] * t->yes[i]) /
                              (w[0] + w[1]),
                         wanted = SHARE / 100.0, yes = t->yes[i] * wanted / is,
                         no = (1 - t->yes[i]) * (1 - wanted) / (1 - is);
            off = fmax(off, fabs(is - wanted));
            t->yes[i] = yes / (yes + no);
        }
    }
    assert_true(off < 1e-13);
}

/* ---- the engine ---- */

static double odds_of_first(tt_case *c)
{
    const tt_view *v = NULL;
    double first = 0, second = 0;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++) {
        if (v->causes[i].name == NULL) continue;
        *(strcmp(v->causes[i].name, "hose") == 0 ? &first : &second) = v->causes[i].chance;
    }
    assert_true(first > 0 && second > 0);
    return first / second;
}

static void tell(tt_book *book, tt_case *c, uint32_t fact, bool yes)
{
    char name[32];
    snprintf(name, sizeof name, "fact-%u", fact);
    const tt_reply reply = {.kind = TT_ANSWER, .option = yes ? 0 : 1};
    assert_int_equal(tt_answer(c, tt_question_find(book, name), &reply), TT_OK);
}

static void rules_that_share_no_fact_are_summed_exactly(void **state)
{
    (void)state;
    tt_book *book = book_with(write_rules);
    tt_case *c;
    twin t;
    int told[FACTS];
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    for (uint32_t i = 0; i < FACTS; i++) told[i] = -1;
    rake(&t);
    for (uint32_t n = 0; n <= FACTS; n++) {
        double w[2];
        weights(&t, told, w);
        assert_true(fabs(odds_of_first(c) * w[1] / w[0] - 1) < CLOSE);
        if (n == FACTS) break;
        const uint32_t fact = n * 7 % FACTS;
        told[fact] = n % 3 != 0;
        tell(book, c, fact, told[fact] == 1);
    }
    tt_case_free(c);
    tt_book_free(book);
}

static void a_rule_over_too_many_facts_waits_to_be_told(void **state)
{
    (void)state;
    tt_book *book = book_with(write_rule_of_any);
    tt_case *c;
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    const double before = odds_of_first(c);
    assert_true(fabs(before * SECOND / FIRST - 1) < CLOSE);
    tell(book, c, 4, true);
    assert_true(fabs(odds_of_first(c) / before / TIMES_OF_ANY - 1) < CLOSE);
    tt_case_free(c);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rules_that_share_no_fact_are_summed_exactly),
        cmocka_unit_test(a_rule_over_too_many_facts_waits_to_be_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
