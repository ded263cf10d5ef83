/* What a worked case may expect beside who leads: how surely, which fixes never, whether danger
 * ends it, what words are taken for. And an answers file in the shape of a case. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "small_book.h"
#include "telltale.h"

static const char rules[] =
    "book:\n  title: T\n  roles: [helper]\n"
    "questions:\n"
    "  danger:\n    ask: Danger?\n    about: today\n    safe: [no]\n"
    "  drip:\n    ask: Does it drip?\n"
    "  hum:\n    ask: Does it hum?\n"
    "  odd:\n    ask: Is it odd?\n"
    "symptoms:\n"
    "  drips:\n    text: It drips\n    when: {drip: yes}\n"
    "    heard: [it drips, water on the floor, drops fall, it is leaking water, a puddle]\n"
    "    shown-by: {worn: almost always, loose: rarely}\n"
    "  hums:\n    text: It hums\n    when: {hum: yes}\n"
    "    heard: [it hums, a humming noise, it buzzes, noisy motor, a hum]\n"
    "    shown-by: {loose: almost always, worn: rarely}\n"
    "  is-odd:\n    text: It is odd\n    when: {odd: yes}\n    heard: [it is odd]\n"
    "    shown-by: {loose: often, worn: often}\n"
    "causes:\n  loose:\n    text: Loose\n  worn:\n    text: Worn\n"
    "fixes:\n"
    "  tighten:\n    text: Tighten it\n    role: helper\n    cures: {loose: usually}\n    takes: "
    "90 min\n    harm: "
    "none\n    put-back: not needed\n"
    "  renew:\n    text: Renew it\n    role: helper\n    cures: {worn: usually}\n    takes: 90 "
    "min\n    harm: none\n  "
    "  put-back: not needed\n"
    "cases:\n";

#define CASE(body) "  one:\n    " body "\n"
#define DRIPS      "answers: {drip: yes, hum: no}\n    expect: "

static const struct {
    const char *text, *why; /* a part of why it failed; null: it passes */
} cases[] = {
    {CASE(DRIPS "{leading-cause: worn, chance: at least 50 %}"), NULL},
    {CASE(DRIPS "{leading-cause: worn, chance: at least 99.99 %}"),
     "chance of worn: expected at least 99.99 %, got 9"},
    {CASE(DRIPS "{leading-cause: worn, chance: at least 99.99 %}"), "% ("},
    {CASE(DRIPS "{leading-cause: worn, chance: at most 20 %}"),
     "chance of worn: expected at most 20 %, got 9"},
    {CASE(DRIPS "{never-offered: [tighten]}"), NULL},
    {CASE(DRIPS "{never-offered: [renew]}"),
     "never offered: expected renew, got it was offered (its chance to help is "},
    {CASE("answers: {drip: yes, hum: no, danger: yes}\n    expect: {never-offered: [renew]}"),
     NULL},
    {CASE("answers: {danger: yes}\n    expect: {danger: stop}"), NULL},
    {CASE("answers: {danger: unsure}\n    expect: {danger: stop}"), NULL},
    {CASE("answers: {danger: yes}\n    expect: {danger: none}"),
     "danger: expected none, got the case stops"},
    {CASE(DRIPS "{danger: stop}"), "danger: expected stop, got the case goes on"},
    {CASE(DRIPS "{danger: none}"), NULL},
    {CASE("expect: {hears: {say: water drips on the floor, as: drips}}"), NULL},
    {CASE("expect:\n      hears:\n        - {say: it hums, as: hums}\n        - {say: a puddle, "
          "as: drips}"),
     NULL},
    {CASE("expect: {hears: {say: it hums, as: drips}}"),
     "hears \"it hums\": expected drips, got hums (hums: "},
    {CASE("expect: {hears: {say: xyzzy, as: drips}}"),
     "expected drips, got nothing that was understood"},
    {CASE(DRIPS "{leading-cause: something-not-listed}"),
     "leading cause: expected something-not-listed, got worn"},
    {CASE(DRIPS "{leading-cause: something-not-listed, chance: at most 10 %}"), "got worn"},
    {CASE(DRIPS "{leading-cause: something-not-listed, chance: at least 60 %}"),
     "; chance of something-not-listed: expected at least 60 %, got "},
    {CASE(DRIPS "{leading-cause: loose, chance: at least 60 %, danger: stop}"),
     "(worn: 9"}, /* whoever leads in its stead */
    {CASE(DRIPS "{leading-cause: loose, danger: stop}"),
     "leading cause: expected loose, got worn; danger: expected stop, got the case goes on"},
    {CASE(DRIPS "{next: hum}"), "next question: expected hum, got odd"},
    {CASE("answers: {drip: yes, hum: no, odd: yes}\n    expect: {next: hum}"),
     "next question: expected hum, got none"},
    {CASE("answers: {drip: yes}\n    expect: {next: hum}"), NULL},
    {CASE("answers: {danger: no, drip: yes, hum: no}\n    expect: {never-asked: [hum]}"), NULL},
    {CASE("complaint: is-odd\n    expect: {never-asked: [hum, drip]}"),
     "never asked: expected drip, got it was asked"},
    {CASE("complaint: is-odd\n    answers: {drip: yes}\n    expect: {never-asked: [hum]}"), NULL},
    {CASE("complaint: is-odd\n    expect: {never-asked: [odd]}"), NULL},
    {CASE("expect:\n      hears:\n        - {say: it hums, as: drips}\n        - {say: xyzzy, "
          "as: drips}"),
     "; hears \"xyzzy\": expected drips, got nothing"},
    {CASE("expect: {hears: {say: it drips water on the floor and hums, as: hums}}"),
     "got drips (drips: "},
};

static void each_expectation_holds_or_says_what_came(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[4096];
        snprintf(text, sizeof text, "%s%s", rules, cases[i].text);
        tt_book *b = small_book(text);
        tt_trials trials;
        assert_int_equal(tt_try(b, &trials), TT_OK);
        assert_int_equal(trials.count, 1);
        const char *why = trials.items[0].why;
        if (trials.items[0].passed != (cases[i].why == NULL)) fail_msg("case %zu: '%s'", i, why);
        if (cases[i].why != NULL && strstr(why, cases[i].why) == NULL)
            fail_msg("case %zu says '%s'", i, why);
        tt_book_free(b);
    }
}

static double chance_after(const tt_book *b, const char *answers)
{
    tt_case *c;
    tt_report *report;
    const tt_view *v;
    assert_int_equal(tt_case_new(b, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    const tt_source file = {"told.yaml", answers, strlen(answers)};
    const tt_status status = tt_answers_load(c, &file, &report);
    if (status != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(tt_look(c, &v), TT_OK);
    double chance = 0;
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, "worn") == 0)
            chance = v->causes[i].chance;
    tt_case_free(c);
    return chance;
}

static void an_answers_file_has_the_shape_of_a_case(void **state)
{
    (void)state;
    char text[4096];
    snprintf(text, sizeof text, "%s%s", rules, CASE(DRIPS "{leading-cause: worn}"));
    tt_book *b = small_book(text);
    const double flat = chance_after(b, "drip: yes\nhum: no\n");
    assert_true(flat > 0.5);
    assert_true(chance_after(b, "answers: {drip: yes, hum: no}\n") == flat);
    assert_true(chance_after(b, "{\"complaint\": \"drips\", \"answers\": {\"hum\": \"no\"}}") ==
                flat);
    assert_true(chance_after(b, "complaint: drips\n") < flat);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_expectation_holds_or_says_what_came),
        cmocka_unit_test(an_answers_file_has_the_shape_of_a_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
