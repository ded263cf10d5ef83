/* What lists and histories say of cases: made from records alone, each case worked out by hand. */
#include "testing.h"

#include <math.h>

#include "journal/journal.h"
#include "journal/summary.h"
#include "journal_kit.h"
#include "test_sources.h"

#define GONE "{\"fix\":\"recharge\",\"outcome\":\"gone\"}"
#define SAFE(question) \
    "{\"question\":\"" question "\",\"reply\":{\"kind\":\"answer\",\"option\":\"no\"}}"
#define UNSAFE(question) \
    "{\"question\":\"" question \
    "\",\"reply\":{\"kind\":\"answer\",\"option\":\"yes\"},\"danger\":true}"

static journal_kit begun_as(arena *a, const char *about)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", about);
    return k;
}

static tt_case_summary summary_of(const journal_kit *k)
{
    return journal_summary(kit_journal(k));
}

/* ---- danger ---- */

static void danger_stands_until_somebody_who_knew_says_it_is_over(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_aware(&k, "west", "resume", "{}");
    assert_false(summary_of(&k).danger);
    kit_add(&k, "east", "danger", "{\"words\":\"it smokes\",\"list\":\"a\"}");
    assert_true(summary_of(&k).danger);
    kit_add(&k, "west", "answer", SAFE("smoke")); /* had not read it */
    assert_true(summary_of(&k).danger);
    kit_aware(&k, "west", "answer", UNSAFE("smoke"));
    assert_true(summary_of(&k).danger);
    kit_add(&k, "east", "answer", SAFE("smoke")); /* knows of its own, not of west's */
    assert_true(summary_of(&k).danger);
    kit_aware(&k, "east", "answer", SAFE("smoke"));
    assert_false(summary_of(&k).danger);
    arena_free(a);
}

static void danger_under_a_question_is_over_when_that_one_is_answered(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_add(&k, "east", "danger", "{\"question\":\"gas\",\"words\":\"it smells\",\"list\":\"b\"}");
    kit_add(&k, "east", "answer", SAFE("smoke"));
    assert_true(summary_of(&k).danger);
    kit_add(&k, "east", "complaint", "{\"symptom\":\"stiff\",\"question\":\"gas\"}");
    assert_true(summary_of(&k).danger);
    kit_add(&k, "east", "answer", SAFE("gas"));
    assert_false(summary_of(&k).danger);
    arena_free(a);
}

/* Neither taking back what told of danger nor taking back what told of none leaves a case safe. */
static void what_is_taken_back_makes_nothing_safe(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}"), other = begun_as(a, "{}");
    kit_add(&k, "east", "answer", UNSAFE("smoke"));
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    assert_true(summary_of(&k).danger);
    kit_add(&other, "east", "answer", UNSAFE("smoke"));
    kit_add(&other, "east", "answer", SAFE("smoke"));
    assert_false(summary_of(&other).danger);
    kit_add(&other, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":3}}");
    assert_true(summary_of(&other).danger);
    arena_free(a);
}

static void a_closed_case_tells_of_no_danger(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_add(&k, "east", "danger", "{\"words\":\"it smokes\",\"list\":\"a\"}");
    kit_add(&k, "east", "close", "{\"how\":\"made-safe\"}");
    tt_case_summary s = summary_of(&k);
    assert_false(s.danger);
    assert_int_equal(s.state, TT_CASE_MADE_SAFE);
    kit_add(&k, "east", "answer", UNSAFE("smoke")); /* it goes on, and so does the danger */
    s = summary_of(&k);
    assert_true(s.danger);
    assert_int_equal(s.state, TT_CASE_OPEN);
    arena_free(a);
}

/* ---- times and counts ---- */

static void a_case_takes_from_its_first_record_to_its_end(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_add(&k, "east", "answer", SAFE("smoke"));
    assert_true(isnan(summary_of(&k).minutes));
    kit_add(&k, "east", "again", SAFE("smoke"));
    kit_add(&k, "east", "tried", GONE);
    kit_add(&k, "east", "close", "{\"how\":\"gone\"}");
    kit_add(&k, "east", "confirm", "{\"cause\":null}"); /* afterwards, and not of its length */
    tt_case_summary s = summary_of(&k);
    assert_true(s.minutes == 4); /* a minute a record */
    assert_int_equal(s.answers, 2);
    assert_int_equal(s.tried, 1);
    assert_string_equal(s.began, k.records[0].time);
    assert_string_equal(s.ended, k.records[4].time);
    assert_string_equal(s.last, k.records[5].time);
    assert_true(s.last_moment == INT64_C(1795939200000) + 5 * 60000);
    arena_free(a);
}

