/* Memory ends at every place in turn while a talk is asked what there is to tell of its case: what
 * was measured, what happened, what two said differently. It is told whole the next time, and the
 * talk goes on. */
#include "testing.h"

#include "deeds.h"
#include "journal_kit.h"
#include "test_sources.h"

#include "small_book.h"
#include "two_jobs.h"

#if OWN_MALLOC
static tt_book *book;
static journal_kit records;

#define GAP(number) \
    "\"question\":\"gap\",\"reply\":{\"kind\":\"number\",\"number\":" number ",\"unit\":\"mm\"}"

static journal_kit two_desks(arena *keep)
{
    journal_kit k = journal_kit_new(keep);
    kit_add(&k, "east", "begin", "{\"title\":\"Pump\",\"role\":\"hand\"}");
    kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    kit_add(&k, "east", "complaint", "{\"symptom\":\"bad-look\",\"said\":\"it looks bad\"}");
    kit_add(&k, "east", "answer", "{" GAP("5") "}");
    kit_add(&k, "east", "fix-begun", "{\"fix\":\"renew\"}");
    kit_add(&k, "east", "measured", "{\"fix\":\"renew\"," GAP("1") ",\"words\":\"1 mm\"}");
    kit_add(&k, "east", "tried", "{\"fix\":\"renew\",\"outcome\":\"no-change\"}");
    kit_add(&k, "west", "answer", "{\"question\":\"look\",\"reply\":{\"kind\":\"unsure\"}}");
    kit_add(&k, "east", "answer",
            "{\"question\":\"look\",\"reply\":{\"kind\":\"answer\",\"option\":\"good\"}}");
    return k;
}

static tt_talk *taken_up(void)
{
    const tt_talk_options options = {
        .writer = "east", .look_only = true, .number = "", .how = "resume"};
    const tt_record *keep;
    tt_talk *t;
    uint32_t count;
    DO(tt_talk_new(book, &options, &t));
    DO(tt_talk_take(t, records.records, records.count));
    DO(tt_talk_begin(t, "2026-11-29T10:00:00Z", &keep, &count));
    return t;
}

static void tell_what_was_measured(void)
{
    tt_talk *t = taken_up();
    const tt_measured *all;
    uint32_t count;
    DO(tt_talk_measured(t, &all, &count));
    assert_int_equal(count, 1);
    tell(all[0].before);
    tell(all[0].after);
    tt_talk_free(t);
}

static void tell_what_happened(void)
{
    tt_talk *t = taken_up();
    tt_history all;
    DO(tt_talk_history(t, &all));
    for (uint32_t i = 0; i < all.count; i++) {
        tell(all.items[i].text);
        tell(all.items[i].result);
    }
    tell(tt_talk_turn(t)->prompt);
    tt_talk_free(t);
}

static void tell_what_two_said(void)
{
    tt_talk *t = taken_up();
    const char *const *all;
    uint32_t count;
    DO(tt_talk_unsettled(t, &all, &count));
    assert_int_equal(count, 1);
    tell(all[0]);
    tt_talk_free(t);
}

static const deed deeds[] = {
    {"measured", tell_what_was_measured},
    {"history", tell_what_happened},
    {"unsettled", tell_what_two_said},
};

static void fail_in_telling(bool from_then_on)
{
    arena *keep = test_arena();
    book = two_jobs_book(&(two_jobs){
        .roles = "[{hand: {authorised: yes}}]",
        .questions = "  gap:\n    ask: How wide is the gap?\n    reading: length\n    unit: mm\n"
                     "    usual: 0 to 9 mm\n",
        .renew = "    role: hand\n    look-again: [gap]\n",
        .tighten = "    role: hand\n"});
    records = two_desks(keep);
    fail_everywhere(deeds, sizeof deeds / sizeof *deeds, 400, from_then_on);
    tt_book_free(book);
    arena_free(keep);
}
#else
static void fail_in_telling(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_in_telling);
}
