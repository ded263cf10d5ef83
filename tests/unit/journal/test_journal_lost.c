/* Cases of which not all is there: the first record is lost or still on its way, one can't be read,
 * one number stands twice. What is there means what it says. */
#include "testing.h"

#include "journal/journal.h"
#include "journal/summary.h"
#include "journal_kit.h"
#include "test_sources.h"

#define SMOKE(option) \
    "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"" option "\"}}"

/* A case whose records are read where they matter; those in `damaged` can't be. */
typedef struct shelf {
    const journal_kit *k;
    uint32_t damaged; /* a bit each */
    uint32_t reads[64];
} shelf;

static bool read_shelf(void *context, uint32_t source, tt_record *record)
{
    shelf *s = context;
    s->reads[source]++;
    record->data = s->k->records[source].data;
    record->seen = s->k->records[source].seen;
    return (s->damaged >> source & 1) == 0;
}

static journal *read_lazily(arena *a, shelf *s, bool whole)
{
    tt_record *bare = ARENA_ARRAY(a, tt_record, s->k->count);
    tt_record_reader *reader = ARENA_NEW(a, tt_record_reader);
    *reader = (tt_record_reader){read_shelf, s};
    memcpy(bare, s->k->records, s->k->count * sizeof *bare);
    for (uint32_t i = 0; i < s->k->count && !whole; i++) bare[i].data = bare[i].seen = NULL;
    return journal_read(a, bare, s->k->count, reader);
}

/* ---- without its first record ---- */

static void what_came_first_can_be_taken_back(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "answer", SMOKE("no"));
    journal *j = kit_journal(&k);
    entries takes = journal_back_takes(a, j, "east");
    assert_int_equal(takes.count, 1);
    assert_int_equal(takes.items[0], 0);
    assert_int_equal(journal_back_takes(a, j, "nobody").count, 0);
    assert_int_equal(journal_holders(a, j).count, 0);
    assert_string_equal(j->entries[0].person, "");
    assert_int_equal(j->entries[0].sitting, NO_ENTRY);
    assert_int_equal(j->last_holder, NO_ENTRY);
    kit_add(&k, "east", "back", "{}");
    j = kit_journal(&k);
    assert_int_equal(j->entries[0].skipped, TT_SKIP_TAKEN_BACK);
    assert_int_equal(journal_back_takes(a, j, "east").count, 0);
    kit_add(&k, "east", "back", "{}"); /* of nothing */
    assert_int_equal(kit_journal(&k)->entries[1].skipped, TT_SKIP_NOT);
    arena_free(a);
}

static void what_came_first_counts_as_what_comes_later(void **state)
{
    static const struct {
        const char *kind, *data;
    } firsts[] = {{"danger", "{\"words\":\"it smokes\",\"list\":\"a\"}"},
                  {"answer", SMOKE("no")},
                  {"tried", "{\"fix\":\"recharge\",\"outcome\":\"no-change\"}"},
                  {"came-back", "{\"fix\":\"recharge\"}"},
                  {"fix-begun", "{\"fix\":\"recharge\"}"},
                  {"site", "{\"site\":{\"path\":\"/sites/south\"},\"revision\":\"r7\"}"},
                  {"complaint", "{\"symptom\":\"stiff\"}"},
                  {"hold", "{\"note\":\"until tomorrow\"}"}};
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof firsts / sizeof *firsts; i++) {
        journal_kit k = journal_kit_new(a);
        kit_add(&k, "east", firsts[i].kind, firsts[i].data);
        const journal *j = kit_journal(&k);
        const tt_case_summary s = journal_summary(j);
        assert_int_equal(s.danger, i == 0);
        assert_int_equal(s.answers, i == 1);
        assert_int_equal(s.tried, i == 2);
        assert_string_equal(journal_helped(j).came_back, i == 3 ? k.records[0].time : "");
        assert_int_equal(journal_fix_begun(j), i == 4 ? 0 : NO_ENTRY);
        assert_string_equal(s.site, i == 5 ? "south" : "");
        assert_int_equal(journal_last_site(j) != NULL, i == 5);
        assert_string_equal(journal_last_revision(j), i == 5 ? "r7" : "");
        assert_string_equal(s.complaint_name, i == 6 ? "stiff" : "");
        assert_string_equal(s.note, i == 7 ? "until tomorrow" : "");
        assert_int_equal(s.state, i == 7 ? TT_CASE_ON_HOLD : TT_CASE_OPEN);
        assert_int_equal(j->beginning, NO_ENTRY);
        assert_int_equal(j->moved, i == 5 || i == 7 ? NO_ENTRY : 0);
        assert_int_equal(j->left, i == 7 ? 0 : NO_ENTRY);
    }
    arena_free(a);
}

