/* Which pieces of equipment a case is about: on a house well with filters and pumps, invented here.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "small_book.h"
#include "telltale.h"

static const char rules[] = "book:\n"
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
                            "    role: householder\n    cures: {full: usually}\n"
                            "    harm: none\n"
                            "    put-back: impossible\n"
                            "  mend:\n"
                            "    for-each: pump\n"
                            "    text: Mend the pump\n"
                            "    role: householder\n    cures: {worn: usually}\n"
                            "    harm: none\n"
                            "    put-back: not needed\n";

static tt_book *book;
static tt_case *c;

static int begin(void **state)
{
    (void)state;
    tt_report *report = NULL;
    const tt_source source = {"rules.yaml", rules, sizeof rules - 1};
    tt_status status = tt_book_load(&source, 1, &book, &report);
    if (status != TT_OK) print_error("%s", tt_report_text(report));
    tt_report_free(report);
    return status == TT_OK && tt_case_new(book, &(tt_options){.role = TT_NONE}, &c) == TT_OK ? 0
                                                                                             : -1;
}

static int end(void **state)
{
    (void)state;
    tt_case_free(c);
    tt_book_free(book);
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
        if (strcmp(tt_piece_show(book, i, NULL).name, name) == 0) return i;
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
    assert_string_equal(tt_kind_show(book, heard[0].kind, NULL).name, "filter");
    uint32_t symptom = tt_symptom_at(book, heard[0].symptom, piece("fine"));
    free(heard);
    assert_int_not_equal(symptom, TT_NONE);
    assert_int_equal(tt_complain(c, symptom), TT_OK);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(view()->focus[0], piece("fine"));
    assert_true(chance("full of coarse") <= 0);
    assert_true(chance("worn of deep") > 0);
}

static void answer(const char *question, const char *text)
{
    tt_reply reply;
    const char *why;
    uint32_t asked = tt_question_find(book, question);
    assert_int_equal(tt_reply_read(c, asked, text, &reply, &why), TT_OK);
    assert_int_equal(tt_answer(c, asked, &reply), TT_OK);
}

static void complain(const char *symptom)
{
    uint32_t found = tt_symptom_find(book, symptom);
    assert_int_not_equal(found, TT_NONE);
    assert_int_equal(tt_complain(c, found), TT_OK);
}

static void focus(const char *one, const char *other)
{
    uint32_t pieces[] = {piece(one), other == NULL ? 0 : piece(other)};
    assert_int_equal(tt_focus(c, pieces, other == NULL ? 1 : 2), TT_OK);
}

/* What is shown at another piece takes it in, whatever the caller said. */
static void a_symptom_elsewhere_widens_it(void **state)
{
    (void)state;
    focus("coarse", NULL);
    answer("drop of fine", "yes");
    assert_int_equal(view()->focus_count, 2);
    assert_true(chance("full of fine") > chance("full of coarse"));
    answer("drop of fine", "no");
    assert_int_equal(view()->focus_count, 1);
    assert_true(chance("full of fine") <= 0);
    const tt_reply unsure = {.kind = TT_UNSURE};
    assert_int_equal(tt_answer(c, tt_question_find(book, "drop of fine"), &unsure), TT_OK);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(tt_undo(c), TT_OK);
    assert_int_equal(tt_undo(c), TT_OK);
    assert_int_equal(view()->focus_count, 2);
}

static void complaints_add_up(void **state)
{
    (void)state;
    complain("held-back of fine");
    assert_int_equal(view()->focus_count, 1);
    complain("weak");
    assert_int_equal(view()->focus_count, 1);
    complain("held-back of coarse");
    assert_int_equal(view()->focus_count, 2);
    assert_near(chance("full of coarse"), chance("full of fine"));
    assert_int_equal(tt_undo(c), TT_OK);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(view()->focus[0], piece("fine"));
}

/* Naming pieces says what the call is about, in place of what was named before; a complaint adds to
 * it. */
