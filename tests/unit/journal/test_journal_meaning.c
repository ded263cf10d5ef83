/* What records of several writers mean: small cases, each worked out by hand. */
#include "testing.h"

#include "journal/journal.h"
#include "journal/summary.h"
#include "journal_kit.h"
#include "memory_sweep.h"
#include "test_sources.h"

#define YES "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"yes\"}}"
#define NO  "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"no\"}}"
#define UNSAFE \
    "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"yes\"},\"danger\":true}"
#define NO_CHANGE "{\"fix\":\"recharge\",\"outcome\":\"no-change\"}"
#define GONE      "{\"fix\":\"recharge\",\"outcome\":\"gone\"}"
#define HUMMING   "{\"cause\":\"tank-waterlogged\",\"cause_text\":\"The tank is full of water\"}"
#define LEAKING   "{\"cause\":\"leak-after-tank\"}"

static journal_kit begun(arena *a)
{
    journal_kit k = journal_kit_new(a);
    kit_add(
        &k, "east", "begin",
        "{\"title\":\"House well\",\"revision\":\"r1\",\"by\":\"east desk\",\"on\":\"desk-3\"}");
    return k;
}

static tt_skip skipped(const journal *j, uint32_t source)
{
    return j->entries[kit_entry(j, source)].skipped;
}

/* ---- order ---- */

static void any_order_and_copies_give_one_order(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    uint32_t no = kit_add(&k, "east", "answer", NO);
    uint32_t joined = kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    uint32_t tried = kit_add(&k, "east", "tried",
                             NO_CHANGE); /* at the same logical time: by the writer's name */
    const uint32_t wanted[] = {0, no, tried, joined};
    const tt_record mixed[] = {k.records[3], k.records[1], k.records[1],
                               k.records[2], k.records[0], k.records[3]};
    const uint32_t from[] = {3, 1, 1, 2, 0, 3};
    journal *j = journal_read(a, mixed, 6, NULL);
    assert_int_equal(j->count, 4);
    for (uint32_t i = 0; i < 4; i++) assert_int_equal(from[j->entries[i].source], wanted[i]);
    assert_int_equal(j->writer_count, 2);
    assert_string_equal(j->writers[1].name, "west");
    arena_free(a);
}

/* A file that was written on from an older copy: nothing of it is lost, and its order does not
 * depend on who reads it. */
static void one_number_twice_keeps_both(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a), other = begun(a);
    kit_add(&k, "east", "answer", NO);
    kit_add(&other, "east", "answer", YES);
    const tt_record both[] = {k.records[0], k.records[1], other.records[1]},
                    turned[] = {both[2], both[1], both[0]};
    journal *j = journal_read(a, both, 3, NULL), *t = journal_read(a, turned, 3, NULL);
    assert_int_equal(j->count, 3);
    assert_int_equal(t->count, 3);
    for (uint32_t i = 0; i < 3; i++) assert_true(value_eq(entry_data(j, i), entry_data(t, i)));
    arena_free(a);
}

static void what_a_newer_program_wrote_means_nothing_here(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer", NO);
    kit_add(&k, "east", "close", "{\"how\":\"gone\"}");
    uint32_t odd = kit_add(&k, "east", "no-such-kind", "{\"step\":1}");
    journal *j = kit_journal(&k);
    assert_int_equal(j->entries[kit_entry(j, odd)].kind, RECORD_UNKNOWN);
    assert_int_equal(j->end, END_GONE);
    assert_int_equal(j->count, 4);
    arena_free(a);
}

/* ---- what counts ---- */

static void back_takes_what_it_names(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    uint32_t no = kit_add(&k, "east", "answer", NO);
    uint32_t complaint = kit_aware(&k, "west", "complaint", "{\"symptom\":\"short-cycling\"}");
    uint32_t back = kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    journal *j = kit_journal(&k);
    assert_int_equal(skipped(j, no), TT_SKIP_TAKEN_BACK);
    assert_int_equal(j->entries[kit_entry(j, no)].because, kit_entry(j, back));
    assert_int_equal(skipped(j, complaint), TT_SKIP_NOT);
    arena_free(a);
}

