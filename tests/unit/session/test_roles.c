/* Roles that rise, and roles beside each other, of which neither may do the other's work. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "open_gate.h"
#include "small_book.h"

static const char boiler[] = "book:\n"
                             "  title: Boiler\n"
                             "  roles: [tenant, [gas-fitter, electrician], inspector]\n"
                             "questions:\n"
                             "  cold:\n"
                             "    ask: Is the water cold?\n"
                             "  flame:\n"
                             "    ask: Is there a flame?\n"
                             "    role: gas-fitter\n"
                             "symptoms:\n"
                             "  cold-water:\n"
                             "    text: The water is cold\n"
                             "    when: {cold: yes}\n"
                             "    shown-by: {jet-dirty: usually, fuse-blown: usually}\n"
                             "  flame-there:\n"
                             "    text: There is a flame\n"
                             "    when: {flame: yes}\n"
                             "    shown-by: {jet-dirty: always}\n"
                             "    otherwise: never\n"
                             "causes:\n"
                             "  jet-dirty:\n"
                             "    text: The jet is dirty\n"
                             "    how-often: common\n"
                             "  fuse-blown:\n"
                             "    text: The fuse has blown\n"
                             "    how-often: common\n"
                             "fixes:\n"
                             "  clean-jet:\n"
                             "    text: Clean the jet\n"
                             "    cures: {jet-dirty: usually}\n"
                             "    role: gas-fitter\n"
                             "    harm: none\n"
                             "    takes: 60 min\n"
                             "    put-back: not needed\n"
                             "  change-fuse:\n"
                             "    text: Change the fuse\n"
                             "    cures: {fuse-blown: usually}\n"
                             "    role: electrician\n"
                             "    harm: none\n"
                             "    takes: 60 min\n"
                             "    put-back: not needed\n";

static const tt_view *look_as(const tt_book *book, const char *role, tt_case **c)
{
    const tt_view *v;
    tt_options options = {.role = tt_role_find(book, role)};
    assert_int_not_equal(options.role, TT_NONE);
    assert_int_equal(tt_case_new(book, &options, c), TT_OK);
    open_gate(*c);
    assert_int_equal(tt_look(*c, &v), TT_OK);
    return v;
}

static bool may(const tt_view *v, const char *fix)
{
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (strcmp(v->fixes[i].name, fix) == 0) return v->fixes[i].standing != TT_OTHER_ROLE;
    fail_msg("%s is not among the fixes", fix);
    return false;
}

static void assert_may(const char *role, bool gas, bool power)
{
    tt_book *book = small_book(boiler);
    tt_case *c;
    const tt_view *v = look_as(book, role, &c);
    assert_int_equal(may(v, "clean-jet"), gas);
    assert_int_equal(may(v, "change-fuse"), power);
    tt_case_free(c);
    tt_book_free(book);
}

static void test_beside_each_other_is_not_above(void **state)
{
    (void)state;
    assert_may("tenant", false, false);
    assert_may("gas-fitter", true, false);
    assert_may("electrician", false, true);
    assert_may("inspector", true, true);
}

static bool is_asked(const char *role, const char *question)
{
    tt_book *book = small_book(boiler);
    tt_case *c;
    tt_reply reply;
    tt_question q = {.name = ""};
    const char *why;
    const tt_view *v = look_as(book, role, &c);
    uint32_t cold = tt_question_find(book, "cold");
    assert_int_equal(tt_reply_read(c, cold, "yes", &reply, &why), TT_OK);
    assert_int_equal(tt_answer(c, cold, &reply), TT_OK);
    assert_int_equal(tt_look(c, &v), TT_OK);
    if (v->step == TT_ASK) assert_int_equal(tt_question_show(c, v->next.question, &q), TT_OK);
    bool asked = strcmp(q.name, question) == 0;
    tt_case_free(c);
    tt_book_free(book);
    return asked;
}

static void test_questions_go_by_the_same_rule(void **state)
{
    (void)state;
    assert_true(is_asked("gas-fitter", "flame"));
    assert_true(is_asked("inspector", "flame"));
    assert_false(is_asked("electrician", "flame"));
    assert_false(is_asked("tenant", "flame"));
}

/* Who may isolate and lock is said of each role by itself, in the book or in a post of the site. */
#define LOCKED(roles) \
    "book:\n  title: Pump\n  roles: " roles "\n" \
    "questions:\n  drip:\n    ask: Does it drip?\n" \
    "symptoms:\n  drips:\n    text: It drips\n    when: {drip: yes}\n    shown-by: {worn: " \
    "usually}\n" \
    "causes:\n  worn:\n    text: The seal is worn\n" \
    "procedures:\n  lock:\n    energies: [electricity]\n    tell: Tell them\n    isolate: Lock " \
    "it\n" \
    "    release: Wait\n    prove: Try it\n    restore: Unlock it\n" \
    "fixes:\n  renew:\n    text: Renew it\n    role: fitter\n    cures: {worn: usually}\n    " \
    "procedure: lock\n" \
    "    put-back: not needed\n    harm:\n      from: [electricity]\n" \
    "      unprotected: {worst: critical, chance: remote}\n      protected: {worst: marginal, " \
    "chance: remote}\n"

static void assert_lock(const char *yaml, const char *role, bool offered, const char *whose)
{
    tt_book *book = small_book(yaml);
    tt_case *c;
    const tt_view *v = look_as(book, role, &c);
    assert_int_equal(may(v, "renew"), offered);
    assert_string_equal(v->fixes[0].role, whose);
    tt_case_free(c);
    tt_book_free(book);
}

