/* What the public face gives for the page of a danger: what to do in the case's language, and whom
 * to call at the site. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "telltale.h"

static const char rules[] =
    "book:\n  title: T\n  roles: [helper, technician]\n"
    "questions:\n  gauge:\n    ask: Gauge?\n    reading: pressure\n    unit: psi\n  drip:\n    "
    "ask: Does it drip?\n"
    "symptoms:\n  drips:\n    text: It drips\n    when: {drip: yes}\n    shown-by: {worn-seal: "
    "often}\n"
    "causes:\n  worn-seal:\n    text: The seal is worn\n"
    "fixes:\n  new-seal:\n    text: New seal\n    role: helper\n    cures: {worn-seal: usually}\n  "
    "  harm: none\n    "
    "put-back: not needed\n"
    "emergencies:\n"
    "  jet:\n    replaces: skin\n    source: works rule 7\n    heard: [a jet]\n"
    "    text:\n      en: A jet\n      es: Un chorro\n"
    "    do:\n      - en: Get out of it, {gauge} stand on it.\n        es: Quítese, hay {gauge}.\n "
    "     - Close the valve.\n"
    "    then:\n      - Tell us.\n    call: technician\n"
    "site:\n  title: North\n  emergency-number: 112\n  contacts:\n    - role: technician\n      "
    "post: example desk\n      telephone: 555-0100\n";
static const char site[] = "site:\n  title: South\n  emergency-number: 911\n  contacts:\n    - "
                           "role: technician\n      post: night desk\n      telephone: 555-0142\n"
                           "      hours: {en: 22 to 6, es: de 22 a 6}\n    - purpose: {en: water "
                           "supplier, es: el agua}\n      "
                           "post: {en: front office, es: ventanilla}\n      telephone: 555-0143\n";

static tt_book *load(bool at_site)
{
    tt_source book = {"book.yaml", rules, sizeof rules - 1},
              at = {"south.yaml", site, sizeof site - 1};
    tt_book *b;
    tt_report *report;
    tt_status status = tt_book_load_at(&book, 1, at_site ? &at : NULL, &b, &report);
    if (status != TT_OK) print_error("%s", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return b;
}

static void contacts_are_the_sites(void **state)
{
    (void)state;
    tt_book *b = load(true);
    assert_int_equal(tt_contact_count(b), 2);
    const tt_contact all[] = {tt_contact_show(b, 0, NULL), tt_contact_show(b, 1, NULL)},
                     spanish[] = {tt_contact_show(b, 0, "es-MX"), tt_contact_show(b, 1, "es")};
    assert_string_equal(spanish[0].post, "night desk"); /* one text for all languages */
    assert_string_equal(spanish[0].hours, "de 22 a 6");
    assert_string_equal(spanish[1].purpose, "el agua");
    assert_string_equal(spanish[1].who, "ventanilla");
    assert_string_equal(all[0].role, "technician");
    assert_string_equal(all[0].purpose, "");
    assert_string_equal(all[0].post, "night desk");
    assert_string_equal(all[0].telephone, "555-0142");
    assert_string_equal(all[0].hours, "22 to 6");
    assert_string_equal(all[1].role, "");
    assert_string_equal(all[1].purpose, "water supplier");
    assert_string_equal(all[1].hours, "");
    assert_string_equal(tt_emergency_number(b), "911");
    assert_false(tt_book_describe(b).site_is_example);
    tt_book_free(b);
}

/* Nobody may take the number of an example for his own. */
static void of_an_example_nobody_is_called(void **state)
{
    (void)state;
    tt_book *b = load(false);
    assert_int_equal(tt_contact_count(b), 0);
    assert_string_equal(tt_emergency_number(b), "");
    assert_true(tt_book_describe(b).site_is_example);
    tt_book_free(b);
}

static void an_emergency_reads_in_the_cases_language(void **state)
{
    static const struct {
        const char *language, *text, *first;
    } wanted[] = {{NULL, "A jet", "Get out of it, 40 psi stand on it."},
                  {"es-MX", "Un chorro", "Quítese, hay 40 psi."}};
    (void)state;
    tt_book *b = load(true);
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        tt_case *c;
        tt_emergency e;
        assert_int_equal(
            tt_case_new(b, &(tt_options){.role = TT_NONE, .language = wanted[i].language}, &c),
            TT_OK);
        assert_int_equal(tt_answer(c, tt_question_find(b, "gauge"),
                                   &(tt_reply){.kind = TT_NUMBER, .number = 40}),
                         TT_OK);
        assert_int_equal(tt_emergency_show(c, "skin", &e), TT_OK); /* by what it replaces */
        assert_string_equal(e.name, "jet");
        assert_string_equal(e.text, wanted[i].text);
        assert_int_equal(e.do_count, 2);
        assert_string_equal(e.do_now[0], wanted[i].first);
        assert_int_equal(e.then_count, 1);
        assert_string_equal(e.call, "technician");
        assert_string_equal(e.source, "works rule 7");
        tt_case_free(c);
    }
    tt_book_free(b);
}

/* Without "eye" nobody would be heard who has soap in it. */
static void words_of_grave_danger_are_no_trades_own(void **state)
{
    static const struct {
        const char *words;
        bool good;
    } lists[] = {{"[photo eye, hot wax, leak]", true},
                 {"[photo eye, eye]", false},
                 {"[fire]", false},
                 {"[hand stuck]", false}};
    (void)state;
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char text[sizeof rules + 64];
        const char *rest = strstr(rules, "questions:");
        int n = snprintf(text, sizeof text, "%.*s  not-danger: %s\n%s", (int)(rest - rules), rules,
                         lists[i].words, rest);
        tt_source source = {"book.yaml", text, (size_t)n};
        tt_book *b;
        tt_report *report;
        assert_int_equal(tt_book_load(&source, 1, &b, &report), lists[i].good ? TT_OK : TT_FAULTY);
        assert_int_equal(tt_report_errors(report), lists[i].good ? 0 : 1);
        if (!lists[i].good) assert_string_equal(tt_report_fault(report, 0).code, "T801");
        tt_report_free(report);
        tt_book_free(b);
    }
}

static void every_case_knows_ours(void **state)
{
    (void)state;
    tt_book *b = load(true);
    tt_case *c;
    tt_emergency e;
    assert_int_equal(tt_case_new(b, &(tt_options){.role = TT_NONE, .language = "es"}, &c), TT_OK);
    assert_int_equal(tt_emergency_show(c, "caught", &e), TT_OK);
    assert_string_equal(e.do_now[0], "Apriete ya el botón de paro más cercano.");
    assert_string_equal(e.call, "");
    assert_int_equal(tt_emergency_show(c, "flood", &e), TT_FAULTY);
    tt_case_free(c);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contacts_are_the_sites),
        cmocka_unit_test(of_an_example_nobody_is_called),
        cmocka_unit_test(an_emergency_reads_in_the_cases_language),
        cmocka_unit_test(words_of_grave_danger_are_no_trades_own),
        cmocka_unit_test(every_case_knows_ours),
    };
    return cmocka_run_group_tests_name("the page of a danger", tests, NULL, NULL);
}