static void back_of_version_1_takes_the_last_but_no_file(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    uint32_t file = kit_add(&k, "east", "answers", "{\"name\":\"a\",\"text\":\"smoke: no\"}");
    uint32_t no = kit_add(&k, "east", "answer", NO);
    kit_add(&k, "east", "back", "{}");
    kit_add(&k, "east", "back", "{}");
    journal *j = kit_journal(&k);
    assert_int_equal(skipped(j, no), TT_SKIP_TAKEN_BACK);
    assert_int_equal(skipped(j, file), TT_SKIP_NOT);
    arena_free(a);
}

static void back_can_name_all_that_came_of_one_reply(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    uint32_t first = kit_add(&k, "east", "complaint", "{\"symptom\":\"stiff\",\"reply_to\":4}");
    uint32_t second =
        kit_add(&k, "east", "answer", "{\"question\":\"air\",\"reply\":1,\"reply_to\":4}");
    journal *j = kit_journal(&k);
    entries takes = journal_back_takes(a, j, "east");
    assert_int_equal(takes.count, 2);
    assert_int_equal(takes.items[0], kit_entry(j, second));
    kit_add(&k, "east", "back",
            "{\"steps\":[{\"writer\":\"east\",\"seq\":3},{\"writer\":\"east\",\"seq\":2}]}");
    j = kit_journal(&k);
    assert_int_equal(skipped(j, first), TT_SKIP_TAKEN_BACK);
    assert_int_equal(skipped(j, second), TT_SKIP_TAKEN_BACK);
    assert_int_equal(journal_back_takes(a, j, "east").count, 0);
    arena_free(a);
}

static void back_stops_where_the_sitting_began(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer", NO);
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "east").count, 1);
    kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "west").count, 0);
    kit_add(&k, "east", "sitting", "{\"why\":\"pause\"}");
    assert_int_equal(journal_back_takes(a, kit_journal(&k), "east").count, 0);
    uint32_t danger = kit_add(&k, "east", "answer", NO);
    journal *j = kit_journal(&k);
    entries takes = journal_back_takes(a, j, "east");
    assert_int_equal(takes.count, 1);
    assert_int_equal(takes.items[0], kit_entry(j, danger));
    arena_free(a);
}

static void what_was_settled_wrong_does_not_count(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    uint32_t no = kit_add(&k, "east", "answer", NO), yes = kit_add(&k, "west", "answer", YES);
    kit_aware(&k, "west", "settle",
              "{\"right\":{\"writer\":\"east\",\"seq\":2},\"wrong\":[{\"writer\":\"west\",\"seq\":"
              "2},{\"writer\":\"east\",\"seq\":1}]}");
    journal *j = kit_journal(&k);
    assert_int_equal(skipped(j, yes), TT_SKIP_SETTLED_WRONG);
    assert_int_equal(skipped(j, no), TT_SKIP_NOT);
    assert_int_equal(skipped(j, 0), TT_SKIP_NOT); /* what can't be disputed can't be wrong */
    kit_add(&k, "west", "back", "{\"step\":{\"writer\":\"west\",\"seq\":3}}");
    assert_int_equal(skipped(kit_journal(&k), yes), TT_SKIP_NOT);
    arena_free(a);
}

static void what_two_report_unaware_happened_once(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    uint32_t one = kit_add(&k, "east", "tried", NO_CHANGE),
             twin = kit_add(&k, "west", "tried",
                            "{\"outcome\":\"no-change\",\"fix\":\"recharge\",\"text\":\"x\"}");
    uint32_t again =
        kit_aware(&k, "west", "tried", NO_CHANGE); /* knows of both: it was tried once more */
    journal *j = kit_journal(&k);
    assert_int_equal(skipped(j, twin), TT_SKIP_TOLD_TWICE);
    assert_int_equal(j->entries[kit_entry(j, twin)].because, kit_entry(j, one));
    assert_int_equal(skipped(j, again), TT_SKIP_NOT);
    assert_int_equal(journal_summary(j).tried, 2);
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    /* the other one was taken back */
    assert_int_equal(skipped(kit_journal(&k), twin), TT_SKIP_NOT);
    arena_free(a);
}

static void another_outcome_or_setting_is_another_report(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "tried",
            "{\"fix\":\"air\",\"outcome\":\"better\",\"set\":{\"from\":50,\"to\":45}}");
    uint32_t other =
        kit_add(&k, "west", "tried",
                "{\"fix\":\"air\",\"outcome\":\"better\",\"set\":{\"from\":50,\"to\":40}}");
    assert_int_equal(skipped(kit_journal(&k), other), TT_SKIP_NOT);
    arena_free(a);
}

