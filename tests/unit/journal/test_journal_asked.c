/* What is asked of a case from outside: each question is answered by what its records say, in whose
 * name and when, also of one who knows nothing of the parts behind it. */
#include "testing.h"

#include "journal/journal.h"
#include "journal_kit.h"
#include "test_sources.h"

#define HOLD "{\"note\":\"until tomorrow\",\"next\":\"Look at the gauge\"}"
#define GONE \
    "{\"how\":\"gone\",\"fix\":\"recharge\",\"fix_text\":\"Charge the tank\",\"cause\":" \
    "\"waterlogged\",\"cause_text\":\"The tank is full of water\"}"
#define SMOKE(option) \
    "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"" option "\"}}"

static journal_kit begun(arena *a)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "west", "begin",
            "{\"title\":\"House well\",\"edition\":\"3\",\"rulebook\":\"/rules/well\",\"revision\":"
            "\"r1\",\"site\":{\"path\":\"/sites/north.site.yaml\"},\"by\":\"west desk\",\"on\":"
            "\"desk-3\"}");
    return k;
}

static tt_journal *asked(const journal_kit *k)
{
    tt_journal *j;
    assert_int_equal(tt_journal_new(k->records, k->count, NULL, &j), TT_OK);
    return j;
}

static tt_case_summary summary_of(tt_journal *j)
{
    tt_case_summary s;
    assert_int_equal(tt_journal_summary(j, &s), TT_OK);
    return s;
}

static tt_confirmation cause_of(const journal_kit *k)
{
    tt_journal *j = asked(k);
    tt_confirmation c;
    assert_int_equal(tt_journal_cause(j, &c), TT_OK);
    tt_entry of;
    if (c.entry != TT_NONE) {
        assert_int_equal(tt_journal_entry(j, c.entry, &of), TT_OK);
        c.entry = of.source;
    }
    c.cause = str_copy(k->keep, str_of(c.cause)).p;
    tt_journal_free(j);
    return c;
}

/* ---- all texts of a list's line ---- */

static void a_summary_tells_each_thing_by_its_own_words(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "west", "complaint",
            "{\"symptom\":\"short-cycling\",\"text\":\"It starts often\",\"said\":\"on and off\"}");
    kit_add(&k, "west", "answer", SMOKE("no"));
    kit_add(&k, "west", "hand-over",
            "{\"to\":\"night\",\"to_text\":\"the night shift\",\"note\":\"look again\",\"next\":"
            "\"Look at the gauge\"}");
    tt_journal *j = asked(&k);
    const tt_case_summary s = summary_of(j);
    const struct {
        const char *is, *wanted;
    } texts[] = {{s.began, k.records[0].time},
                 {s.last, k.records[3].time},
                 {s.ended, ""},
                 {s.title, "House well"},
                 {s.edition, "3"},
                 {s.book, "/rules/well"},
                 {s.revision, "r1"},
                 {s.site, "north.site"},
                 {s.complaint_name, "short-cycling"},
                 {s.complaint, "It starts often"},
                 {s.said, "on and off"},
                 {s.cause_name, ""},
                 {s.cause, ""},
                 {s.stands, "Look at the gauge"},
                 {s.note, "look again"},
                 {s.to, "night"},
                 {s.to_text, "the night shift"},
                 {s.until, ""},
                 {s.writer, "west"},
                 {s.person, "west desk"},
                 {s.place, "desk-3"},
                 {s.since, k.records[3].time}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        assert_string_equal(texts[i].is, texts[i].wanted);
    assert_false(s.held || s.confirmed || s.disputed || s.danger);
    assert_int_equal(s.answers, 1);
    assert_int_equal(s.tried, 0);
    assert_int_equal(s.damaged, 0);
    tt_journal_free(j);
    arena_free(a);
}