static void names_replace_names_and_complaints_add(void **state)
{
    (void)state;
    focus("coarse", NULL);
    focus("deep", NULL);
    assert_int_equal(view()->focus_count, 1);
    assert_int_equal(view()->focus[0], piece("deep"));
    assert_near(chance("full of coarse"), chance("full of fine"));
    assert_true(chance("worn of booster") <= 0);
    complain("held-back of fine");
    assert_int_equal(view()->focus_count, 2);
    assert_true(chance("full of coarse") <= 0 && chance("worn of booster") <= 0);
}

/* A fix that helps a little makes what was seen at the other piece stale, yet nobody has cleared
 * that piece. */
static void what_was_taken_in_stays_after_a_fix(void **state)
{
    (void)state;
    focus("coarse", NULL);
    answer("drop of coarse", "yes");
    answer("drop of fine", "yes");
    assert_int_equal(view()->focus_count, 2);
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "change of fine"), TT_BETTER), TT_OK);
    assert_int_equal(view()->focus_count, 2);
    assert_true(chance("full of fine") > 0);
    assert_int_equal(tt_undo(c), TT_OK);
    answer("drop of fine", "no");
    assert_int_equal(view()->focus_count, 1);
}

/* What a fix and the answers told of a piece out of focus counts once it comes in. */
static void what_came_before_the_focus_counts(void **state)
{
    (void)state;
    answer("drop of coarse", "yes");
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "change of coarse"), TT_NO_CHANGE), TT_OK);
    answer("drop of fine", "no");
    focus("deep", NULL);
    double coarse = chance("full of coarse"), fine = chance("full of fine"),
           worn = chance("worn of deep");
    for (int i = 0; i < 4; i++) assert_int_equal(tt_undo(c), TT_OK);
    focus("fine", NULL);
    answer("drop of fine", "no");
    assert_true(chance("full of coarse") <= 0);
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "change of coarse"), TT_NO_CHANGE), TT_OK);
    answer("drop of coarse", "yes");
    focus("deep", NULL);
    assert_near(chance("full of coarse"), coarse);
    assert_near(chance("full of fine"), fine);
    assert_near(chance("worn of deep"), worn);
    assert_true(coarse > fine && fine > 0 && worn > fine);
}

/* ---- shares by hand: 6 + 2 for the kind, 1 for each piece, 4 shared ---- */

static const char plant[] =
    "book:\n"
    "  title: Three pumps\n"
    "  roles: [anybody]\n"
    "  not-listed: 0 %\n"
    "  two-faults: 0 %\n"
    "kinds:\n"
    "  pump:\n"
    "    ask: Which pumps are there?\n"
    "site:\n"
    "  units:\n"
    "    pump: {a: {}, b: {}, c: {}}\n"
    "questions:\n"
    "  old:\n"
    "    for-each: pump\n"
    "    ask: Is {pump} an old one?\n"
    "    about: the site\n"
    "  warm:\n"
    "    for-each: pump\n"
    "    ask: Is {pump} warm?\n"
    "    usual: no\n"
    "  wet:\n"
    "    for-each: pump\n"
    "    ask: Is the floor wet at {pump}?\n"
    "    usual: no\n"
    "symptoms:\n"
    "  is-warm:\n"
    "    for-each: pump\n"
    "    text: \"{pump} is warm\"\n"
    "    when: {warm: yes}\n"
    "    heard: [warm]\n"
    "    shown-by: {worn: usually, leather: often, loose: often, no-oil: often}\n"
    "  is-wet:\n"
    "    for-each: pump\n"
    "    text: The floor is wet at {pump}\n"
    "    when: {wet: yes}\n"
    "    shown-by: {rain: usually}\n"
    "causes:\n"
    "  worn: {for-each: pump, text: Worn, how-often: 6}\n"
    "  leather:\n"
    "    for-each: pump\n"
    "    text: The leather is dry\n"
    "    how-often: 2\n"
    "    only-when: {old: yes}\n"
    "  loose: {for-each: pump, text: Loose, how-often: 1, each: yes}\n"
    "  no-oil:\n"
    "    text: The oil is gone\n"
    "    how-often: 3\n"
    "    only-when: {old of any pump: yes}\n"
    "  rain: {text: Rain, how-often: 1}\n"
    "cases:\n"
    "  about-one:\n"
    "    at: [b]\n"
    "    answers: {warm of b: yes}\n"
    "    expect: {leading-cause: worn of b}\n"
    "  with-three-oil-comes-first:\n"
    "    at: [a, b, c]\n"
    "    answers: {warm of a: unsure}\n"
    "    expect: {leading-cause: no-oil}\n"
    "  and-without-at:\n"
    "    answers: {warm of a: unsure}\n"
    "    expect: {leading-cause: no-oil}\n";