static void clocks_that_disagree_give_no_length(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_add(&k, "east", "close", "{\"how\":\"gone\"}");
    k.records[1].time = k.records[0].time;
    assert_true(summary_of(&k).minutes == 0);
    k.records[1].time = "2026-11-29T07:00:00Z"; /* an hour before it began */
    assert_true(isnan(summary_of(&k).minutes));
    k.records[1].time = "yesterday";
    tt_case_summary s = summary_of(&k);
    assert_true(isnan(s.minutes));
    assert_true(s.last_moment == 0);
    assert_string_equal(s.ended, "yesterday");
    arena_free(a);
}

/* ---- how it began, and how it stands ---- */

static void a_case_is_of_the_kind_that_it_began_as(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit round = begun_as(a, "{\"kind\":\"round\",\"every\":\"weekly\"}"),
                odd = begun_as(a, "{\"kind\":\"feast\",\"every\":\"never\"}");
    tt_case_summary s = summary_of(&round);
    assert_int_equal(s.kind, TT_KIND_ROUND);
    assert_int_equal(s.every, TT_WEEKLY);
    s = summary_of(&odd);
    assert_int_equal(s.kind, TT_KIND_FAULT);
    assert_int_equal(s.every, TT_DAILY);
    for (tt_case_kind kind = 0, found; kind < TT_CASE_KINDS; kind++)
        assert_true(tt_case_kind_find(tt_case_kind_name(kind), &found) && found == kind);
    for (tt_every every = 0, found; every < TT_EVERIES; every++)
        assert_true(tt_every_find(tt_every_name(every), &found) && found == every);
    assert_false(tt_every_find(NULL, &s.every));
    assert_false(tt_case_kind_find("", &s.kind));
    arena_free(a);
}

static const struct {
    const char *kind, *data;
    tt_stands is;
    const char *text;
} last_steps[] = {
    {"complaint", "{\"symptom\":\"stiff\",\"text\":\"It is stiff\"}", TT_STANDS_STEP,
     "It is stiff"},
    {"answer", "{\"question\":\"smoke\",\"reply\":1,\"typed\":\"nope\"}", TT_STANDS_STEP,
     "smoke nope"},
    {"answer", "{\"question\":\"smoke\",\"reply\":1}", TT_STANDS_STEP, "smoke"},
    {"tried", GONE, TT_STANDS_STEP, "recharge gone"},
    {"answers", "{\"name\":\"a\",\"text\":\"smoke: no\"}", TT_STANDS_FILE, ""},
    {"settle", "{\"right\":[],\"wrong\":[]}", TT_STANDS_SETTLED, ""},
    {"no-complaint", "{}", TT_STANDS_NO_COMPLAINT, ""},
    {"came-back", "{}", TT_STANDS_NOTHING, ""}, /* of which fix it doesn't say */
};

static void an_open_case_stands_at_its_last_step(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof last_steps / sizeof *last_steps; i++) {
        arena *a = test_arena();
        journal_kit k = begun_as(a, "{}");
        kit_add(&k, "east", last_steps[i].kind, last_steps[i].data);
        kit_add(&k, "east", "said", "{\"words\":\"one moment\"}"); /* no step */
        tt_case_summary s = summary_of(&k);
        assert_int_equal(s.stands_is, last_steps[i].is);
        assert_string_equal(s.stands, last_steps[i].text);
        kit_add(&k, "east", "close", "{\"how\":\"call\"}");
        s = summary_of(&k);
        assert_int_equal(s.stands_is, TT_STANDS_NOTHING);
        assert_int_equal(s.state, TT_CASE_CALLED);
        arena_free(a);
    }
}

/* A folder where the first record was lost, or is still on its way: what came after it counts, and
 * says of which case it is. */
static void what_came_before_is_not_needed(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "answer", SAFE("smoke"));
    tt_case_summary s = summary_of(&k);
    assert_int_equal(s.answers, 1);
    assert_int_equal(s.stands_is, TT_STANDS_STEP);
    k = begun_as(a, "{\"title\":\"House well\",\"edition\":\"3\"}");
    s = summary_of(&k);
    assert_string_equal(s.title, "House well");
    assert_string_equal(s.edition, "3");
    arena_free(a);
}