/* ---- where it stands ---- */

static void a_case_is_closed_until_it_goes_on(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "tried", GONE);
    kit_add(&k, "east", "close", "{\"how\":\"gone\",\"cause\":\"tank-waterlogged\"}");
    assert_int_equal(kit_journal(&k)->end, END_GONE);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "west", "stop", "{}");
    assert_int_equal(kit_journal(&k)->end, END_GONE);
    kit_add(&k, "west", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    journal *j = kit_journal(&k);
    assert_int_equal(j->end, END_NONE);
    assert_int_equal(journal_summary(j).tried, 0);
    assert_string_equal(journal_summary(j).cause_name, "");
    arena_free(a);
}

static void a_report_told_twice_opens_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "west", "said", "{\"words\":\"one moment\"}");
    kit_add(&k, "west", "said", "{\"words\":\"and another\"}");
    kit_add(&k, "east", "tried", GONE);
    kit_add(&k, "east", "close", "{\"how\":\"gone\"}");
    kit_add(&k, "west", "tried", GONE);
    assert_int_equal(kit_journal(&k)->end, END_GONE);
    arena_free(a);
}

static void who_did_not_know_of_danger_closes_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "danger", "{\"words\":\"it smokes\",\"list\":\"a\"}");
    kit_add(&k, "west", "tried", GONE);
    kit_add(&k, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&k)->end, END_NONE);
    kit_aware(&k, "west", "made-safe", "{\"post\":\"electrician\"}");
    assert_int_equal(kit_journal(&k)->end, END_MADE_SAFE);
    kit_add(&k, "west", "close", "{\"how\":\"made-safe\"}");
    assert_int_equal(kit_journal(&k)->end, END_MADE_SAFE);
    arena_free(a);
}

/* An unsafe answer is danger as the word is, even taken back; a safe one, and one to another
 * question, is none. */
static void who_did_not_know_of_an_unsafe_answer_closes_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a), safe = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "answer", UNSAFE);
    kit_add(&k, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&k)->end, END_NONE);
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    kit_add(&k, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&k)->end, END_NONE);
    kit_aware(&k, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&k)->end, END_GONE);
    kit_aware(&safe, "west", "resume", "{}");
    kit_add(&safe, "east", "answer", NO);
    kit_add(&safe, "west", "tried", GONE);
    kit_add(&safe, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&safe)->end, END_GONE);
    arena_free(a);
}

static void a_file_of_answers_can_tell_danger(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "answers", "{\"name\":\"a\",\"text\":\"smoke: yes\",\"danger\":true}");
    kit_add(&k, "west", "close", "{\"how\":\"gone\"}");
    assert_int_equal(kit_journal(&k)->end, END_NONE);
    arena_free(a);
}

/* A desk leaves a note; another looks in and stops. */
static void a_look_leaves_the_note_standing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "hold",
            "{\"note\":\"the caller fetches a gauge\",\"next\":\"What does it read?\"}");
    kit_aware(&k, "west", "resume", "{\"by\":\"west desk\"}");
    assert_int_equal(journal_summary(kit_journal(&k)).state, TT_CASE_OPEN);
    kit_add(&k, "west", "stop", "{}");
    tt_case_summary s = journal_summary(kit_journal(&k));
    assert_int_equal(s.state, TT_CASE_ON_HOLD);
    assert_string_equal(s.note, "the caller fetches a gauge");
    assert_string_equal(s.person, "west desk");
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "west", "answer", NO);
    kit_add(&k, "west", "stop", "{}");
    s = journal_summary(kit_journal(&k));
    assert_int_equal(s.state, TT_CASE_OPEN);
    assert_string_equal(s.note, "");
    arena_free(a);
}

/* A desk that works on a copy of its own goes on later, and has not read it. */
static void whoever_did_not_know_of_a_note_answers_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "hold", "{\"note\":\"the caller fetches a gauge\"}");
    kit_add(&k, "west", "answer", NO);
    kit_add(&k, "west", "stop", "{}");
    assert_string_equal(journal_summary(kit_journal(&k)).note, "the caller fetches a gauge");
    kit_aware(&k, "west", "answer", YES);
    assert_string_equal(journal_summary(kit_journal(&k)).note, "");
    arena_free(a);
}

