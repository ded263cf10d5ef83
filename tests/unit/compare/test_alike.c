/* Which worked cases must come out as in the edition before: a case that is taken for one of these
 * and isn't would be shown as it no longer is. One edit at a time, for each of three cases. */
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "base/str.h"
#include "telltale.h"
#include "test_sources.h"

static const char before_text[] = "book:\n  title: Pump\n  roles: [helper]\n"
                                  "questions:\n"
                                  "  drip:\n    ask: Does it drip?\n"
                                  "  hum:\n    ask: Does it hum?\n"
                                  "symptoms:\n"
                                  "  drips:\n    text: It drips\n    when: {drip: yes}\n"
                                  "    heard: [it drips]\n"
                                  "    shown-by: {seal: often, nut: sometimes}\n"
                                  "    otherwise: seldom\n"
                                  "  hums:\n    text: It hums\n    when: {hum: yes}\n"
                                  "    shown-by: {power: often}\n"
                                  "causes:\n"
                                  "  seal: {text: Seal}\n"
                                  "  nut: {text: Nut}\n"
                                  "  power: {text: Power}\n"
                                  "cases:\n"
                                  "  wet:\n    answers: {drip: yes}\n"
                                  "    expect: {leading-cause: seal}\n"
                                  "  loud:\n    answers: {hum: yes}\n"
                                  "    expect: {leading-cause: power}\n"
                                  "  asked:\n    answers: {hum: yes}\n"
                                  "    expect: {next: drip}\n";

static const struct edition {
    const char *find, *put;
    /* of wet, loud, asked: '+' comes out the same, '-' may not; where it is known on what the cases
     * rest, and where not */
    const char *known, *unknown;
} editions[] = {
    {"title: Pump", "title: Pump", "+++", "+++"},
    {"  drip:\n", "  drip: # which one?\n", "+++", "+++"},
    {"  roles: [helper]\n", "  roles: [ helper ]\n\n", "+++", "+++"},
    {"title: Pump", "title: Well", "---", "---"},
    {"Does it drip?", "Does it leak?", "---", "---"},
    {"text: It drips", "text: \"It drips\"", "---", "---"},
    {"  hum:\n    ask", "  hums-so:\n    ask: A?\n  hum:\n    ask", "---", "---"},
    {"  nut: {text: Nut}\n", "  nut: {text: Nut}\n  cap: {text: Cap}\n", "---", "---"},
    {"roles: [helper]", "roles: [helper, expert]", "---", "---"},
    {"heard: [it drips]", "heard: [it leaks]", "---", "---"},
    /* numbers of a sign: what tells of it, and what comes next */
    {"seal: often", "seal: usually", "-+-", "---"},
    {"otherwise: seldom", "otherwise: rarely", "-+-", "---"},
    {"{power: often}", "{power: usually}", "+--", "---"},
    {"seal: often, nut: sometimes", "nut: sometimes, seal: often", "---", "---"},
    {"seal: often, nut: sometimes", "seal: often", "---", "---"},
    {"seal: often, nut: sometimes", "seal: often, power: sometimes", "---", "---"},
    {"    otherwise: seldom\n", "", "---", "---"},
    {"when: {drip: yes}", "when: {drip: no}", "---", "---"},
    {"seal: often", "seal: {chance: often, comes-and-goes: 30 %}", "---", "---"},
    {"  hums:\n", "  hums-so:\n", "---", "---"},
    {"{power: often}", "{power: often}\n    fine: {T910: both are meant}", "---", "---"},
    {"    otherwise: seldom\n", "    fine: {T910: both are meant}\n", "---", "---"},
    /* sections */
    {"cases:\n", "places:\n  yard: {text: Yard}\ncases:\n", "---", "---"},
    {"book:\n", "places:\n  yard: {text: Yard}\nbook:\n", "---", "---"},
    {"  power: {text: Power}\n", "  power: {text: Power}\nfixes: {}\n", "---", "---"},
    /* cases */
    {"answers: {drip: yes}", "answers: {drip: no}", "-++", "-++"},
    {"  wet:\n", "  wet: # it was\n", "+++", "+++"},
    {"{leading-cause: power}", "{leading-cause: nut}", "+-+", "+-+"},
    {"cases:\n", "cases:\n  another:\n    answers: {drip: no}\n    expect: {next: hum}\n", "+++",
     "+++"},
    {"  wet:\n    answers: {drip: yes}\n    expect: {leading-cause: seal}\n", "", " ++", " ++"},
};