/* Whoever it is that takes it up again, first or second of those who write it. */
static void a_case_on_hold_goes_on_when_somebody_comes(void **state)
{
    static const char *const desks[] = {"east", "west"};
    (void)state;
    for (int i = 0; i < 2; i++) {
        arena *a = test_arena();
        journal_kit k = begun_as(a, "{}");
        kit_aware(&k, "west", "resume", "{}");
        kit_aware(&k, desks[1 - i], "hold", "{\"note\":\"until tomorrow\"}");
        assert_int_equal(summary_of(&k).state, TT_CASE_ON_HOLD);
        kit_aware(&k, desks[i], "resume", "{}");
        assert_int_equal(summary_of(&k).state, TT_CASE_OPEN);
        arena_free(a);
    }
}

/* ---- fixes under way ---- */

static uint32_t source_of(const journal *j, uint32_t entry)
{
    return entry == NO_ENTRY ? NO_ENTRY : j->entries[entry].source;
}

static void a_fix_is_under_way_until_its_outcome_is_told(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    assert_int_equal(journal_fix_begun(kit_journal(&k)), NO_ENTRY);
    const uint32_t begun = kit_add(&k, "east", "fix-begun", "{\"fix\":\"recharge\"}");
    journal *j = kit_journal(&k);
    assert_int_equal(source_of(j, journal_fix_begun(j)), begun);
    kit_add(&k, "east", "answer",
            "{\"question\":\"air\",\"fix\":\"recharge\",\"reply\":1}");            /* no outcome */
    kit_add(&k, "east", "tried", "{\"fix\":\"reset\",\"outcome\":\"no-change\"}"); /* of another */
    j = kit_journal(&k);
    assert_int_equal(source_of(j, journal_fix_begun(j)), begun);
    const uint32_t told = kit_add(&k, "east", "tried", GONE);
    assert_int_equal(journal_fix_begun(kit_journal(&k)), NO_ENTRY);
    assert_int_equal(told, 4);
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":5}}");
    j = kit_journal(&k);
    assert_int_equal(source_of(j, journal_fix_begun(j)), begun);
    kit_add(&k, "east", "fix-begun", "{\"fix\":\"recharge\"}");
    kit_add(&k, "east", "tried", GONE); /* at once */
    assert_int_equal(journal_fix_begun(kit_journal(&k)), NO_ENTRY);
    arena_free(a);
}

/* ---- many writers and many steps, looked up by name ---- */

static void each_step_of_each_writer_is_found_by_its_name(void **state)
{
    (void)state;
    static const char *const writers[] = {"a", "b", "c", "d", "e", "f", "g"};
    enum { WRITERS = sizeof writers / sizeof *writers, STEPS = 9 };
    for (uint32_t w = 0; w < WRITERS; w++)
        for (uint32_t step = 1; step <= STEPS; step++) {
            arena *a = test_arena();
            journal_kit k = journal_kit_new(a);
            for (uint32_t i = 0; i < STEPS; i++)
                for (uint32_t of = 0; of < WRITERS; of++)
                    kit_add(&k, writers[of], "answer", SAFE("smoke"));
            kit_aware(
                &k, "a", "back",
                str_printf(a, "{\"step\":{\"writer\":\"%s\",\"seq\":%u}}", writers[w], step).p);
            const journal *j = kit_journal(&k);
            for (uint32_t i = 0; i < j->count; i++) {
                const tt_record *r = &j->entries[i].record;
                const bool named = strcmp(r->writer, writers[w]) == 0 && r->number == step;
                assert_int_equal(j->entries[i].skipped, named ? TT_SKIP_TAKEN_BACK : TT_SKIP_NOT);
            }
            arena_free(a);
        }
}

/* Of seven desks each has read another one's first answer, and no more. */
static void each_knows_what_it_read_of_each_other(void **state)
{
    (void)state;
    static const char *const writers[] = {"a", "b", "c", "d", "e", "f", "g"};
    enum { WRITERS = sizeof writers / sizeof *writers };
    for (uint32_t knower = 0; knower < WRITERS; knower++)
        for (uint32_t known = 0; known < WRITERS; known++) {
            arena *a = test_arena();
            journal_kit k = journal_kit_new(a);
            for (uint32_t w = 0; w < WRITERS; w++) kit_add(&k, writers[w], "answer", SAFE("smoke"));
            for (uint32_t w = 0; w < WRITERS; w++)
                if (w != known && w != knower) kit_read_from(&k, writers[knower], writers[w]);
            const uint32_t last = kit_add(&k, writers[knower], "answer", SAFE("smoke"));
            const journal *j = kit_journal(&k);
            for (uint32_t w = 0; w < WRITERS; w++)
                assert_int_equal(journal_saw(j, kit_entry(j, last), kit_entry(j, w)),
                                 w == knower || w != known);
            arena_free(a);
        }
}

