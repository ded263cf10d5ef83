/* Two editions of a book: whom a change moves, and which change it was. */
#include "testing.h"

#include "base/str.h"
#include "telltale.h"
#include "test_sources.h"

static const char lamp[] = "book:\n"
                           "  title: Lamp\n"
                           "  roles: [anybody]\n"
                           "  not-listed: 5 %\n"
                           "  two-faults: 0 %\n"
                           "questions:\n"
                           "  dark:\n"
                           "    ask: Is it dark?\n"
                           "    takes: 1 min\n"
                           "    read-right: 100 %\n"
                           "  hum:\n"
                           "    ask: Does it hum?\n"
                           "    takes: 1 min\n"
                           "    read-right: 100 %\n"
                           "  hot:\n"
                           "    ask: Is it hot?\n"
                           "    takes: 1 min\n"
                           "    read-right: 100 %\n"
                           "symptoms:\n"
                           "  is-dark:\n"
                           "    text: It is dark\n"
                           "    when: {dark: yes}\n"
                           "    heard: [dark]\n"
                           "    shown-by: {bulb: 80 %, fuse: 40 %}\n"
                           "    otherwise: 10 %\n"
                           "  it-hums:\n"
                           "    text: It hums\n"
                           "    when: {hum: yes}\n"
                           "    heard: [hums]\n"
                           "    shown-by: {bulb: 80 %, fuse: 40 %}\n"
                           "    otherwise: 10 %\n"
                           "causes:\n"
                           "  bulb: {text: Bulb}\n"
                           "  fuse: {text: Fuse}\n"
                           "fixes:\n"
                           "  new-bulb:\n"
                           "    text: Put in another bulb\n"
                           "    cures: {bulb: 90 %}\n"
                           "    takes: 5 min\n"
                           "    role: anybody\n"
                           "    harm: none\n"
                           "    put-back: not needed\n"
                           "  new-fuse:\n"
                           "    text: Put in another fuse\n"
                           "    cures: {fuse: 90 %}\n"
                           "    takes: 5 min\n"
                           "    role: anybody\n"
                           "    harm: none\n"
                           "    put-back: not needed\n"
                           "rules:\n"
                           "  heat:\n"
                           "    when: {hot: yes}\n"
                           "    then:\n"
                           "      caution: {signal: caution, text: Hot}\n"
                           "cases:\n"
                           "  dark-and-humming:\n"
                           "    answers: {dark: yes, hum: yes}\n"
                           "    expect: {leading-cause: bulb}\n"
                           "  hot-lamp:\n"
                           "    answers: {hot: yes, dark: yes}\n"
                           "    expect: {leading-cause: bulb, caution: heat}\n";

/* ---- editions ---- */

static const char *with(arena *keep, const char *yaml, const char *old, const char *new)
{
    const char *at = strstr(yaml, old);
    assert_non_null(at);
    return str_printf(keep, "%.*s%s%s", (int)(at - yaml), yaml, new, at + strlen(old)).p;
}

static tt_comparison *compared(const char *before, const char *after, uint64_t calls,
                               const tt_compared **out)
{
    const tt_source one = {"lamp.yaml", before, strlen(before)},
                    other = {"lamp.yaml", after, strlen(after)};
    tt_comparison *x;
    tt_report *of_one, *of_other;
    tt_status status = tt_comparison_new(&one, 1, &other, 1, &x, &of_one, &of_other);
    if (status != TT_OK)
        print_error("%s%s", tt_report_text(of_one),
                    of_other != NULL ? tt_report_text(of_other) : "");
    assert_int_equal(status, TT_OK);
    tt_report_free(of_one);
    tt_report_free(of_other);
    assert_int_equal(tt_comparison_look(x, 1, calls, out), TT_OK);
    return x;
}

static const tt_moved *moved_one(const tt_compared *all, const char *name)
{
    for (uint32_t i = 0; i < all->moved_count; i++)
        if (strcmp(all->moved[i].name, name) == 0) return &all->moved[i];
    fail_msg("%s did not move", name);
    return NULL;
}

static bool names_edit(const tt_moved *m, const char *edit)
{
    for (uint32_t i = 0; i < m->edit_count; i++)
        if (strcmp(m->edits[i], edit) == 0) return true;
    return false;
}