static void for_whom_it_is_stands_until_they_go_on(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "hand-over", "{\"to\":\"the night shift\",\"note\":\"look at the gauge\"}");
    kit_add(&k, "east", "resume", "{}");
    kit_add(&k, "east", "answer", NO); /* who handed it over adds something */
    kit_add(&k, "east", "hold", "{\"note\":\"\"}");
    tt_case_summary s = journal_summary(kit_journal(&k));
    assert_string_equal(s.to, "the night shift");
    assert_string_equal(s.note, "look at the gauge");
    assert_int_equal(s.state, TT_CASE_ON_HOLD);
    kit_aware(&k, "west", "resume", "{}");
    uint32_t took = k.count;
    kit_add(&k, "west", "sitting", "{\"why\":\"taken-up\",\"accepts\":true}");
    assert_string_equal(journal_summary(kit_journal(&k)).to, "");
    k.count = took;
    kit_add(&k, "west", "answer", YES);
    assert_string_equal(journal_summary(kit_journal(&k)).to, "");
    arena_free(a);
}

static void a_case_that_waits_stays_open(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "waiting", "{\"whom\":\"technician\",\"until\":\"2026-11-30T07:00:00Z\"}");
    kit_add(&k, "east", "stop", "{}");
    tt_case_summary s = journal_summary(kit_journal(&k));
    assert_int_equal(s.state, TT_CASE_WAITING);
    assert_string_equal(s.to, "technician");
    assert_string_equal(s.until, "2026-11-30T07:00:00Z");
    assert_true(*s.ended == '\0');
    arena_free(a);
}

static void what_comes_next_is_told_till_the_case_goes_on(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer",
            "{\"question\":\"smoke\",\"reply\":1,\"asked\":\"Is there smoke?\",\"words\":\"No\"}");
    assert_string_equal(journal_summary(kit_journal(&k)).stands, "Is there smoke? No");
    kit_add(&k, "east", "stop", "{\"next\":\"Charge the tank\"}");
    tt_case_summary s = journal_summary(kit_journal(&k));
    assert_int_equal(s.stands_is, TT_STANDS_NEXT);
    assert_string_equal(s.stands, "Charge the tank");
    kit_add(&k, "east", "resume", "{}");
    kit_add(&k, "east", "no-complaint", "{}");
    assert_int_equal(journal_summary(kit_journal(&k)).stands_is, TT_STANDS_NO_COMPLAINT);
    arena_free(a);
}

/* ---- people ---- */

static void each_is_called_as_they_called_themselves_then(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    uint32_t early = kit_add(&k, "east", "answer", NO);
    kit_add(&k, "east", "stop", "{}");
    uint32_t came = kit_add(&k, "east", "resume", "{\"by\":\"night shift\"}");
    uint32_t late = kit_add(&k, "east", "answer", YES);
    journal *j = kit_journal(&k);
    assert_string_equal(j->entries[kit_entry(j, early)].person, "east desk");
    assert_string_equal(j->entries[kit_entry(j, late)].person, "night shift");
    assert_string_equal(j->entries[kit_entry(j, late)].place, "desk-3");
    assert_int_equal(j->entries[kit_entry(j, late)].sitting, kit_entry(j, came));
    assert_int_equal(j->entries[kit_entry(j, early)].sitting, 0);
    arena_free(a);
}

static void who_has_it_is_who_came_and_did_not_leave(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    kit_aware(&k, "west", "sitting", "{\"why\":\"joined\"}");
    journal *j = kit_journal(&k);
    assert_int_equal(journal_holders(a, j).count, 2);
    assert_int_equal(j->entries[j->writers[1].came].kind, RECORD_RESUME);
    kit_add(&k, "west", "stop", "{}");
    j = kit_journal(&k);
    tt_case_summary s = journal_summary(j);
    assert_int_equal(journal_holders(a, j).count, 1);
    assert_true(s.held);
    assert_string_equal(s.writer, "east"); /* who joined is gone, east still has it */
    kit_aware(&k, "west", "resume", "{\"how\":\"take-over\"}");
    j = kit_journal(&k);
    assert_int_equal(journal_holders(a, j).count, 1);
    kit_add(&k, "west", "stop", "{}");
    s = journal_summary(kit_journal(&k));
    assert_false(s.held);
    assert_string_equal(s.writer, "west");
    assert_string_equal(s.since, k.records[k.count - 1].time);
    arena_free(a);
}

