/* An answer put into a site's file that a person has written: each row is the file before and after
 * it. Everything that is not the answer stays byte for byte; a file that is written so that the
 * place can't be told for sure is left alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "books/site_text.h"
#include "small_book.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

typedef struct edited {
    const char *before, *after; /* after: null: it is left alone */
} edited;

static void assert_edited(const site_fact *fact, const edited *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char *made = site_text_with(rows[i].before, fact);
        const bool same = made == NULL || rows[i].after == NULL ? made == rows[i].after
                                                                : strcmp(made, rows[i].after) == 0;
        if (!same)
            fail_msg("row %zu:\n%s\nbecame\n%s", i, rows[i].before,
                     made != NULL ? made : "nothing");
        free(made);
    }
}

#define SITE "site:\n  title: North\n"

static void answers_in_lines(void **state)
{
    (void)state;
    static const edited rows[] = {
        {SITE, SITE "  answers:\n    air: 3 psi\n"},
        {"site:\n  title: North", "site:\n  title: North\n  answers:\n    air: 3 psi\n"},
        {SITE "  answers:\n", SITE "  answers:\n    air: 3 psi\n"},
        {SITE "  answers: # later\n", SITE "  answers: # later\n    air: 3 psi\n"},
        {SITE "  answers:\n    air: 2 psi # once\n", SITE "  answers:\n    air: 3 psi\n"},
        {SITE "  answers:\n    air: 3 psi # on the dial\n",
         SITE "  answers:\n    air: 3 psi # on the dial\n"},
        {SITE "  answers:\n    'air': 2 psi\n", SITE "  answers:\n    air: 3 psi\n"},
        {SITE "  \"answers\":\n    \"air\": 3 psi\n", SITE "  \"answers\":\n    \"air\": 3 psi\n"},
        {SITE "  answers:\n    air:\n      value: 2 psi\n    flow: 1\n",
         SITE "  answers:\n    air: 3 psi\n    flow: 1\n"},
        {SITE "  answers:\n    air: {value: 3 psi, source: me}\n",
         SITE "  answers:\n    air: {value: 3 psi, source: me}\n"},
        {SITE "  answers:\n    air: {value: 3 psig}\n", SITE "  answers:\n    air: 3 psi\n"},
        {SITE "  answers:\n    airy: 1\n\n# the end\n",
         SITE "  answers:\n    airy: 1\n    air: 3 psi\n\n# the end\n"},
        {SITE "  answers:\r\n    airy: 1\r\n",
         SITE "  answers:\r\n    airy: 1\r\n    air: 3 psi\n"},
        {SITE "  answers: same as last year\n", NULL},
        {SITE "  answers: [air, flow]\n", NULL},
        {"site: {title: North}\n", NULL},
        {"# nothing yet\n", NULL},
        {"sites:\n  title: North\n", NULL},
    };
    assert_edited(&(site_fact){"air", "3 psi", ""}, rows, COUNT(rows));
}