/* ---- disputes ---- */

static void each_disputed_subject_is_told_once_in_order(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "put-back",
            "{\"fix\":\"smoke\"}"); /* a fix called as a question is: another subject */
    kit_add(&k, "east", "answer", SAFE("smoke"));
    kit_add(&k, "east", "answer", SAFE("air"));
    kit_add(&k, "east", "answer", SAFE("water"));
    kit_add(&k, "west", "answer", UNSAFE("air"));
    kit_add(&k, "west", "answer", SAFE("air")); /* what a writer said last counts */
    kit_add(&k, "west", "answer", UNSAFE("smoke"));
    kit_add(&k, "west", "answer", UNSAFE("water"));
    kit_add(&k, "west", "left", "{\"fix\":\"smoke\"}");
    const journal *j = kit_journal(&k);
    const disputes d = journal_disputes(a, j);
    static const char *const about[] = {"smoke", "smoke", "water"};
    assert_int_equal(d.count, 3);
    assert_int_equal(j->entries[d.items[0].items[0]].kind, RECORD_PUT_BACK);
    for (uint32_t i = 0; i < d.count; i++) {
        assert_int_equal(d.items[i].count, 2);
        assert_string_equal(entry_text(j, d.items[i].items[1], i == 0 ? "fix" : "question"),
                            about[i]);
    }
    arena_free(a);
}

/* One name may be a question's, a symptom's and a fix's: only what can't both be so is disputed. */
static void what_does_not_contradict_is_no_dispute(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun_as(a, "{}");
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "again", SAFE("air"));
    kit_add(&k, "east", "came-back", "{\"fix\":\"air\"}");
    kit_add(&k, "east", "answer", SAFE("smoke"));
    kit_add(&k, "west", "again", UNSAFE("air"));
    kit_add(&k, "west", "complaint", "{\"symptom\":\"air\"}");
    kit_add(&k, "west", "answer", SAFE("smoke"));
    kit_add(&k, "west", "answer", UNSAFE("tank")); /* the other said nothing of it */
    assert_int_equal(journal_disputes(a, kit_journal(&k)).count, 0);
    kit_add(&k, "west", "answer", UNSAFE("smoke"));
    const journal *j = kit_journal(&k);
    const disputes d = journal_disputes(a, j);
    assert_int_equal(d.count, 1);
    assert_int_equal(d.items[0].count, 2);
    assert_int_equal(j->entries[d.items[0].items[0]].source, 4);
    assert_int_equal(j->entries[d.items[0].items[1]].source, 9);
    arena_free(a);
}

/* ---- more records than there can be ---- */

static void more_records_than_can_be_counted_are_refused(void **state)
{
    (void)state;
    tt_journal *j;
    tt_past *p;
    assert_int_equal(tt_journal_new(NULL, (size_t)NO_ENTRY, NULL, &j), TT_NO_MEMORY);
    assert_null(j);
    assert_int_equal(tt_past_new(&p), TT_OK);
    assert_int_equal(tt_past_add(p, "000001A", NULL, (size_t)NO_ENTRY), TT_NO_MEMORY);
    tt_past_free(p);
    tt_past_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(danger_stands_until_somebody_who_knew_says_it_is_over),
        cmocka_unit_test(danger_under_a_question_is_over_when_that_one_is_answered),
        cmocka_unit_test(what_is_taken_back_makes_nothing_safe),
        cmocka_unit_test(a_closed_case_tells_of_no_danger),
        cmocka_unit_test(a_case_takes_from_its_first_record_to_its_end),
        cmocka_unit_test(clocks_that_disagree_give_no_length),
        cmocka_unit_test(a_case_is_of_the_kind_that_it_began_as),
        cmocka_unit_test(an_open_case_stands_at_its_last_step),
        cmocka_unit_test(what_came_before_is_not_needed),
        cmocka_unit_test(a_case_on_hold_goes_on_when_somebody_comes),
        cmocka_unit_test(a_fix_is_under_way_until_its_outcome_is_told),
        cmocka_unit_test(each_step_of_each_writer_is_found_by_its_name),
        cmocka_unit_test(each_knows_what_it_read_of_each_other),
        cmocka_unit_test(each_disputed_subject_is_told_once_in_order),
        cmocka_unit_test(what_does_not_contradict_is_no_dispute),
        cmocka_unit_test(more_records_than_can_be_counted_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