static int begin_plant(void **state)
{
    (void)state;
    book = small_book(plant);
    if (tt_case_new(book, NULL, &c) != TT_OK) return -1;
    answer("old of a", "yes");
    answer("old of b", "yes");
    answer("old of c", "yes");
    return 0;
}

static void at_all_the_kind_has_its_share(void **state)
{
    (void)state;
    assert_near(chance("worn of a"), 2.0 / 15);
    assert_near(chance("leather of b"), 2.0 / 3 / 15);
    assert_near(chance("loose of c"), 1.0 / 15);
    assert_near(chance("no-oil"), 3.0 / 15);
}

static void one_piece_has_the_whole_share(void **state)
{
    (void)state;
    focus("b", NULL);
    assert_near(chance("worn of b"), 6.0 / 13);
    assert_near(chance("leather of b"), 2.0 / 13);
    assert_near(chance("loose of b"), 1.0 / 13);
    assert_near(chance("no-oil"), 3.0 / 13);
    assert_true(chance("worn of a") <= 0 && chance("loose of c") <= 0);
}

static void two_pieces_halve_it_but_not_what_each_has(void **state)
{
    (void)state;
    focus("c", "a");
    assert_near(chance("worn of a"), 3.0 / 14);
    assert_near(chance("worn of c"), 3.0 / 14);
    assert_near(chance("leather of c"), 1.0 / 14);
    assert_near(chance("loose of a"), 1.0 / 14);
    assert_true(chance("worn of b") <= 0);
}

/* A condition that is known not to hold takes the cause out, and the others have its share; known
 * to hold, it stays; not known, it is as likely as the fact. */
static void only_when_takes_a_piece_out(void **state)
{
    (void)state;
    answer("old of a", "no");
    assert_near(chance("leather of a"), 0);
    assert_near(chance("leather of b"), 1.0 / 15);
    answer("old of b", "yes");
    assert_near(chance("leather of b"), 1.0 / 15);
    focus("a", "b");
    assert_near(chance("leather of b"), 2.0 / 14);
    assert_near(chance("worn of b"), 3.0 / 14);
    focus("a", NULL);
    assert_near(chance("leather of a"), 0);
    assert_near(chance("worn of a"), 6.0 / 11);
    assert_near(chance("no-oil"), 3.0 / 11);
    answer("old of a", "yes");
    assert_near(chance("leather of a"), 2.0 / 13);
    assert_int_equal(tt_retract(c, tt_question_find(book, "old of a")), TT_OK);
    assert_true(chance("leather of a") > 0.4 * 2 / 13 && chance("leather of a") < 0.6 * 2 / 13);
}

static void only_when_of_a_shared_cause(void **state)
{
    (void)state;
    answer("old of a", "no");
    answer("old of b", "no");
    assert_near(chance("no-oil"), 3.0 / 15);
    answer("old of c", "no");
    assert_near(chance("no-oil"), 0);
    assert_near(chance("leather of c"), 0);
    assert_near(chance("worn of c"), 2.0 / 10);
}