static const char *const names[] = {"wet", "loud", "asked"};

static tt_book *load(const char *file, str text)
{
    tt_book *book;
    tt_report *report;
    const tt_source source = {file, text.p, text.n};
    const tt_status status = tt_book_load(&source, 1, &book, &report);
    if (status != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return book;
}

static uint32_t case_at(const tt_book *book, const char *name)
{
    for (uint32_t i = 0; tt_worked_case(book, i) != NULL; i++)
        if (strcmp(tt_worked_case(book, i), name) == 0) return i;
    return TT_NONE;
}

static void compare(tt_book *before, tt_book *now, const tt_grounds *grounds, char out[4])
{
    const tt_case_alike *alike;
    assert_int_equal(tt_cases_alike(now, before, grounds, &alike), TT_OK);
    for (int i = 0; i < 3; i++) {
        const uint32_t at = case_at(now, names[i]);
        out[i] = at == TT_NONE ? ' ' : alike[at].before == TT_NONE ? '-' : '+';
        if (out[i] == '+') assert_int_equal(alike[at].before, case_at(before, names[i]));
    }
    out[3] = 0;
}

static tt_grounds *grounds_of(arena *keep, tt_book *book)
{
    tt_trials trials;
    assert_int_equal(tt_try(book, &trials), TT_OK);
    tt_grounds *all = ARENA_ARRAY(keep, tt_grounds, trials.count);
    for (uint32_t i = 0; i < trials.count; i++) all[i] = trials.items[i].grounds;
    return all;
}

static str edited(arena *keep, const struct edition *e)
{
    const str all = str_of(before_text);
    const size_t at = str_find(all, str_of(e->find));
    assert_true(at != SIZE_MAX);
    return str_printf(keep, "%.*s%s%.*s", STR_ARG(str_slice(all, 0, at)), e->put,
                      STR_ARG(str_slice(all, at + strlen(e->find), all.n)));
}

static void each_edit_moves_the_cases_that_it_can_move(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *before = load("rules.yaml", str_of(before_text));
    const tt_grounds *grounds = grounds_of(keep, before);
    unsigned wrong = 0;
    for (size_t i = 0; i < sizeof editions / sizeof *editions; i++) {
        char known[4], unknown[4];
        tt_book *now = load("rules.yaml", edited(keep, &editions[i]));
        compare(before, now, grounds, known);
        compare(before, now, NULL, unknown);
        if (strcmp(known, editions[i].known) != 0 || strcmp(unknown, editions[i].unknown) != 0) {
            print_error("'%s' for '%s': %s and %s\n", editions[i].put, editions[i].find, known,
                        unknown);
            wrong++;
        }
        tt_book_free(now);
    }
    assert_int_equal(wrong, 0);
    tt_book_free(before);
    arena_free(keep);
}

/* Whichever of two editions came first: only who isn't in the one before comes out anew. */
static void the_way_back_moves_the_same_cases(void **state)
{
    (void)state;
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof editions / sizeof *editions; i++) {
        char known[4];
        tt_book *now = load("rules.yaml", str_of(before_text)),
                *before = load("rules.yaml", edited(keep, &editions[i]));
        compare(before, now, grounds_of(keep, before), known);
        for (size_t k = 0; k < 3; k++)
            if (known[k] != (editions[i].known[k] == ' ' ? '-' : editions[i].known[k]))
                fail_msg("'%s' back to '%s': %s", editions[i].put, editions[i].find, known);
        tt_book_free(now);
        tt_book_free(before);
    }
    arena_free(keep);
}

