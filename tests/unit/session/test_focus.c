/* Which pieces of equipment a case is about: on a house well with filters and pumps, invented here.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "telltale.h"

static const char rules[] = "rulebook:\n"
                            "  title: House well\n"
                            "  roles: [householder]\n"
                            "  two-faults: 0\n"
                            "kinds:\n"
                            "  filter:\n"
                            "    ask: Which filters are there?\n"
                            "  pump:\n"
                            "    ask: Which pumps are there?\n"
                            "site:\n"
                            "  units:\n"
                            "    filter:\n"
                            "      coarse:\n"
                            "        text: the coarse filter\n"
                            "      fine: {}\n"
                            "    pump: {deep: {}, booster: {}}\n"
                            "questions:\n"
                            "  drop:\n"
                            "    for-each: filter\n"
                            "    ask: Does {filter} hold the water back?\n"
                            "    usual: no\n"
                            "  flow:\n"
                            "    ask: Does the water run?\n"
                            "    usual: yes\n"
                            "symptoms:\n"
                            "  held-back:\n"
                            "    for-each: filter\n"
                            "    text: \"{filter} holds the water back\"\n"
                            "    when: {drop: yes}\n"
                            "    heard: [held back]\n"
                            "    shown-by: {full: usually}\n"
                            "  weak:\n"
                            "    text: The water is weak\n"
                            "    when: {flow: no}\n"
                            "    heard: [weak]\n"
                            "    shown-by: {full of any filter: often, worn of any pump: often}\n"
                            "causes:\n"
                            "  full:\n"
                            "    for-each: filter\n"
                            "    text: The cartridge is full\n"
                            "  worn:\n"
                            "    for-each: pump\n"
                            "    text: The pump is worn\n"
                            "fixes:\n"
                            "  change:\n"
                            "    for-each: filter\n"
                            "    text: Change the cartridge\n"
                            "    cures: {full: usually}\n"
                            "    harm: none\n"
                            "    put-back: impossible\n"
                            "  mend:\n"
                            "    for-each: pump\n"
                            "    text: Mend the pump\n"
                            "    cures: {worn: usually}\n"
                            "    harm: none\n"
                            "    put-back: not needed\n";

static tt_rulebook *book;
static tt_case *c;

static int begin(void **state)
{
    (void)state;
    tt_report *report = NULL;
    const tt_source source = {"rules.yaml", rules, sizeof rules - 1};
    tt_status status = tt_rulebook_load(&source, 1, &book, &report);
    if (status != TT_OK) print_error("%s", tt_report_text(report));
    tt_report_free(report);
    return status == TT_OK && tt_case_new(book, &(tt_options){.role = TT_NONE}, &c) == TT_OK ? 0
                                                                                             : -1;
}

static int end(void **state)
{
    (void)state;
    tt_case_free(c);
    tt_rulebook_free(book);
    return 0;
}

static const tt_view *view(void)
{
    const tt_view *v = NULL;
    assert_int_equal(tt_look(c, &v), TT_OK);
    return v;
}

static double chance(const char *cause)
{
    const tt_view *v = view();
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    return 0;
}

static uint32_t piece(const char *name)
{
    for (uint32_t i = 0; i < tt_piece_count(book); i++)
        if (strcmp(tt_piece_show(book, i).name, name) == 0) return i;
    fail_msg("no piece %s", name);
    return TT_NONE;
}

static void assert_near(double a, double b)
{
    assert_true(a - b < 1e-12 && b - a < 1e-12);
}

static void at_first_it_is_about_all(void **state)
{
    (void)state;
    assert_int_equal(view()->focus_count, 0);
    assert_near(chance("full of coarse"), chance("full of fine"));
    assert_true(chance("full of coarse") > 0.1);
}

static void the_share_of_a_kind_goes_to_the_pieces_named(void **state)
{
    (void)state;
    double together = chance("full of coarse") + chance("full of fine"),
           pump = chance("worn of deep");
    uint32_t coarse = piece("coarse");
    assert_int_equal(tt_focus(c, &coarse, 1), TT_OK);
    assert_near(chance("full of coarse"), together);
    assert_true(chance("full of fine") <= 0);
    assert_near(chance("worn of deep"), pump);
    assert_near(chance("worn of booster"), pump);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(view()->focus[0], coarse);
    assert_int_equal(tt_undo(c), TT_OK);
    assert_true(chance("full of fine") > 0.1);
}

static void a_complaint_about_a_piece_names_it(void **state)
{
    (void)state;
    tt_complaint *heard = NULL;
    uint32_t count = 0;
    assert_int_equal(tt_complaints_heard(book, "it is held back", &heard, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(tt_kind_show(book, heard[0].kind).name, "filter");
    uint32_t symptom = tt_symptom_at(book, heard[0].symptom, piece("fine"));
    free(heard);
    assert_int_not_equal(symptom, TT_NONE);
    assert_int_equal(tt_complain(c, symptom), TT_OK);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(view()->focus[0], piece("fine"));
    assert_true(chance("full of coarse") <= 0);
    assert_true(chance("worn of deep") > 0);
}

/* What is shown at another piece takes it in, whatever the caller said. */
static void a_symptom_elsewhere_widens_it(void **state)
{
    (void)state;
    uint32_t coarse = piece("coarse");
    assert_int_equal(tt_focus(c, &coarse, 1), TT_OK);
    tt_reply yes;
    const char *why;
    uint32_t drop = tt_question_find(book, "drop of fine");
    assert_int_equal(tt_reply_read(c, drop, "yes", &yes, &why), TT_OK);
    assert_int_equal(tt_answer(c, drop, &yes), TT_OK);
    assert_int_equal(view()->focus_count, 2);
    assert_true(chance("full of fine") > chance("full of coarse"));
}

#define CASE(test) cmocka_unit_test_setup_teardown(test, begin, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(at_first_it_is_about_all),
        CASE(the_share_of_a_kind_goes_to_the_pieces_named),
        CASE(a_complaint_about_a_piece_names_it),
        CASE(a_symptom_elsewhere_widens_it),
    };
    return cmocka_run_group_tests_name("focus", tests, NULL, NULL);
}