/* Rain shows at each pump and says nothing of a pump's own causes. */
static void a_sign_of_shared_causes_alone_does_not_widen(void **state)
{
    (void)state;
    focus("a", NULL);
    answer("wet of b", "yes");
    assert_int_equal(view()->focus_count, 1);
    assert_true(chance("worn of b") <= 0);
    answer("warm of b", "yes");
    assert_int_equal(view()->focus_count, 2);
}

/* `at` in worked cases: of the kind's 6 one pump has all, of three pumps each 2 (no oil has 3). */
static void worked_cases_say_at_which_pieces(void **state)
{
    (void)state;
    tt_trials trials;
    assert_int_equal(tt_try(book, &trials), TT_OK);
    for (uint32_t i = 0; i < trials.count; i++)
        if (!trials.items[i].passed)
            print_error("%s: %s\n", trials.items[i].name, trials.items[i].why);
    assert_int_equal(trials.count, 3);
    assert_int_equal(trials.passed, 3);
}

#define CASE(test)  cmocka_unit_test_setup_teardown(test, begin, end)
#define PLANT(test) cmocka_unit_test_setup_teardown(test, begin_plant, end)

static const char house[] =
    "book:\n  title: House\n  roles: [householder]\n  two-faults: 0\n"
    "kinds:\n  pump:\n    ask: Which pumps?\n"
    "  tap:\n    hangs-on: pump\n    ask: Which taps?\n"
    "site:\n  units:\n    pump: {cellar: {}, shed: {}, yard: {}}\n"
    "    tap:\n      kitchen: {hangs-on: cellar}\n      lawn: {hangs-on: shed}\n"
    "questions:\n"
    "  hum:\n    for-each: pump\n    ask: Does {pump} hum?\n"
    "  run:\n    for-each: tap\n    ask: Does {tap} run?\n"
    "symptoms:\n"
    "  silent:\n    for-each: pump\n    text: Silent\n    when: {hum: no}\n"
    "    heard: [silent]\n    shown-by: {worn: often}\n"
    "  dry:\n    for-each: tap\n    text: Dry\n    when: {run: no}\n"
    "    heard: [dry]\n    shown-by: {worn: often, shut: often}\n"
    "causes:\n  worn:\n    for-each: pump\n    text: Worn\n"
    "  shut:\n    for-each: tap\n    text: Shut\n";

static int begin_house(void **state)
{
    (void)state;
    book = small_book(house);
    return tt_case_new(book, NULL, &c) == TT_OK ? 0 : -1;
}

/* One pump is complained of, and a tap that another one feeds: both pumps may be what it is. */
static void a_tap_brings_its_pump_beside_another(void **state)
{
    (void)state;
    focus("cellar", "lawn");
    assert_true(chance("worn of cellar") > 0);
    assert_true(chance("worn of shed") > 0);
    assert_true(chance("shut of lawn") > 0);
    assert_true(chance("worn of yard") <= 0);
    assert_true(chance("shut of kitchen") <= 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(at_first_it_is_about_all),
        CASE(the_share_of_a_kind_goes_to_the_pieces_named),
        CASE(a_complaint_about_a_piece_names_it),
        CASE(a_symptom_elsewhere_widens_it),
        CASE(complaints_add_up),
        CASE(names_replace_names_and_complaints_add),
        CASE(what_was_taken_in_stays_after_a_fix),
        CASE(what_came_before_the_focus_counts),
        PLANT(at_all_the_kind_has_its_share),
        PLANT(one_piece_has_the_whole_share),
        PLANT(two_pieces_halve_it_but_not_what_each_has),
        PLANT(only_when_takes_a_piece_out),
        PLANT(only_when_of_a_shared_cause),
        PLANT(a_sign_of_shared_causes_alone_does_not_widen),
        cmocka_unit_test_setup_teardown(a_tap_brings_its_pump_beside_another, begin_house, end),
        PLANT(worked_cases_say_at_which_pieces),
    };
    return cmocka_run_group_tests_name("focus", tests, NULL, NULL);
}
