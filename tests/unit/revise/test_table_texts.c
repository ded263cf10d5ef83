/* Texts and numbers of a table that a spreadsheet could read otherwise than they are meant. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "telltale.h"
#include "testing.h"

static const char rules[] = "book:\n"
                            "  title: Pump\n"
                            "  roles: [helper]\n"
                            "  language: es\n"
                            "questions:\n"
                            "  hum: {ask: \"How is it?\", answers: {loud: 'Loud; \"so\" to say', "
                            "quiet: Quiet}}\n"
                            "  drip: {ask: \"Does it drip?\"}\n"
                            "symptoms:\n"
                            "  hums: {when: {hum: loud}, shown-by: {worn: often}}\n"
                            "  drips:\n"
                            "    text: {en: \"It drips\", de: \"Es tropft\"}\n"
                            "    when: {drip: yes}\n"
                            "    shown-by: {worn: 0 %, burnt: 50 %}\n"
                            "    otherwise: 0 %\n"
                            "causes:\n"
                            "  worn: {text: {de: Verschlissen, es: \"+Gastado, o casi\"}}\n"
                            "  burnt: {text: {en: '@Burnt', de: Verbrannt}}\n";

static const char table[] = "part,cause,text,how-often,drips,hums\r\n"
                            ",(sign),,,Es tropft,\"hum: Loud; \"\"so\"\" to say\"\r\n"
                            ",(part),,,,\r\n"
                            ",(otherwise),,,0 %,\r\n"
                            ",\"(strongest, dB)\",,,,11.5\r\n"
                            ",burnt,Verbrannt,,50 %,\r\n"
                            ",worn,\"'+Gastado, o casi\",,0 %,often\r\n";

static void texts_come_as_one_cell_in_the_language_of_the_book(void **state)
{
    (void)state;
    tt_table *t;
    tt_report *report;
    const tt_source file = {"rules.yaml", rules, strlen(rules)};
    if (tt_table_new(&file, 1, &t, &report) != TT_OK) fail_msg("%s", tt_report_text(report));
    const char *bytes;
    size_t length;
    assert_int_equal(tt_table_csv(t, &bytes, &length), TT_OK);
    assert_string_equal(bytes, table);
    const tt_table_view v = tt_table_look(t);
    assert_int_equal(v.cell_count, 3);
    for (uint32_t i = 0; i < v.cell_count; i++) /* what can't be otherwise says all there is */
        if (v.cells[i].chance > 0.4 && v.cells[i].chance < 0.6)
            assert_true(isinf(v.cells[i].decibels) && v.cells[i].decibels > 0);
    tt_report_free(report);
    tt_table_free(t);
}

/* What it wrote it reads, and nothing is another than before. */
static void it_comes_back_as_it_went(void **state)
{
    (void)state;
    tt_table *t;
    tt_report *report;
    const tt_source file = {"rules.yaml", rules, strlen(rules)},
                    back = {"numbers.csv", table, strlen(table)};
    assert_int_equal(tt_table_new(&file, 1, &t, &report), TT_OK);
    tt_report_free(report);
    const tt_edit *edits;
    uint32_t count;
    if (tt_table_read(t, &back, &edits, &count, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    assert_int_equal(count, 0);
    tt_report_free(report);
    tt_table_free(t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_come_as_one_cell_in_the_language_of_the_book),
        cmocka_unit_test(it_comes_back_as_it_went),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