/* Which complaint is heard is weighed with all chances, even of signs that the case never tells. */
static void what_is_heard_may_be_another(void **state)
{
    (void)state;
    static const char told[] = "  told:\n    answers: {hum: yes}\n"
                               "    expect: {hears: {say: it drips, as: drips}}\n";
    arena *keep = test_arena();
    const str rules = str_printf(keep, "%s%s", before_text, told);
    const struct edition other = {.find = "seal: often", .put = "seal: usually"};
    const str edit = str_printf(keep, "%.*s%s", STR_ARG(edited(keep, &other)), told);
    tt_book *before = load("rules.yaml", rules), *same = load("rules.yaml", rules),
            *now = load("rules.yaml", edit);
    const tt_grounds *grounds = grounds_of(keep, before);
    const tt_case_alike *alike;
    assert_int_equal(tt_cases_alike(same, before, grounds, &alike), TT_OK);
    assert_int_equal(alike[case_at(same, "told")].before, case_at(before, "told"));
    assert_int_equal(tt_cases_alike(now, before, grounds, &alike), TT_OK);
    assert_int_equal(alike[case_at(now, "told")].before, TT_NONE);
    assert_int_equal(alike[case_at(now, "loud")].before, case_at(before, "loud"));
    tt_book_free(now);
    tt_book_free(same);
    tt_book_free(before);
    arena_free(keep);
}

/* A file says for which pieces its entries are, so what stands in another may mean another thing.
 */
static void a_file_of_another_name_is_another(void **state)
{
    (void)state;
    char out[4];
    tt_book *before = load("rules.yaml", str_of(before_text)),
            *now = load("pump.yaml", str_of(before_text));
    compare(before, now, NULL, out);
    assert_string_equal(out, "---");
    tt_book_free(now);
    tt_book_free(before);
}

/* `more` stands behind the rules. */
static tt_book *load_two(const char *cases, const char *more)
{
    tt_book *book;
    tt_report *report;
    char rules[sizeof before_text + 256];
    snprintf(rules, sizeof rules, "%.*s%s", (int)(strstr(before_text, "cases:\n") - before_text),
             before_text, more);
    const tt_source files[] = {{"cases.yaml", cases, strlen(cases)},
                               {"rules.yaml", rules, strlen(rules)}};
    const tt_status status = tt_book_load(files, 2, &book, &report);
    if (status != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return book;
}

/* Cases in a file of their own; and where some come to stand in another. */
static void cases_in_a_file_of_their_own(void **state)
{
    (void)state;
    char out[4];
    const char *cases = strstr(before_text, "cases:\n");
    tt_book *before = load_two(cases, ""), *now = load_two(cases, ""),
            *whole = load("rules.yaml", str_of(before_text));
    compare(before, now, NULL, out);
    assert_string_equal(out, "+++");
    compare(before, whole, NULL, out);
    assert_string_equal(out, "---");
    tt_book_free(whole);
    tt_book_free(now);
    tt_book_free(before);
}

/* It says for which pieces its entries are, so a case may be another there. */
static void a_case_that_moves_to_another_file_is_another(void **state)
{
    (void)state;
    char out[4];
    const char *cases = strstr(before_text, "cases:\n"), *loud = strstr(cases, "  loud:\n");
    char wet[256], others[512];
    snprintf(wet, sizeof wet, "%.*s", (int)(loud - cases), cases);
    snprintf(others, sizeof others, "cases:\n%s", loud);
    tt_book *before = load_two(cases, ""), *now = load_two(others, wet);
    compare(before, now, NULL, out);
    assert_string_equal(out, "-++");
    tt_book_free(now);
    tt_book_free(before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_edit_moves_the_cases_that_it_can_move),
        cmocka_unit_test(the_way_back_moves_the_same_cases),
        cmocka_unit_test(what_is_heard_may_be_another),
        cmocka_unit_test(a_file_of_another_name_is_another),
        cmocka_unit_test(cases_in_a_file_of_their_own),
        cmocka_unit_test(a_case_that_moves_to_another_file_is_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