static void two_answers_alone_can_be_disputed(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "answer", SMOKE("no"));
    assert_int_equal(journal_disputes(a, kit_journal(&k)).count, 0);
    kit_add(&k, "west", "answer", SMOKE("yes"));
    const disputes d = journal_disputes(a, kit_journal(&k));
    assert_int_equal(d.count, 1);
    assert_int_equal(d.items[0].count, 2);
    assert_int_equal(d.items[0].answers, 2);
    arena_free(a);
}

/* ---- what can't be read ---- */

static void what_can_not_be_read_is_counted_wherever_it_stands(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\"}");
    kit_add(&k, "east", "answer", SMOKE("no"));
    kit_add(&k, "east", "complaint", "{\"symptom\":\"stiff\"}");
    for (uint32_t damaged = 0; damaged < 8; damaged++) {
        shelf s = {.k = &k, .damaged = damaged};
        journal *j = read_lazily(a, &s, false);
        for (uint32_t i = 0; i < 3; i++) entry_data(j, i);
        const tt_case_summary says = journal_summary(j);
        uint32_t wanted = 0;
        for (uint32_t i = 0; i < 3; i++) wanted += damaged >> i & 1;
        assert_int_equal(says.damaged, wanted);
        assert_string_equal(says.title, (damaged & 1) != 0 ? "" : "House well");
        assert_int_equal(says.answers, (damaged & 2) == 0);
        assert_string_equal(says.complaint_name, (damaged & 4) != 0 ? "" : "stiff");
        /* an answer that can't be read may have been any */
        assert_int_equal(says.danger, (damaged & 2) != 0);
        for (uint32_t i = 0; i < 3; i++) assert_int_equal(s.reads[i], 1);
    }
    arena_free(a);
}

static void what_was_handed_in_whole_is_not_read(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\"}");
    kit_add(&k, "east", "answer", SMOKE("no"));
    shelf s = {.k = &k, .damaged = 3};
    const tt_case_summary says = journal_summary(read_lazily(a, &s, true));
    assert_string_equal(says.title, "House well");
    assert_int_equal(says.answers, 1);
    assert_int_equal(says.damaged, 0);
    assert_int_equal(s.reads[0] + s.reads[1], 0);
    arena_free(a);
}

/* A list of many cases needs little of each, in whatever order their records come. */
static void what_does_not_matter_is_not_read(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\"}");
    for (int i = 0; i < 5; i++) kit_add(&k, "east", "said", "{\"words\":\"one moment\"}");
    kit_add(&k, "east", "tried", "{\"fix\":\"recharge\",\"outcome\":\"no-change\"}");
    const tt_record first = k.records[1];
    k.records[1] = k.records[5];
    k.records[5] = first;
    shelf s = {.k = &k};
    assert_int_equal(journal_summary(read_lazily(a, &s, false)).tried, 1);
    assert_int_equal(s.reads[0], 1);
    for (int i = 1; i < 6; i++) assert_int_equal(s.reads[i], 0);
    arena_free(a);
}

/* A file that was written on from an older copy: what stands twice is looked into before it is
 * taken for a copy. */
static void one_number_twice_is_read_before_it_is_dropped(void **state)
{
    (void)state;
    arena *a = test_arena();
    for (uint32_t copies = 2; copies < 5; copies++)
        for (int same = 0; same < 2; same++) {
            journal_kit k = journal_kit_new(a);
            kit_add(&k, "east", "begin", "{}");
            for (uint32_t i = 0; i < copies; i++) {
                kit_add(&k, "east", "answer",
                        same != 0 ? SMOKE("no")
                                  : str_printf(a, "{\"question\":\"smoke\",\"reply\":%u}", i).p);
                k.records[i + 1].number = k.records[i + 1].lamport = 2;
                k.records[i + 1].time = k.records[1].time;
            }
            shelf s = {.k = &k};
            const journal *j = read_lazily(a, &s, false);
            assert_int_equal(j->count, same != 0 ? 2 : copies + 1);
            assert_int_equal(journal_summary(j).answers, j->count - 1);
        }
    arena_free(a);
}

