/* Rules and worked cases that say the same twice are told, and those that differ in anything at all
 * are not: each part of a condition, of a rule, of a call and of what is expected, turned alone. */
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "telltale.h"

static const char book_text[] =
    "book:\n  title: Pump\n  roles: [helper, technician]\n"
    "kinds:\n  filter: {one: filter, ask: \"Which filters are there?\"}\n"
    "site: {units: {filter: {coarse: {text: Coarse}, fine: {text: Fine}}}}\n"
    "questions:\n"
    "  drip:\n    ask: \"Does it drip?\"\n    answers: {much: Much, little: Little, dry: Dry}\n"
    "  running:\n    ask: \"Does it run?\"\n"
    "  humming:\n    ask: \"Does it hum?\"\n"
    "  gauge:\n    ask: \"What does it read?\"\n    reading: pressure\n    unit: psi\n"
    "    plausible: 0 to 100 psi\n"
    "  season:\n    ask: \"Is it winter?\"\n    about: today\n"
    "symptoms:\n"
    "  drips: {text: \"It drips\", when: {drip: much}, heard: [it drips], shown-by: {seal: "
    "often}}\n"
    "  silent: {text: \"It is silent\", when: {running: no}, heard: [silent], shown-by: {power: "
    "often}}\n"
    "  hums: {text: \"It hums\", when: {humming: yes}, shown-by: {power: often, seal: seldom}}\n"
    "conclusions:\n"
    "  cold: {text: \"It is cold\"}\n"
    "  hard: {text: \"It is hard\"}\n"
    "causes:\n  seal: {text: \"The seal is worn\"}\n  power: {text: \"There is no power\"}\n"
    "fixes:\n"
    "  new-seal: {text: \"Fit a seal\", role: helper, cures: {seal: usually}, harm: none, "
    "put-back: not needed}\n"
    "  supply: {text: \"Mend the supply\", role: helper, cures: {power: usually}, harm: none, "
    "put-back: not needed}\n"
    "rules:\n"
    "  wet: {when: {drip: much}, then: {caution: \"Wet floor\"}}\n"
    "  dark: {when: {running: no}, then: {caution: \"It may start\"}}\n"
    "  leave: {when: {humming: yes, drip: much}, then: {stop: \"Go away\"}}\n";

/* What is written for one of the two, and for the other. */
typedef struct pair {
    const char *one, *other;
    bool twice;
} pair;

#define RULE(when, then) "{when: {" when "}, then: {" then "}}"
#define LIKELIER         "likelier: {seal: 2 times}"
#define DRY              RULE("season: yes", LIKELIER)

static const pair rules[] = {
    {DRY, DRY, true},
    {DRY, RULE("season: yes", "likelier: {seal: 3 times}"), true}, /* of one cause */
    {DRY, RULE("season: yes", "less-likely: {power: 2 times}"), false},
    {RULE("season: yes", "likelier: {power: 2 times, seal: 2 times}"), DRY, true},
    {RULE("season: yes", "set: {cold: yes}"), RULE("season: yes", "set: {cold: yes}"), true},
    {RULE("season: yes", "set: {cold: yes}"), RULE("season: yes", "set: {hard: yes}"), false},
    {RULE("season: yes", "set: {cold: yes, hard: yes}"), RULE("season: yes", "set: {hard: yes}"),
     true},
    {RULE("season: yes", "set: {cold: yes}"), DRY, false},
    {DRY, RULE("season: no", LIKELIER), false},
    {DRY, RULE("running: yes", LIKELIER), false},
    {DRY, RULE("season: known", LIKELIER), false},
    {DRY, RULE("season: yes, running: yes", LIKELIER), false},
    {RULE("season: yes, running: yes", LIKELIER), RULE("season: yes, running: yes", LIKELIER),
     true},
    {RULE("season: yes, running: yes", LIKELIER), RULE("season: yes, running: no", LIKELIER),
     false},
    {RULE("any: [{season: yes}, {running: yes}]", LIKELIER),
     RULE("season: yes, running: yes", LIKELIER), false},
    {RULE("gauge: 10 to 20 psi", LIKELIER), RULE("gauge: 10 to 20 psi", LIKELIER), true},
    {RULE("gauge: 10 to 20 psi", LIKELIER), RULE("gauge: 11 to 20 psi", LIKELIER), false},
    {RULE("gauge: 10 to 20 psi", LIKELIER), RULE("gauge: 10 to 21 psi", LIKELIER), false},
    {RULE("gauge: below 20 psi", LIKELIER), RULE("gauge: at most 20 psi", LIKELIER), false},
    {RULE("gauge: above 20 psi", LIKELIER), RULE("gauge: at least 20 psi", LIKELIER), false},
    {RULE("at-least: {count: 1, of: [{season: yes}, {running: yes}, {humming: yes}]}", LIKELIER),
     RULE("at-least: {count: 2, of: [{season: yes}, {running: yes}, {humming: yes}]}", LIKELIER),
     false},
};

