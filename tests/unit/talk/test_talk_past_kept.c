/* What a record says of a site's earlier cases, whoever wrote it: what it lacks, or dates that are
 * none, count for nothing, and the rest is told. */
#include "journal_kit.h"
#include "small_book.h"
#include "talk_kit.h"
#include "test_sources.h"
#include "testing.h"

/* Invented here: a well. */
static const char rules[] =
    "book: {title: 'House well', roles: [householder], two-faults: 0}\n"
    "questions:\n"
    "  noise: {ask: 'How does it sound?', answers: {hum: 'It hums', click: 'It clicks'}, usual: "
    "hum}\n"
    "symptoms:\n"
    "  no-water: {text: 'No water comes', heard: [no water], when: {noise: click}, shown-by: "
    "{stuck: usually}}\n"
    "causes:\n  stuck: {text: 'The pump is stuck'}\n"
    "fixes:\n"
    "  turn: {text: 'Turn the shaft', role: householder, cures: {stuck: usually}, harm: none,\n"
    "         takes: 5 min, put-back: 'Turn it back'}\n";

typedef struct scene {
    arena *keep;
    tt_book *b;
    record_folder *f;
    told_talk t;
} scene;

static scene *taken_up(scene *s, const char *past)
{
    const tt_talk_options options = {
        .writer = "east", .kept = true, .number = "000001A", .how = "resume"};
    s->keep = test_arena();
    s->b = small_book(rules);
    s->f = record_folder_new();
    journal_kit k = journal_kit_new(s->keep);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\",\"role\":\"householder\"}");
    kit_add(&k, "east", "past", past);
    kit_add(&k, "east", "complaint", "{\"symptom\":\"no-water\",\"text\":\"No water comes\"}");
    for (uint32_t i = 0; i < k.count; i++) s->f->records[s->f->count++] = k.records[i];
    s->t = talk_open_with(s->b, s->f, &options, "2026-11-29T10:00:00Z");
    return s;
}

static void end(scene *s)
{
    talk_close(&s->t);
    record_folder_free(s->f);
    tt_book_free(s->b);
    arena_free(s->keep);
}

/* Of the last case that ended: by which fix, of what cause, or that somebody was called. */
static void how_the_last_one_ended_is_told(void **state)
{
#define LAST(how) \
    "{\"cases\":[{\"number\":\"1\",\"symptom\":\"no-water\",\"began\":\"2026-11-01T08:00:00Z\"," \
    "\"ended\":\"2026-11-02T08:00:00Z\"" how "}]}"
    static const char *const all[][2] = {
        {LAST(",\"fix\":\"turn\",\"fix_text\":\"old words\""), "Turn the shaft"},
        {LAST(",\"fix\":\"kick\",\"fix_text\":\"Kick the pump\""), "Kick the pump"},
        {LAST(",\"fix\":\"turn\",\"came_back\":\"2026-11-03T08:00:00Z\""), "came back"},
        {LAST(",\"cause\":\"stuck\",\"confirmed\":true"), "The pump is stuck"},
        {LAST(",\"cause\":\"worn\",\"cause_text\":\"It was worn\""), "It was worn"},
        {LAST(""), "2026-11-02"}};
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        scene s;
        taken_up(&s, all[i][0]);
        if (!turn_tells(turn_of(&s.t), TT_PART_PAST, all[i][1]))
            fail_msg("%s: not told: %s", all[i][0], all[i][1]);
        end(&s);
    }
}

/* When it was that long ago, or at no date, only how often is said. */
static void odd_dates_count_for_nothing(void **state)
{
#define CASE(began, ended) \
    "{\"symptom\":\"no-water\",\"began\":\"" began "\",\"ended\":\"" ended "\",\"fix\":\"turn\"}"
    static const char *const all[][2] = {
        {"{\"cases\":[" CASE("long ago", "soon") "]}", "here: 2 times, with this one."},
        {"{\"cases\":[" CASE("1999-01-01T08:00:00Z", "1999-01-02T08:00:00Z") "]}",
         "here: 2 times, with this one."},
        {"{\"cases\":[" CASE("", "") "," CASE("2026-11-28T08:00:00Z", "2026-11-28T09:00:00Z") "]}",
         "here: 3 times, with this one."},
        {"{\"cases\":[" CASE("2026-11-20T08:00:00Z", "2026-11-20T09:00:00Z") "," CASE(
             "2026-11-28T08:00:00Z", "2026-11-28T09:00:00Z") "]}",
         "here: 3 times in 10 days, with this one."},
        {"{\"cases\":[" CASE("2026-11-29T09:00:00Z", "2026-11-29T09:10:00Z") "]}",
         "here: 2 times in one day, with this one."}};
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        scene s;
        taken_up(&s, all[i][0]);
        if (!turn_tells(turn_of(&s.t), TT_PART_PAST, all[i][1]))
            fail_msg("%s: not told: %s", all[i][0], all[i][1]);
        end(&s);
    }
}

static void nothing_of_this_trouble_is_nothing_told(void **state)
{
    static const char *const all[] = {
        "{}", "{\"cases\":[]}", "{\"open\":[{\"number\":\"2\",\"symptom\":\"no-water\"}]}",
        "{\"cases\":[{\"symptom\":\"low\",\"fix\":\"turn\"}]}", "{\"cases\":[{}]}"};
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        scene s;
        taken_up(&s, all[i]);
        assert_false(turn_tells(turn_of(&s.t), TT_PART_PAST, ""));
        assert_true(turn_tells(turn_of(&s.t), TT_PART_NOTE, "No water comes"));
        end(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_the_last_one_ended_is_told),
        cmocka_unit_test(odd_dates_count_for_nothing),
        cmocka_unit_test(nothing_of_this_trouble_is_nothing_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