/* A site is called as somebody said, else as its file is. */
static void a_site_is_called_by_its_title(void **state)
{
    static const char *const sites[][2] = {
        {"{\"site\":{\"path\":\"south.yaml\"}}", "south"},
        {"{\"site\":{\"path\":\"/sites/south\"}}", "south"},
        {"{\"site\":{\"path\":\"/sites/south.yaml\"},\"site_title\":\"South well\"}", "South well"},
        {"{\"site\":null}", "north.site"}};
    (void)state;
    for (size_t i = 0; i < sizeof sites / sizeof *sites; i++) {
        arena *a = test_arena();
        journal_kit k = begun(a);
        kit_add(&k, "west", "site", sites[i][0]);
        kit_add(&k, "west", "site", "{}"); /* says nothing: it stays */
        tt_journal *j = asked(&k);
        assert_string_equal(summary_of(j).site, sites[i][1]);
        tt_journal_free(j);
        arena_free(a);
    }
}

/* Whom it waits for, and what that one is called; a role without a word of its own is its name. */
static void who_is_waited_for_is_told_with_what_they_are_called(void **state)
{
    (void)state;
    arena *a = test_arena();
    for (int called = 0; called < 2; called++) {
        journal_kit k = begun(a);
        kit_add(&k, "west", "waiting",
                called == 0 ? "{\"whom\":\"fitter\",\"note\":\"at noon\",\"until\":\"soon\"}"
                            : "{\"whom\":\"fitter\",\"whom_text\":\"The fitter\"}");
        tt_journal *j = asked(&k);
        const tt_case_summary s = summary_of(j);
        assert_int_equal(s.state, TT_CASE_WAITING);
        assert_string_equal(s.to, "fitter");
        assert_string_equal(s.to_text, called == 0 ? "fitter" : "The fitter");
        assert_string_equal(s.note, called == 0 ? "at noon" : "");
        assert_string_equal(s.until, called == 0 ? "soon" : "");
        tt_journal_free(j);
    }
    arena_free(a);
}

/* ---- how it ended ---- */

static void each_end_is_the_state_that_it_says(void **state)
{
    static const struct {
        const char *how;
        tt_case_state is;
    } ends[] = {{"gone", TT_CASE_CLOSED},         {"call", TT_CASE_CALLED},
                {"stop", TT_CASE_STOPPED},        {"made-safe", TT_CASE_MADE_SAFE},
                {"in-order", TT_CASE_CLOSED},     {"drifted", TT_CASE_CLOSED},
                {"recorded", TT_CASE_CLOSED},     {"elsewhere", TT_CASE_ELSEWHERE},
                {"some new way", TT_CASE_CLOSED}, {"", TT_CASE_CLOSED}};
    (void)state;
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        arena *a = test_arena();
        journal_kit k = begun(a);
        kit_add(&k, "west", "hold", HOLD);
        kit_add(&k, "west", "resume", "{}");
        kit_add(&k, "west", "close",
                str_printf(a, "{\"how\":\"%s\",\"cause\":\"waterlogged\"}", ends[i].how).p);
        tt_journal *j = asked(&k);
        const tt_case_summary s = summary_of(j);
        assert_int_equal(s.state, ends[i].is);
        assert_string_equal(s.ended, k.records[3].time);
        assert_int_equal(s.stands_is, TT_STANDS_NOTHING);
        assert_string_equal(s.note, "");
        /* only of a trouble that is gone it is said what it was */
        const bool gone = i == 0 || i >= 8;
        assert_string_equal(s.cause_name, gone ? "waterlogged" : "");
        tt_journal_free(j);
        arena_free(a);
    }
}

static void what_helped_is_asked_of_a_trouble_that_is_gone(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    tt_helped h;
    tt_journal *j = asked(&k);
    assert_int_equal(tt_journal_helped(j, &h), TT_OK);
    assert_string_equal(h.fix, "");
    assert_string_equal(h.fix_text, "");
    assert_string_equal(h.came_back, "");
    tt_journal_free(j);
    kit_add(&k, "west", "close", GONE);
    j = asked(&k);
    assert_int_equal(tt_journal_helped(j, &h), TT_OK);
    assert_string_equal(h.fix, "recharge");
    assert_string_equal(h.fix_text, "Charge the tank");
    assert_string_equal(h.came_back, "");
    tt_journal_free(j);
    arena_free(a);
}

/* ---- the cause, and who said it ---- */

static journal_kit gone(arena *a)
{
    journal_kit k = begun(a);
    kit_add(&k, "west", "close", GONE);
    kit_read(&k, "east");
    kit_read(&k, "north");
    return k;
}