static void the_next_record_knows_all_that_is_there(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "west", "resume", "{}");
    kit_add(&k, "west", "answer", NO);
    tt_value nothing = {.kind = TT_VALUE_MAP};
    tt_record next =
        journal_next(a, kit_journal(&k), "east", "stop", "2026-11-29T09:00:00Z", &nothing);
    uint64_t seen = 0;
    assert_int_equal(next.number, 2);
    assert_int_equal(next.lamport, 3);
    assert_true(value_counter(next.seen, "west", &seen) && seen == 2);
    assert_null(value_get(next.seen, "east"));
    next = journal_next(a, kit_journal(&k), "north", "resume", "2026-11-29T09:00:00Z", &nothing);
    assert_int_equal(next.number, 1);
    assert_int_equal(next.seen->count, 2);
    arena_free(a);
}

static void the_last_site_and_revision_count(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    assert_null(journal_last_site(kit_journal(&k)));
    assert_string_equal(journal_last_revision(kit_journal(&k)), "r1");
    kit_add(&k, "east", "site", "{\"site\":{\"path\":\"/sites/north.site.yaml\"}}");
    kit_aware(&k, "west", "resume", "{\"revision\":\"r2\"}");
    journal *j = kit_journal(&k);
    assert_string_equal(value_text(journal_last_site(j), "path"), "/sites/north.site.yaml");
    assert_string_equal(journal_last_revision(j), "r2");
    assert_string_equal(journal_summary(j).site, "north.site");
    kit_add(&k, "west", "site", "{\"site\":null}");
    assert_null(journal_last_site(kit_journal(&k)));
    arena_free(a);
}

/* ---- several who did not know of each other ---- */

static void different_answers_unaware_are_disputed(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    uint32_t no = kit_add(&k, "east", "answer", NO), yes = kit_add(&k, "west", "answer", YES);
    kit_add(&k, "north", "answer", NO);
    journal *j = kit_journal(&k);
    disputes d = journal_disputes(a, j);
    assert_int_equal(d.count, 1);
    assert_int_equal(d.items[0].count, 3);
    assert_int_equal(d.items[0].answers, 2);
    for (uint32_t i = 0; i < 3; i++) {
        bool is_yes = d.items[0].items[i] == kit_entry(j, yes);
        assert_int_equal(d.items[0].answer[i],
                         is_yes != (d.items[0].items[0] == kit_entry(j, yes)));
    }
    kit_aware(&k, "west", "answer", NO); /* knew of all */
    assert_int_equal(journal_disputes(a, kit_journal(&k)).count, 0);
    (void)no;
    arena_free(a);
}

static void put_back_and_left_contradict_each_other(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "put-back", "{\"fix\":\"recharge\"}");
    kit_add(&k, "west", "left", "{\"fix\":\"recharge\"}");
    kit_add(&k, "west", "left", "{\"fix\":\"other\"}");
    disputes d = journal_disputes(a, kit_journal(&k));
    assert_int_equal(d.count, 1);
    assert_int_equal(d.items[0].answers, 2);
    arena_free(a);
}

static journal_kit closed_by_east(arena *a)
{
    journal_kit k = begun(a);
    kit_add(&k, "east", "tried", GONE);
    kit_add(&k, "east", "close",
            "{\"how\":\"gone\",\"cause\":\"tank-waterlogged\",\"cause_text\":\"The tank is full of "
            "water\"}");
    kit_read(&k, "west");
    kit_read(&k, "north");
    return k;
}