/* ---- tests ---- */

static void the_same_moves_nothing(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *with_comment = with(keep, lamp, "causes:\n", "# Of a lamp.\ncauses:\n");
    tt_comparison *x = compared(lamp, with_comment, 10, &all);
    assert_int_equal(all->worked, 2);
    assert_int_equal(all->calls, 10);
    assert_int_equal(all->edit_count, 0);
    assert_int_equal(all->moved_count, 0);
    tt_comparison_free(x);
    arena_free(keep);
}

/* Written by a program, all of it between braces, it is the same book. */
static void a_book_between_braces_is_compared_entry_by_entry(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *at = strstr(lamp, "cases:\n");
    static const char cases[] =
        "cases: {\"dark-and-humming\": {\"answers\": {\"dark\": \"yes\", \"hum\": \"yes\"}, "
        "\"expect\": {\"leading-cause\": \"bulb\"}}, \"hot-lamp\": {\"answers\": {\"hot\": "
        "\"yes\", "
        "\"dark\": \"yes\"}, \"expect\": {\"leading-cause\": \"bulb\", \"caution\": \"heat\"}}}\n";
    const char *after = str_printf(keep, "%.*s%s", (int)(at - lamp), lamp, cases).p;
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_int_equal(all->edit_count, 0);
    assert_int_equal(all->worked, 2);
    tt_comparison_free(x);
    after = with(keep, after, "shown-by: {bulb: 80 %, fuse: 40 %}",
                 "shown-by: {\"bulb\": \"10 %\", \"fuse\": \"90 %\"}");
    x = compared(after, lamp, 0, &all);
    assert_int_equal(all->moved_worked, 2);
    assert_string_equal(moved_one(all, "dark-and-humming")->edits[0], "symptoms is-dark");
    tt_comparison_free(x);
    arena_free(keep);
}

/* One number moves both cases, the text of a fix none. */
static void the_entry_that_did_it_is_named(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *after = with(keep, lamp, "shown-by: {bulb: 80 %, fuse: 40 %}",
                             "shown-by: {bulb: 10 %, fuse: 90 %}");
    after = with(keep, after, "Put in another fuse", "Change the fuse");
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_int_equal(all->edit_count, 2);
    assert_int_equal(all->moved_worked, 2);
    const tt_moved *m = moved_one(all, "dark-and-humming");
    assert_true(m->leading && m->passed && !m->cautions && !m->together);
    assert_string_equal(m->before.leading, "bulb");
    assert_string_equal(m->after.leading, "fuse");
    assert_true(m->before.passed && !m->after.passed);
    assert_true(m->shift > 0.3 && m->shift <= 1);
    assert_int_equal(m->edit_count, 1);
    assert_string_equal(m->edits[0], "symptoms is-dark");
    assert_true(all->moved[0].shift >= all->moved[1].shift);
    tt_comparison_free(x);
    arena_free(keep);
}

/* Each of two signs by itself still leaves the bulb ahead and the same path; all in one file, so
 * only the two together turn it. */
static void entries_that_act_only_together_are_named_together(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *weaker = "shown-by: {bulb: 50 %, fuse: 60 %}";
    const char *after = with(keep, lamp, "shown-by: {bulb: 80 %, fuse: 40 %}", weaker);
    after = with(keep, after, "shown-by: {bulb: 80 %, fuse: 40 %}", weaker);
    after = with(keep, after, "Put in another fuse", "Change the fuse");
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_int_equal(all->edit_count, 3);
    const tt_moved *m = moved_one(all, "dark-and-humming");
    assert_true(m->leading && m->together);
    assert_int_equal(m->edit_count, 2);
    assert_true(names_edit(m, "symptoms is-dark") && names_edit(m, "symptoms it-hums"));
    tt_comparison_free(x);
    arena_free(keep);
}