static void the_last_who_is_unsure_is_named(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = gone(a);
    assert_int_equal(cause_of(&k).said, TT_CAUSE_UNSAID);
    assert_int_equal(cause_of(&k).entry, TT_NONE);
    kit_add(&k, "north", "confirm", "{\"cause\":null}");
    assert_int_equal(cause_of(&k).entry, 2);
    kit_add(&k, "north", "said", "{\"words\":\"one moment\"}");
    const uint32_t last = kit_add(&k, "north", "confirm", "{\"cause\":null}");
    kit_add(&k, "east", "confirm", "{\"cause\":null}"); /* as north's first one: before its last */
    tt_confirmation c = cause_of(&k);
    assert_int_equal(c.said, TT_CAUSE_UNSURE);
    assert_int_equal(c.entry, last);
    assert_string_equal(c.cause, "");
    const uint32_t anew = kit_aware(&k, "west", "confirm", "{\"cause\":null}"); /* knew of both */
    c = cause_of(&k);
    assert_int_equal(c.said, TT_CAUSE_UNSURE);
    assert_int_equal(c.entry, anew);
    arena_free(a);
}

/* Of several who name the same cause it is the last; whoever is unsure beside them changes nothing.
 */
static void the_last_who_names_the_cause_is_named(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = gone(a);
    kit_add(&k, "west", "confirm", "{\"cause\":\"leak\",\"cause_text\":\"It leaks\"}");
    kit_add(&k, "north", "said", "{\"words\":\"one moment\"}");
    const uint32_t last =
        kit_add(&k, "north", "confirm", "{\"cause\":\"leak\",\"cause_text\":\"A pipe leaks\"}");
    kit_add(&k, "east", "confirm", "{\"cause\":null}");
    const tt_confirmation c = cause_of(&k);
    assert_int_equal(c.said, TT_CAUSE_CONFIRMED);
    assert_int_equal(c.entry, last);
    assert_string_equal(c.cause, "leak");
    tt_journal *j = asked(&k);
    assert_string_equal(summary_of(j).cause_name, "leak");
    assert_string_equal(summary_of(j).cause, "A pipe leaks");
    tt_journal_free(j);
    arena_free(a);
}

/* Whoever confirms what the case was closed with needs no words of it anew. */
static void a_cause_that_is_confirmed_keeps_its_words(void **state)
{
    static const struct {
        const char *confirmed, *name, *text;
    } causes[] = {
        {"{\"cause\":\"waterlogged\"}", "waterlogged", "The tank is full of water"},
        {"{\"cause\":\"waterlogged\",\"cause_text\":\"It is full\"}", "waterlogged", "It is full"},
        {"{\"cause\":\"leak\"}", "leak", ""}, /* before and behind the other one's name */
        {"{\"cause\":\"worn\"}", "worn", ""}};
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof causes / sizeof *causes; i++) {
        journal_kit k = gone(a);
        kit_add(&k, "west", "confirm", causes[i].confirmed);
        tt_journal *j = asked(&k);
        const tt_case_summary s = summary_of(j);
        assert_true(s.confirmed);
        assert_string_equal(s.cause_name, causes[i].name);
        assert_string_equal(s.cause, causes[i].text);
        tt_journal_free(j);
    }
    arena_free(a);
}

/* ---- with what, and by whom ---- */

static void a_case_is_taken_up_with_what_it_was_worked_with(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "east", "resume", "{\"revision\":\"r2\",\"site\":{\"path\":\"/sites/south\"}}");
    tt_journal *j = asked(&k);
    tt_case_places p;
    assert_int_equal(tt_journal_places(j, &p), TT_OK);
    assert_string_equal(value_text(p.begin, "title"), "House well");
    assert_string_equal(value_text(p.site, "path"), "/sites/south");
    assert_string_equal(p.revision, "r2");
    tt_journal_free(j);
    k.records++, k.count--; /* its first record is still on its way */
    j = asked(&k);
    assert_int_equal(tt_journal_places(j, &p), TT_OK);
    assert_null(p.begin);
    assert_string_equal(p.revision, "r2");
    tt_journal_free(j);
    arena_free(a);
}