static void one_number_twice_is_no_copy_if_anything_differs(void **state)
{
    static const struct {
        const char *kind, *time, *data;
    } others[] = {{"again", "2026-11-29T08:01:00Z", SMOKE("no")},
                  {"answer", "2026-11-29T08:01:01Z", SMOKE("no")},
                  {"answer", "2026-11-29T08:01:00Z", SMOKE("yes")},
                  {"answer", "2026-11-29T08:01:00Z", SMOKE("no")}};
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        journal_kit k = journal_kit_new(a);
        kit_add(&k, "east", "begin", "{}");
        kit_add(&k, "east", "answer", SMOKE("no"));
        kit_add(&k, "east", others[i].kind, others[i].data);
        k.records[1].time = "2026-11-29T08:01:00Z";
        k.records[2].time = others[i].time;
        k.records[2].number = k.records[2].lamport = 2;
        assert_int_equal(kit_journal(&k)->count, i < 3 ? 3 : 2);
    }
    arena_free(a);
}

/* ---- whose step it is ---- */

static void nobody_takes_back_what_another_one_said(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{}");
    kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    kit_aware(&k, "east", "answer", "{\"question\":\"smoke\",\"reply\":1,\"reply_to\":3}");
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "west").count, 0);
    kit_aware(&k, "west", "answer", "{\"question\":\"air\",\"reply\":1,\"reply_to\":3}");
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "east").count, 0);
    entries takes = journal_back_takes(a, kit_journal(&k), "west"); /* no more than its own */
    assert_int_equal(takes.count, 1);
    assert_int_equal(takes.items[0], 3);
    kit_aware(&k, "west", "answers", "{\"name\":\"a\",\"text\":\"smoke: no\",\"reply_to\":3}");
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "west").count, 0); /* a file stays */
    kit_aware(&k, "west", "answer", "{\"question\":\"gas\",\"reply\":1,\"reply_to\":3}");
    takes = journal_back_takes(a, kit_journal(&k), "west");
    assert_int_equal(takes.count, 2); /* what came of one reply, but for the file between */
    assert_int_equal(takes.items[0], 5);
    assert_int_equal(takes.items[1], 3);
    arena_free(a);
}

/* ---- for whom a note is ---- */

static journal_kit handed_over(arena *a)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{\"by\":\"day shift\"}");
    kit_add(&k, "east", "hand-over", "{\"to\":\"night\",\"note\":\"look at the gauge\"}");
    return k;
}

/* At one desk one after another, and one person at two desks. */
static void somebody_else_is_another_person_or_another_desk(void **state)
{
    static const struct {
        const char *writer, *who;
        bool answers;
    } goes_on[] = {{"east", "{\"by\":\"day shift\"}", false},
                   {"east", "{\"by\":\"night shift\"}", true},
                   {"west", "{\"by\":\"day shift\"}", true},
                   {"west", "{\"by\":\"night shift\"}", true}};
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof goes_on / sizeof *goes_on; i++) {
        journal_kit k = handed_over(a);
        kit_aware(&k, goes_on[i].writer, "resume", goes_on[i].who);
        assert_string_equal(journal_summary(kit_journal(&k)).to, "night");
        kit_add(&k, goes_on[i].writer, "answer", SMOKE("no"));
        assert_string_equal(journal_summary(kit_journal(&k)).to, goes_on[i].answers ? "" : "night");
    }
    arena_free(a);
}

static void only_a_sitting_takes_what_was_handed_over(void **state)
{
    static const struct {
        const char *kind, *data;
        bool takes;
    } acts[] = {{"sitting", "{\"why\":\"taken-up\",\"accepts\":true}", true},
                {"sitting", "{\"why\":\"taken-up\"}", false},
                {"sitting", "{\"why\":\"taken-up\",\"accepts\":false}", false},
                {"said", "{\"accepts\":true}", false}};
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof acts / sizeof *acts; i++) {
        journal_kit k = handed_over(a);
        kit_aware(&k, "west", acts[i].kind, acts[i].data);
        const tt_case_summary s = journal_summary(kit_journal(&k));
        assert_string_equal(s.note, acts[i].takes ? "" : "look at the gauge");
        assert_string_equal(s.to, acts[i].takes ? "" : "night");
    }
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_came_first_can_be_taken_back),
        cmocka_unit_test(what_came_first_counts_as_what_comes_later),
        cmocka_unit_test(two_answers_alone_can_be_disputed),
        cmocka_unit_test(what_can_not_be_read_is_counted_wherever_it_stands),
        cmocka_unit_test(what_was_handed_in_whole_is_not_read),
        cmocka_unit_test(what_does_not_matter_is_not_read),
        cmocka_unit_test(one_number_twice_is_read_before_it_is_dropped),
        cmocka_unit_test(one_number_twice_is_no_copy_if_anything_differs),
        cmocka_unit_test(nobody_takes_back_what_another_one_said),
        cmocka_unit_test(somebody_else_is_another_person_or_another_desk),
        cmocka_unit_test(only_a_sitting_takes_what_was_handed_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