/* Between braces, as some write it: over lines, with remarks, in quotes. */
static void answers_in_braces(void **state)
{
    (void)state;
#define BRACES(map) SITE "  answers: " map "\n"
    static const edited rows[] = {
        {BRACES("{}"), BRACES("{air: 3 psi}")},
        {BRACES("{ }"), BRACES("{air: 3 psi }")},
        {BRACES("{flow: 1}"), BRACES("{flow: 1, air: 3 psi}")},
        {BRACES("{flow: 1,}"), BRACES("{flow: 1, air: 3 psi}")},
        {BRACES("{flow: 1, }"), BRACES("{flow: 1, air: 3 psi }")},
        {BRACES("{air: 2 psi, flow: 1}"), BRACES("{air: 3 psi, flow: 1}")},
        {BRACES("{\"air\": 2 psi}"), BRACES("{\"air\": 3 psi}")},
        {BRACES("{'air': 3 psi}"), BRACES("{'air': 3 psi}")},
        {BRACES("{air: 3 psi}   # all"), BRACES("{air: 3 psi}   # all")},
        {BRACES("{air: {value: 3 psi, source: me}}"), BRACES("{air: {value: 3 psi, source: me}}")},
        {BRACES("{air: {value: 2 psi, air: 1}, b: 2}"), BRACES("{air: 3 psi, b: 2}")},
        {BRACES("{a: {air: 1}, b: [air, {air: 2}]}"),
         BRACES("{a: {air: 1}, b: [air, {air: 2}], air: 3 psi}")},
        {BRACES("{a: 'it''s {odd, air: 1', air: 2}"),
         BRACES("{a: 'it''s {odd, air: 1', air: 3 psi}")},
        {BRACES("{a: \"a \\\" }, air: 1\", air: 2}"),
         BRACES("{a: \"a \\\" }, air: 1\", air: 3 psi}")},
        {BRACES("{a: b#c, air: 2}"), BRACES("{a: b#c, air: 3 psi}")},
        {BRACES("{a: it's 10:30, air: 2}"), BRACES("{a: it's 10:30, air: 3 psi}")},
        {BRACES("{a: , air: 2}"), BRACES("{a: , air: 3 psi}")},
        {BRACES("{ # none, yet: }\n    flow: 1 # slow\n  }"),
         BRACES("{ # none, yet: }\n    flow: 1, air: 3 psi # slow\n  }")},
        {SITE "  answers:\n    {flow: 1}\n", SITE "  answers:\n    {flow: 1, air: 3 psi}\n"},
        {BRACES("{flow: 1"), NULL},
        {BRACES("{a: \"b}"), NULL},
        {BRACES("{a: 'b}"), NULL},
        {BRACES("{a: \"b\\"), NULL},
        {BRACES("{flow}"), NULL},
        {BRACES("{a: b: c}"), NULL},
        {BRACES("{\"a}"), NULL},
        {BRACES("{: 1}"), NULL},
        {BRACES("{a: {b: 1}"), NULL},
        {BRACES("{a: [1}"), NULL},
    };
    assert_edited(&(site_fact){"air", "3 psi", ""}, rows, COUNT(rows));
}

/* At its piece of equipment where that has a place of its own, else among the answers. */
static void answers_of_a_piece(void **state)
{
    (void)state;
    static const edited rows[] = {
        {SITE "  units:\n    pump:\n      left:\n        text: the left pump\n",
         SITE "  units:\n    pump:\n      left:\n        text: the left pump\n"
              "        air: {value: 3 psi, source: \"read on a day\"}\n"},
        {SITE
         "  units:\n\n    # of all kinds\n    hose: {}\n    pump:\n      right:\n        text: r\n"
         "      left:\n        text: l\n  answers:\n    flow: 1\n",
         SITE
         "  units:\n\n    # of all kinds\n    hose: {}\n    pump:\n      right:\n        text: r\n"
         "      left:\n        text: l\n"
         "        air: {value: 3 psi, source: \"read on a day\"}\n  answers:\n    flow: 1\n"},
        {SITE "  units:\n    pump:\n      left: {text: the left pump}\n",
         SITE "  units:\n    pump:\n      left: {text: the left pump}\n  answers:\n"
              "    air of left: {value: 3 psi, source: \"read on a day\"}\n"},
        {SITE "  units: {}\n", SITE "  units: {}\n  answers:\n    air of left: {value: 3 psi, "
                                    "source: \"read on a day\"}\n"},
        {SITE "  units:\n    pump:\n      right:\n        text: r\n",
         SITE "  units:\n    pump:\n      right:\n        text: r\n  answers:\n"
              "    air of left: {value: 3 psi, source: \"read on a day\"}\n"},
    };
    assert_edited(&(site_fact){"air of left", "3 psi", "read on a day"}, rows, COUNT(rows));
}