/* Who began it writes last by name, and came first. */
static void those_who_have_it_are_told_as_they_came(void **state)
{
    static const char *const wanted[][4] = {
        {"west", "west desk", "desk-3"}, {"north", "night shift", ""}, {"east", "", "van"}};
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "north", "resume", "{\"how\":\"join\",\"by\":\"night shift\"}");
    kit_aware(&k, "east", "resume", "{\"how\":\"join\",\"on\":\"van\"}");
    tt_journal *j = asked(&k);
    const tt_holder *holders;
    uint32_t count;
    assert_int_equal(tt_journal_holders(j, &holders, &count), TT_OK);
    assert_int_equal(count, 3);
    for (uint32_t i = 0; i < 3; i++) {
        assert_string_equal(holders[i].writer, wanted[i][0]);
        assert_string_equal(holders[i].person, wanted[i][1]);
        assert_string_equal(holders[i].place, wanted[i][2]);
        assert_string_equal(holders[i].since, k.records[i].time);
    }
    tt_case_summary s = summary_of(j);
    assert_string_equal(s.writer, "east"); /* the last who came */
    assert_string_equal(s.since, k.records[2].time);
    assert_true(s.held);
    tt_journal_free(j);
    kit_aware(&k, "east", "stop", "{}");
    kit_aware(&k, "west", "hold", HOLD);
    j = asked(&k);
    assert_int_equal(tt_journal_holders(j, &holders, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(holders[0].writer, "north");
    assert_string_equal(summary_of(j).writer, "north");
    tt_journal_free(j);
    arena_free(a);
}

/* ---- each record ---- */

static void each_record_is_told_with_what_became_of_it(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    const uint32_t no = kit_add(&k, "west", "answer", SMOKE("no"));
    kit_add(&k, "west", "said", "{\"words\":\"one moment\"}");
    const uint32_t back = kit_add(&k, "west", "back", "{\"step\":{\"writer\":\"west\",\"seq\":2}}");
    tt_journal *j = asked(&k);
    assert_int_equal(tt_journal_count(j), 4);
    for (uint32_t i = 0; i < 4; i++) {
        tt_entry e;
        assert_int_equal(tt_journal_entry(j, i, &e), TT_OK);
        assert_int_equal(e.source, i);
        assert_string_equal(e.record->kind, k.records[i].kind);
        assert_int_equal(e.is_step, i == no);
        assert_int_equal(e.skipped, i == no ? TT_SKIP_TAKEN_BACK : TT_SKIP_NOT);
        assert_int_equal(e.because, i == no ? back : TT_NONE);
        assert_string_equal(e.person, "west desk");
        assert_string_equal(e.place, "desk-3");
    }
    tt_journal_free(j);
    arena_free(a);
}

static void only_one_who_is_called_or_a_desk_makes_it_safe(void **state)
{
    (void)state;
    for (record_kind kind = 0; kind <= RECORD_UNKNOWN; kind++) {
        assert_true(record_may_add(kind, DESK));
        assert_true(record_may_add(kind, CALLED_ROLE));
        assert_int_equal(record_may_add(kind, ANYBODY), kind != RECORD_MADE_SAFE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_summary_tells_each_thing_by_its_own_words),
        cmocka_unit_test(a_site_is_called_by_its_title),
        cmocka_unit_test(who_is_waited_for_is_told_with_what_they_are_called),
        cmocka_unit_test(each_end_is_the_state_that_it_says),
        cmocka_unit_test(what_helped_is_asked_of_a_trouble_that_is_gone),
        cmocka_unit_test(the_last_who_is_unsure_is_named),
        cmocka_unit_test(the_last_who_names_the_cause_is_named),
        cmocka_unit_test(a_cause_that_is_confirmed_keeps_its_words),
        cmocka_unit_test(a_case_is_taken_up_with_what_it_was_worked_with),
        cmocka_unit_test(those_who_have_it_are_told_as_they_came),
        cmocka_unit_test(each_record_is_told_with_what_became_of_it),
        cmocka_unit_test(only_one_who_is_called_or_a_desk_makes_it_safe),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