#define CASE(call, expect) "{" call ", expect: {" expect "}}"
#define TELLS              "answers: {drip: much}"
#define LEADS              "leading-cause: seal"
#define PLAIN              CASE(TELLS, LEADS)

static const pair cases[] = {
    {PLAIN, PLAIN, true},
    {PLAIN, CASE("answers: {drip: little}", LEADS), false},
    {PLAIN, CASE("answers: {humming: yes}", LEADS), false},
    {PLAIN, CASE("answers: {drip: much, humming: yes}", LEADS), false},
    {PLAIN, CASE("answers: {drip: unsure}", LEADS), false},
    {CASE("answers: {drip: {not: much}}", LEADS), CASE("answers: {drip: {not: dry}}", LEADS),
     false},
    {CASE("answers: {drip: {not: much}}", LEADS), CASE("answers: {drip: {not: much}}", LEADS),
     true},
    {CASE("answers: {gauge: 5 psi}", LEADS), CASE("answers: {gauge: 6 psi}", LEADS), false},
    {CASE("answers: {gauge: 5 psi}", LEADS), CASE("answers: {gauge: 5 psi}", LEADS), true},
    {PLAIN, CASE("as: technician, " TELLS, LEADS), false},
    {PLAIN, CASE("complaint: drips, " TELLS, LEADS), false},
    {CASE("complaint: silent, " TELLS, LEADS), CASE("complaint: drips, " TELLS, LEADS), false},
    {CASE("at: [coarse], " TELLS, LEADS), CASE("at: [fine], " TELLS, LEADS), false},
    {CASE("at: [coarse], " TELLS, LEADS), CASE("at: [coarse, fine], " TELLS, LEADS), false},
    {CASE("at: [coarse], " TELLS, LEADS), CASE("at: [coarse], " TELLS, LEADS), true},
    {PLAIN, CASE(TELLS, "leading-cause: power"), false},
    {PLAIN, CASE(TELLS, LEADS ", first-fix: new-seal"), false},
    {CASE(TELLS, "first-fix: supply"), CASE(TELLS, "first-fix: new-seal"), false},
    {PLAIN, CASE(TELLS, LEADS ", caution: wet"), false},
    {PLAIN, CASE(TELLS, LEADS ", next: running"), false},
    {CASE(TELLS, "next: humming"), CASE(TELLS, "next: running"), false},
    {PLAIN, CASE(TELLS, LEADS ", never-asked: [running]"), false},
    {CASE(TELLS, "never-asked: [humming]"), CASE(TELLS, "never-asked: [running]"), false},
    {CASE(TELLS, "never-asked: [running]"), CASE(TELLS, "never-asked: [running]"), true},
    {CASE(TELLS, "among-first: {count: 1, cause: seal}"),
     CASE(TELLS, "among-first: {count: 2, cause: seal}"), false},
    {CASE(TELLS, "among-first: {count: 2, cause: seal}"),
     CASE(TELLS, "among-first: {count: 2, cause: power}"), false},
};

/* Whether this is said of the book with them; it must load. */
static bool is_told(const char *section, const pair *p, const char *code)
{
    char text[8192];
    const bool rule = strcmp(section, "rules") == 0;
    const int n = snprintf(text, sizeof text, "%s%s  one-of-two: %s\n  other-of-two: %s\n",
                           book_text, rule ? "" : "cases:\n", p->one, p->other);
    assert_true(n > 0 && (size_t)n < sizeof text);
    const tt_source file = {"rules.yaml", text, strlen(text)};
    tt_book *book;
    tt_report *report;
    const tt_status status = tt_book_load(&file, 1, &book, &report);
    if (status != TT_OK) fail_msg("%s / %s:\n%s", p->one, p->other, tt_report_text(report));
    assert_int_equal(tt_book_doubts(book, report), TT_OK);
    const bool told = strstr(tt_report_text(report), code) != NULL;
    tt_report_free(report);
    tt_book_free(book);
    return told;
}

static void check(const char *section, const pair *all, size_t count, const char *code)
{
    unsigned wrong = 0;
    for (size_t i = 0; i < count; i++) {
        const pair turned = {all[i].other, all[i].one, all[i].twice};
        for (int way = 0; way < 2; way++) {
            const pair *p = way == 0 ? &all[i] : &turned;
            if (is_told(section, p, code) == p->twice) continue;
            print_error("%s:\n  %s\n  %s\n",
                        p->twice ? "the same, and not told" : "told, and differ", p->one, p->other);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
}

static void rules_that_hold_at_once_and_speak_of_the_same(void **state)
{
    (void)state;
    check("rules", rules, sizeof rules / sizeof *rules, "[T966]");
}

static void the_same_call_that_expects_the_same(void **state)
{
    (void)state;
    check("cases", cases, sizeof cases / sizeof *cases, "[T967]");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rules_that_hold_at_once_and_speak_of_the_same),
        cmocka_unit_test(the_same_call_that_expects_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