/* A value that we would quote may stand there without, and is the same. */
static void what_stands_there_without_quotes_is_the_same(void **state)
{
    (void)state;
    static const edited rows[] = {
        {SITE "  answers:\n    air: 1:20 # on the label\n",
         SITE "  answers:\n    air: 1:20 # on the label\n"},
        {SITE "  answers:\n    air: {value: 1:20, source: me}\n",
         SITE "  answers:\n    air: {value: 1:20, source: me}\n"},
        {SITE "  answers:\n    air: \"1:20\"\n", SITE "  answers:\n    air: \"1:20\"\n"},
        {SITE "  answers: {air: 1:20}\n", SITE "  answers: {air: 1:20}\n"},
        {SITE "  answers: {air: \"1:20\"}\n", SITE "  answers: {air: \"1:20\"}\n"},
        {SITE "  answers:\n    air: 1:25\n", SITE "  answers:\n    air: \"1:20\"\n"},
        {SITE "  answers: {air: 1:25}\n", SITE "  answers: {air: \"1:20\"}\n"},
    };
    assert_edited(&(site_fact){"air", "1:20", ""}, rows, COUNT(rows));
}

/* What could mean something in YAML stands in quotes. */
static void odd_values_are_quoted(void **state)
{
    (void)state;
    static const edited rows[] = {{SITE, SITE "  answers:\n    air: \"#1: it's\"\n"}};
    assert_edited(&(site_fact){"air", "#1: it's", ""}, rows, COUNT(rows));
}

/* ---- a file of what somebody said there is ---- */

static const char book_text[] =
    "book:\n  title: Two pumps\n  roles: [helper, {fitter: {authorised: yes}}]\n"
    "kinds:\n  pump: {ask: \"Which pumps are there?\", one: the pump}\n"
    "questions:\n  hums:\n    for-each: pump\n    ask: Does {pump} hum?\n"
    "symptoms:\n  weak:\n    for-each: pump\n    text: \"{pump} is weak\"\n    heard: [it is "
    "weak]\n"
    "    when: {hums: no}\n    shown-by: {worn: usually}\n"
    "causes:\n  worn:\n    for-each: pump\n    text: \"{pump} is worn\"\n"
    "fixes:\n  swap:\n    for-each: pump\n    text: \"Swap {pump}\"\n    cures: {worn: 90 %}\n"
    "    role: helper\n    harm: none\n    takes: 2 min\n    put-back: not needed\n    steps:\n"
    "      - Swap it.\n    look-again: [hums]\n";

/* Whatever a piece of equipment is called, the file that is made of it can be read. */
static void any_name_makes_a_file(void **state)
{
    (void)state;
    static const char *const names[] = {
        "the pump",
        "Pump 2",
        "2",
        "a \"new\" pump",
        "back\\slash",
        "'quoted' pump",
        "- minus",
        "pompe à vide",
        "ポンプ",
        "{brace}",
        "null",
        "yes",
        "the pump: behind the gate # 3",
        "x",
        "the very long name of a pump that stands behind all others in the far corner of the yard",
        "a name whose fortieth letter is no letter - but a hyphen",
        "the very long name of a pump that stands behind all others on the near side of the yard"};
    tt_book *book = small_book(book_text);
    for (int long_names = 0; long_names < 2; long_names++) {
        names_said said = {.items = NULL};
        for (size_t i = 0; i < COUNT(names); i++) assert_true(names_add(&said, names[i]));
        assert_false(names_add(&said, "THE PUMP"));
        assert_false(names_add(&said, "  "));
        char *text = site_text_of(book, "North: \"all\"", &said, long_names == 1);
        const tt_source source = {"book.yaml", book_text, strlen(book_text)},
                        site = {"site.yaml", text, strlen(text)};
        tt_report *report;
        tt_book *again;
        if (tt_book_load_at(&source, 1, &site, &again, &report) != TT_OK) {
            fprintf(stderr, "%s\n%s\n", text, tt_report_text(report));
            fail();
        }
        tt_report_free(report);
        tt_book_free(again);
        free(text);
        names_free(&said);
    }
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_in_lines),
        cmocka_unit_test(answers_in_braces),
        cmocka_unit_test(answers_of_a_piece),
        cmocka_unit_test(odd_values_are_quoted),
        cmocka_unit_test(what_stands_there_without_quotes_is_the_same),
        cmocka_unit_test(any_name_makes_a_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