static void a_cause_is_what_was_confirmed(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = closed_by_east(a);
    tt_case_summary s = journal_summary(kit_journal(&k));
    assert_string_equal(s.cause, "The tank is full of water");
    assert_false(s.confirmed);
    assert_int_equal(journal_cause(kit_journal(&k)).said, TT_CAUSE_UNSAID);
    kit_add(&k, "east", "confirm", LEAKING);
    s = journal_summary(kit_journal(&k));
    assert_true(s.confirmed && !s.disputed);
    assert_string_equal(s.cause_name, "leak-after-tank");
    assert_string_equal(s.cause, "");
    kit_aware(&k, "east", "confirm", "{\"cause\":null,\"how\":\"unsure\"}");
    assert_int_equal(journal_cause(kit_journal(&k)).said, TT_CAUSE_UNSURE);
    assert_string_equal(journal_summary(kit_journal(&k)).cause_name, "tank-waterlogged");
    kit_add(&k, "east", "answer", NO); /* the case went on */
    assert_int_equal(journal_cause(kit_journal(&k)).said, TT_CAUSE_UNSAID);
    arena_free(a);
}

/* Two desks name different causes, not knowing of each other; a third knows one of them. */
static void a_third_who_knows_one_of_two_settles_nothing(void **state)
{
    (void)state;
    static const char *const third[] = {HUMMING, LEAKING, "{\"cause\":\"pump-worn\"}",
                                        "{\"cause\":null}"};
    for (size_t i = 0; i < sizeof third / sizeof *third; i++) {
        arena *a = test_arena();
        journal_kit k = closed_by_east(a);
        kit_add(&k, "east", "confirm", HUMMING);
        kit_add(&k, "west", "confirm", LEAKING);
        assert_int_equal(journal_cause(kit_journal(&k)).said, TT_CAUSE_DISPUTED);
        kit_read_from(&k, "north", "east");
        kit_add(&k, "north", "confirm", third[i]);
        journal *j = kit_journal(&k);
        assert_int_equal(journal_cause(j).said, TT_CAUSE_DISPUTED);
        tt_case_summary s = journal_summary(j);
        assert_true(s.disputed && !s.confirmed);
        assert_string_equal(s.cause_name, "");
        kit_aware(&k, "north", "confirm", LEAKING); /* knew of both */
        tt_confirmation c = journal_cause(kit_journal(&k));
        assert_int_equal(c.said, TT_CAUSE_CONFIRMED);
        assert_string_equal(c.cause, "leak-after-tank");
        arena_free(a);
    }
}

static void the_same_cause_twice_is_confirmed(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = closed_by_east(a);
    kit_add(&k, "east", "confirm", HUMMING);
    kit_add(&k, "west", "confirm", HUMMING);
    kit_add(&k, "north", "confirm", "{\"cause\":null}");
    tt_confirmation c = journal_cause(kit_journal(&k));
    assert_int_equal(c.said, TT_CAUSE_CONFIRMED);
    assert_string_equal(c.cause, "tank-waterlogged");
    arena_free(a);
}

/* A writer who claims to have read what did not exist yet; two who claim it of each other. */
static void who_claims_to_know_what_comes_later_knows_nothing_of_it(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = closed_by_east(a);
    kit_add(&k, "east", "confirm", HUMMING);
    kit_add(&k, "west", "confirm", LEAKING);
    value_builder of_west = value_map(a), of_east = value_map(a);
    value_put_number(&of_west, "west", 99);
    value_put_number(&of_east, "east", 99);
    k.records[3].seen = value_keep(&of_west);
    k.records[4].seen = value_keep(&of_east);
    assert_int_equal(journal_cause(kit_journal(&k)).said, TT_CAUSE_CONFIRMED);
    arena_free(a);
}

/* ---- memory, and the public face ---- */

static journal_kit disputed(arena *a)
{
    journal_kit k = closed_by_east(a);
    kit_add(&k, "east", "confirm", HUMMING);
    kit_add(&k, "west", "confirm", LEAKING);
    kit_add(&k, "east", "answer", NO);
    kit_add(&k, "west", "answer", YES);
    kit_add(&k, "west", "tried", GONE);
    return k;
}

static bool means_a_dispute(void *of, arena *keep, arena *scratch)
{
    const journal_kit *k = of;
    (void)scratch;
    journal *j = journal_read(keep, k->records, k->count, NULL);
    return journal_disputes(keep, j).count == 1 && journal_summary(j).state == TT_CASE_OPEN;
}

static void every_allocation_that_fails_is_taken_well(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = disputed(a);
    memory_sweeps(means_a_dispute, &k);
    arena_free(a);
}