/* A cause that is new can't be without what lists it, nor that without the cause. */
static void what_needs_each_other_is_made_together(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *after = with(keep, lamp, "shown-by: {bulb: 80 %, fuse: 40 %}",
                             "shown-by: {bulb: 80 %, fuse: 40 %, wire: 99 %}");
    after = with(keep, after, "  fuse: {text: Fuse}\n",
                 "  fuse: {text: Fuse}\n  wire: {text: Wire, how-often: 40}\n");
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_int_equal(all->edit_count, 2);
    const tt_moved *m = moved_one(all, "hot-lamp");
    assert_string_equal(m->after.leading, "wire");
    assert_int_equal(m->edit_count, 2);
    assert_true(!m->together && names_edit(m, "causes wire") && names_edit(m, "symptoms is-dark"));
    tt_comparison_free(x);
    x = compared(after, lamp, 0, &all); /* and back: it goes */
    assert_string_equal(moved_one(all, "hot-lamp")->before.leading, "wire");
    assert_int_equal(moved_one(all, "hot-lamp")->edit_count, 2);
    tt_comparison_free(x);
    arena_free(keep);
}

static void cautions_come_first(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *after = with(keep, lamp, "when: {hot: yes}", "when: {hot: no}");
    after = with(keep, after, "shown-by: {bulb: 80 %, fuse: 40 %}",
                 "shown-by: {bulb: 10 %, fuse: 90 %}");
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_string_equal(all->moved[0].name, "hot-lamp");
    assert_true(all->moved[0].cautions);
    assert_int_equal(all->moved[0].before.caution_count, 1);
    assert_int_equal(all->moved[0].after.caution_count, 0);
    assert_true(names_edit(&all->moved[0], "rules heat"));
    tt_comparison_free(x);
    arena_free(keep);
}

static void calls_move_by_what_changed_and_by_nothing_else(void **state)
{
    (void)state;
    enum { CALLS = 60 };
    arena *keep = test_arena();
    const tt_compared *all;
    const char *idle = with(keep, lamp, "questions:\n",
                            "questions:\n  aa-colour:\n    ask: Which colour is it?\n    takes: 1 "
                            "min\n    answers:\n      red: Red\n      green: Green\n");
    tt_comparison *x = compared(lamp, idle, CALLS, &all);
    assert_int_equal(all->edit_count, 1);
    assert_int_equal(all->moved_count, 0);
    tt_comparison_free(x);
    const char *worse = with(keep, lamp, "cures: {bulb: 90 %}", "cures: {bulb: 70 %}");
    x = compared(lamp, worse, CALLS, &all);
    assert_true(all->moved_calls > 0 && all->moved_calls < CALLS);
    for (uint32_t i = 0; i < all->moved_count; i++) {
        if (strcmp(all->moved[i].kind, "call") != 0) continue;
        assert_true(all->moved[i].path && names_edit(&all->moved[i], "fixes new-bulb"));
    }
    tt_comparison_free(x);
    arena_free(keep);
}

/* Nobody is told of the danger any more, or is now. */
static void what_stops_a_case_is_one_of_its_cautions(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *stops =
        with(keep, lamp, "caution: {signal: caution, text: Hot}", "stop: Let it cool.");
    stops = with(keep, stops, "leading-cause: bulb, caution: heat", "stop: heat");
    tt_comparison *x = compared(lamp, stops, 0, &all);
    const tt_moved *m = moved_one(all, "hot-lamp");
    assert_true(m->cautions && m->path);
    assert_string_equal(m->after.path[0], "stopped");
    assert_string_equal(m->after.cautions[m->after.caution_count - 1], "Let it cool.");
    tt_comparison_free(x);
    x = compared(stops, lamp, 0, &all);
    m = moved_one(all, "hot-lamp");
    assert_string_equal(m->before.path[0], "stopped");
    assert_string_equal(m->after.cautions[0], "heat");
    tt_comparison_free(x);
    arena_free(keep);
}

static void cases_of_one_edition_are_counted_and_not_compared(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    const char *after = with(keep, lamp, "  hot-lamp:\n", "  warm-lamp:\n");
    after = str_printf(keep, "%s  cool-lamp:\n    answers: {hot: no}\n    expect: {next: dark}\n",
                       after)
                .p;
    tt_comparison *x = compared(lamp, after, 0, &all);
    assert_int_equal(all->worked, 1);
    assert_int_equal(all->worked_old, 1);
    assert_int_equal(all->worked_new, 2);
    assert_int_equal(all->moved_count, 0);
    tt_comparison_free(x);
    arena_free(keep);
}