static void test_only_who_is_authorised_is_offered_what_isolates(void **state)
{
    (void)state;
    static const char
        nobody[] = LOCKED("[tenant, fitter, chief]"),
        fitter[] = LOCKED("[tenant, {fitter: {authorised: yes}}, chief]"),
        chief[] = LOCKED("[tenant, fitter, {chief: {authorised: yes}}]"),
        by_site[] = LOCKED(
            "[tenant, fitter, chief]") "site:\n  contacts:\n    - role: fitter\n      post: "
                                       "yard\n      telephone: 555-0142\n      authorised: yes\n";
    assert_lock(nobody, "fitter", false, "fitter");
    assert_lock(nobody, "chief", false, "fitter");
    assert_lock(fitter, "tenant", false, "fitter");
    assert_lock(fitter, "fitter", true, "fitter");
    assert_lock(fitter, "chief", false, "fitter"); /* above, but nobody has said that they may */
    assert_lock(chief, "fitter", false, "chief");
    assert_lock(chief, "chief", true, "chief");
    assert_lock(by_site, "fitter", true, "fitter");
}

/* While a caution stands none of what it holds is offered, to anybody. */
static void test_a_caution_holds_fixes_back(void **state)
{
    (void)state;
    tt_book *book = small_book("book:\n  title: Pump\n  roles: [tenant, fitter]\n"
                               "questions:\n  drip:\n    ask: Does it drip?\n  jet:\n    ask: Does "
                               "it spray?\n    about: today\n"
                               "symptoms:\n  drips:\n    text: It drips\n    when: {drip: yes}\n   "
                               " shown-by: {worn: usually}\n"
                               "causes:\n  worn:\n    text: The seal is worn\n"
                               "fixes:\n  renew:\n    text: Renew it\n    role: tenant\n    cures: "
                               "{worn: usually}\n    harm: none\n    put-back: not needed\n"
                               "  wipe:\n    text: Wipe it\n    role: tenant\n    cures: {worn: "
                               "seldom}\n    harm: none\n    put-back: not needed\n"
                               "rules:\n  spray:\n    when: {jet: yes}\n    then:\n      "
                               "caution:\n        signal: warning\n        holds: [renew]\n"
                               "        text: Stand aside.\n");
    tt_case *c;
    const tt_view *v = look_as(book, "fitter", &c);
    assert_int_equal(v->fix_count, 2);
    const uint32_t jet = tt_question_find(book, "jet");
    assert_int_equal(tt_answer(c, jet, &(tt_reply){.kind = TT_ANSWER, .option = 0}),
                     TT_OK); /* yes */
    assert_int_equal(tt_look(c, &v), TT_OK);
    assert_int_equal(v->caution_count, 1);
    assert_int_equal(v->fix_count, 1);
    assert_string_equal(v->fixes[0].name, "wipe");
    assert_int_equal(tt_retract(c, jet), TT_OK);
    assert_int_equal(tt_look(c, &v), TT_OK);
    assert_int_equal(v->fix_count, 2);
    tt_case_free(c);
    tt_book_free(book);
}

#define CALLED "[tenant, {gas-fitter: {text: {en: gas fitter, es: gasista}}}, inspector]"

/* Its name goes to programs, its text to people; a role that has none is called by its name. */
static void test_a_role_is_called_in_the_language(void **state)
{
    (void)state;
    tt_book *book = small_book(
        "book:\n  title: Boiler\n  roles: " CALLED "\n"
        "questions:\n  cold:\n    ask: Is it cold?\n"
        "symptoms:\n  cold-water:\n    text: Cold\n    when: {cold: yes}\n"
        "    shown-by: {jet-dirty: usually}\n"
        "causes:\n  jet-dirty:\n    text: Dirty\n    how-often: common\n"
        "fixes:\n  clean-jet:\n    text: Clean it\n    cures: {jet-dirty: usually}\n"
        "    role: gas-fitter\n    harm: none\n    takes: 5 min\n    put-back: not needed\n");
    assert_string_equal(tt_role_text(book, "gas-fitter", "es"), "gasista");
    assert_string_equal(tt_role_text(book, "gas-fitter", NULL), "gas fitter");
    assert_string_equal(tt_role_text(book, "gas-fitter", "fr"), "gas fitter");
    assert_string_equal(tt_role_text(book, "inspector", "es"), "inspector");
    assert_string_equal(tt_role_text(book, "the neighbour", "es"), "the neighbour");
    tt_case *c;
    const tt_view *v;
    assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE, .language = "es"}, &c),
                     TT_OK);
    open_gate(c);
    assert_int_equal(tt_answer(c, tt_question_find(book, "cold"), &(tt_reply){.kind = TT_ANSWER}),
                     TT_OK);
    assert_int_equal(tt_look(c, &v), TT_OK);
    assert_int_equal(v->step, TT_CALL);
    assert_string_equal(v->call_role, "gas-fitter");
    assert_string_equal(v->call_text, "gasista");
    assert_string_equal(v->fixes[0].role, "gas-fitter");
    assert_string_equal(v->fixes[0].role_text, "gasista");
    tt_case_free(c);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_caution_holds_fixes_back),
        cmocka_unit_test(test_only_who_is_authorised_is_offered_what_isolates),
        cmocka_unit_test(test_beside_each_other_is_not_above),
        cmocka_unit_test(test_a_role_is_called_in_the_language),
        cmocka_unit_test(test_questions_go_by_the_same_rule),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