static bool read_or_not(void *context, uint32_t source, tt_record *record)
{
    const journal_kit *k = context;
    record->data = k->records[source].data;
    record->seen = k->records[source].seen;
    return strcmp(record->kind, "close") != 0; /* that one is damaged */
}

static void damage_is_found_where_it_matters(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = closed_by_east(a);
    tt_record bare[3];
    for (uint32_t i = 0; i < 3; i++) {
        bare[i] = k.records[i];
        bare[i].data = bare[i].seen = NULL;
    }
    tt_journal *j;
    tt_case_summary s;
    tt_entry entry;
    const tt_holder *holders;
    uint32_t count;
    assert_int_equal(tt_journal_new(bare, 3, &(tt_record_reader){read_or_not, &k}, &j), TT_OK);
    assert_int_equal(tt_journal_summary(j, &s), TT_OK);
    assert_int_equal(s.damaged, 1);
    assert_int_equal(s.state, TT_CASE_OPEN);
    assert_int_equal(tt_journal_count(j), 3);
    assert_int_equal(tt_journal_entry(j, 2, &entry), TT_OK);
    assert_int_equal(entry.skipped, TT_SKIP_DAMAGED);
    assert_string_equal(entry.person, "east desk");
    assert_int_equal(tt_journal_holders(j, &holders, &count), TT_OK);
    assert_int_equal(count, 0); /* leaving is seen without looking into it */
    tt_journal_free(j);
    arena_free(a);
}

static void nothing_is_unreadable(void **state)
{
    (void)state;
    tt_journal *j;
    tt_case_summary s;
    assert_int_equal(tt_journal_new(NULL, 0, NULL, &j), TT_OK);
    assert_int_equal(tt_journal_summary(j, &s), TT_OK);
    assert_string_equal(tt_case_state_name(s.state), "unreadable");
    assert_string_equal(s.began, "");
    tt_journal_free(j);
    tt_journal_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_order_and_copies_give_one_order),
        cmocka_unit_test(one_number_twice_keeps_both),
        cmocka_unit_test(what_a_newer_program_wrote_means_nothing_here),
        cmocka_unit_test(back_takes_what_it_names),
        cmocka_unit_test(back_of_version_1_takes_the_last_but_no_file),
        cmocka_unit_test(back_can_name_all_that_came_of_one_reply),
        cmocka_unit_test(back_stops_where_the_sitting_began),
        cmocka_unit_test(what_was_settled_wrong_does_not_count),
        cmocka_unit_test(what_two_report_unaware_happened_once),
        cmocka_unit_test(another_outcome_or_setting_is_another_report),
        cmocka_unit_test(a_case_is_closed_until_it_goes_on),
        cmocka_unit_test(a_report_told_twice_opens_nothing),
        cmocka_unit_test(who_did_not_know_of_danger_closes_nothing),
        cmocka_unit_test(who_did_not_know_of_an_unsafe_answer_closes_nothing),
        cmocka_unit_test(a_file_of_answers_can_tell_danger),
        cmocka_unit_test(a_look_leaves_the_note_standing),
        cmocka_unit_test(whoever_did_not_know_of_a_note_answers_nothing),
        cmocka_unit_test(for_whom_it_is_stands_until_they_go_on),
        cmocka_unit_test(a_case_that_waits_stays_open),
        cmocka_unit_test(what_comes_next_is_told_till_the_case_goes_on),
        cmocka_unit_test(each_is_called_as_they_called_themselves_then),
        cmocka_unit_test(who_has_it_is_who_came_and_did_not_leave),
        cmocka_unit_test(the_next_record_knows_all_that_is_there),
        cmocka_unit_test(the_last_site_and_revision_count),
        cmocka_unit_test(different_answers_unaware_are_disputed),
        cmocka_unit_test(put_back_and_left_contradict_each_other),
        cmocka_unit_test(a_cause_is_what_was_confirmed),
        cmocka_unit_test(a_third_who_knows_one_of_two_settles_nothing),
        cmocka_unit_test(the_same_cause_twice_is_confirmed),
        cmocka_unit_test(who_claims_to_know_what_comes_later_knows_nothing_of_it),
        cmocka_unit_test(every_allocation_that_fails_is_taken_well),
        cmocka_unit_test(damage_is_found_where_it_matters),
        cmocka_unit_test(nothing_is_unreadable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