/* `count` rules more, each of which warns whoever has a hot lamp. */
static const char *with_warnings(arena *keep, unsigned count)
{
    text_builder rules = {.keep = keep};
    text_add(&rules, STR("rules:\n"));
    for (unsigned i = 0; i < count; i++)
        text_addf(&rules,
                  "  glow-%u:\n    when: {hot: yes}\n    then:\n"
                  "      caution: {signal: caution, text: 'Glows %u'}\n",
                  i, i);
    return with(keep, lamp, "rules:\n", text_done(&rules).p);
}

/* Five are enough to begin with; of hundreds, each played by itself, nobody would see the end. */
static void no_more_edits_are_named_than_anybody_reads(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_compared *all;
    tt_comparison *x = compared(lamp, with_warnings(keep, 7), 0, &all);
    const tt_moved *m = moved_one(all, "hot-lamp");
    assert_true(m->cautions && !m->together);
    assert_int_equal(m->after.caution_count, 8);
    assert_int_equal(m->edit_count, 5);
    tt_comparison_free(x);
    x = compared(lamp, with_warnings(keep, 201), 0, &all);
    assert_int_equal(all->edit_count, 201);
    assert_int_equal(moved_one(all, "hot-lamp")->edit_count, 0);
    tt_comparison_free(x);
    arena_free(keep);
}

/* Which edits act only together is looked for in the first ten. */
static void of_many_the_first_are_looked_into(void **state)
{
    (void)state;
    enum { LAMPS = 12, LOOKED_INTO = 10 };
    arena *keep = test_arena();
    const tt_compared *all;
    text_builder more = {.keep = keep};
    text_add(&more, str_of(lamp));
    for (unsigned i = 1; i < LAMPS; i++)
        text_addf(&more,
                  "  lamp-%u:\n    answers: {dark: yes, hum: yes}\n"
                  "    expect: {leading-cause: bulb}\n",
                  i);
    const char *weaker = "shown-by: {bulb: 50 %, fuse: 60 %}", *before = text_done(&more).p;
    const char *after = with(keep, before, "shown-by: {bulb: 80 %, fuse: 40 %}", weaker);
    after = with(keep, after, "shown-by: {bulb: 80 %, fuse: 40 %}", weaker);
    tt_comparison *x = compared(before, after, 0, &all);
    assert_int_equal(all->moved_count, LAMPS + 1); /* last the hot one, by one edit */
    for (uint32_t i = 0; i < LAMPS; i++) {
        assert_int_equal(all->moved[i].together, i < LOOKED_INTO);
        assert_int_equal(all->moved[i].edit_count, i < LOOKED_INTO ? 2 : 0);
    }
    tt_comparison_free(x);
    arena_free(keep);
}

static void faults_of_either_are_reported(void **state)
{
    (void)state;
    const tt_source good = {"lamp.yaml", lamp, strlen(lamp)},
                    bad = {"lamp.yaml", "causes: 1\n", 10};
    tt_comparison *x;
    tt_report *of_one, *of_other;
    assert_int_equal(tt_comparison_new(&good, 1, &bad, 1, &x, &of_one, &of_other), TT_FAULTY);
    assert_null(x);
    assert_int_equal(tt_report_errors(of_one), 0);
    assert_true(tt_report_errors(of_other) > 0);
    tt_report_free(of_one);
    tt_report_free(of_other);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_moves_nothing),
        cmocka_unit_test(a_book_between_braces_is_compared_entry_by_entry),
        cmocka_unit_test(the_entry_that_did_it_is_named),
        cmocka_unit_test(entries_that_act_only_together_are_named_together),
        cmocka_unit_test(what_needs_each_other_is_made_together),
        cmocka_unit_test(cautions_come_first),
        cmocka_unit_test(calls_move_by_what_changed_and_by_nothing_else),
        cmocka_unit_test(what_stops_a_case_is_one_of_its_cautions),
        cmocka_unit_test(cases_of_one_edition_are_counted_and_not_compared),
        cmocka_unit_test(no_more_edits_are_named_than_anybody_reads),
        cmocka_unit_test(of_many_the_first_are_looked_into),
        cmocka_unit_test(faults_of_either_are_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
