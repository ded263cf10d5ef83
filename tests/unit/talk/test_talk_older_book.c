/* Records of rules that are no longer as they were: what those of today do not know, or know
 * otherwise, is left out and named; nothing of it is lost, and what may have been danger counts. */
#include "journal_kit.h"
#include "small_book.h"
#include "talk_kit.h"
#include "test_sources.h"
#include "testing.h"

#include <string.h>

#define MORNING "2026-11-29T10:00:00Z"

/* Invented here: a well with two filters and a pump. */
static const char rules[] =
    "book: {title: 'House well', roles: [{householder: {authorised: yes}}], two-faults: 0}\n"
    "kinds:\n  filter: {one: filter, ask: 'Which filters are there?'}\n"
    "site:\n  units:\n    filter: {coarse: {text: 'the coarse filter'}, fine: {text: 'the fine "
    "filter'}}\n"
    "questions:\n"
    "  danger: {ask: 'Danger?', about: today, answers: {no: 'No', gas: 'Gas', wet: 'Wet'}, safe: "
    "[no]}\n"
    "  drop: {for-each: filter, ask: 'Does {filter} hold the water back?', usual: no}\n"
    "  tank: {ask: 'What does the gauge on the tank read?', reading: pressure, unit: psi,\n"
    "         plausible: 0 to 100 psi, usual: 30 to 50 psi}\n"
    "  noise: {ask: 'How does it sound?', answers: {hum: 'It hums', click: 'It clicks', still: "
    "'Not at all'}, usual: hum}\n"
    "symptoms:\n"
    "  held-back: {for-each: filter, text: '{filter} holds the water back', when: {drop: yes},\n"
    "              heard: [held back], shown-by: {full: usually}}\n"
    "  no-water: {text: 'No water comes', heard: [no water], when: {noise: click}, shown-by: "
    "{stuck: usually}}\n"
    "  low: {text: 'The tank is low', when: {tank: below 25 psi}, shown-by: {stuck: sometimes}}\n"
    "causes:\n"
    "  full: {for-each: filter, text: 'The cartridge is full'}\n"
    "  stuck: {text: 'The pump is stuck'}\n"
    "fixes:\n"
    "  change: {for-each: filter, text: 'Change the cartridge', role: householder,\n"
    "           cures: {full: usually}, harm: none, takes: 5 min, put-back: impossible}\n"
    "  turn: {text: 'Turn the shaft', role: householder, cures: {stuck: usually}, harm: none,\n"
    "         takes: 5 min, put-back: 'Turn it back'}\n";

/* ---- records that are left out ---- */

typedef struct left_out {
    const char *kind, *data;
    const char *about; /* named as what is left out */
} left_out;

#define ANSWER(question, reply) "{\"question\":\"" question "\",\"reply\":" reply "}"

static const left_out unknown[] = {
    {"answer", ANSWER("gauge", "{\"kind\":\"number\",\"number\":20}"), "gauge"},
    {"answer", ANSWER("noise", "{\"kind\":\"answer\",\"option\":\"howl\"}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"heard\"}"), "noise"},
    {"answer", ANSWER("noise", "{}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"not\",\"options\":[\"howl\"]}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"not\",\"options\":[]}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"not\"}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"likely\"}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"likely\",\"weights\":{}}"), "noise"},
    {"answer", ANSWER("noise", "{\"kind\":\"number\",\"number\":3}"), "noise"},
    {"answer", ANSWER("tank", "{\"kind\":\"number\"}"), "tank"},
    {"answer", ANSWER("tank", "{\"kind\":\"number\",\"number\":20,\"unit\":\"litre\"}"), "tank"},
    {"answer", ANSWER("tank", "{\"kind\":\"answer\",\"option\":\"low\"}"), "tank"},
    {"again", ANSWER("gauge", "{\"kind\":\"number\",\"number\":20}"), "gauge"},
    {"again", ANSWER("noise", "{\"kind\":\"answer\",\"option\":\"howl\"}"), "noise"},
    {"complaint", "{\"symptom\":\"no-steam\",\"text\":\"No steam\"}", "no-steam"},
    {"complaint", "{\"symptom\":\"no-steam\",\"at\":[\"coarse\"]}", "no-steam"},
    {"complaint", "{\"symptom\":\"no-water\",\"at\":[\"coarse\"]}", "no-water"},
    {"complaint", "{\"symptom\":\"held-back\",\"at\":[\"third\"]}", "held-back"},
    {"tried", "{\"fix\":\"kick\",\"outcome\":\"no-change\"}", "kick"},
    {"tried", "{\"fix\":\"turn\",\"outcome\":\"odd\"}", "turn"},
    {"tried", "{\"fix\":\"turn\",\"with\":\"kick\",\"outcome\":\"no-change\"}", "turn"},
    {"tried", "{\"fix\":\"turn\",\"outcome\":\"no-change\",\"set\":{\"from\":40,\"to\":35}}",
     "turn"},
    {"put-back", "{\"fix\":\"kick\"}", "kick"},
    {"put-back", "{\"fix\":\"turn\"}", "turn"}, /* which was not tried */
    {"put-back", "{\"fix\":\"turn\",\"set\":{\"from\":35,\"to\":40}}", "turn"},
    {"left", "{\"fix\":\"kick\"}", "kick"},
    {"left", "{\"fix\":\"turn\"}", "turn"},
    {"came-back", "{\"fix\":\"kick\"}", "kick"},
    {"came-back", "{\"fix\":\"turn\"}", "turn"},
    {"fix-begun", "{\"fix\":\"kick\"}", "kick"},
    {"fix-begun", "{\"fix\":\"turn\",\"with\":\"kick\"}", "turn"},
    {"fix-begun", "{\"fix\":\"kick\",\"with\":\"turn\"}", "kick"},
    {"step", "{\"fix\":\"kick\",\"index\":0,\"how\":\"done\",\"text\":\"Kick it\"}", "kick"},
    {"measured", "{\"fix\":\"kick\",\"question\":\"tank\",\"reply\":{\"kind\":\"number\"}}",
     "tank"},
    {"measured", "{\"fix\":\"turn\",\"question\":\"gauge\",\"reply\":{\"kind\":\"number\"}}",
     "gauge"},
    {"answers", "{\"name\":\"shift.yaml\",\"text\":\"gauge: 3\\n\"}", ""},
};

static told_talk take_up(const tt_book *b, record_folder *f, const journal_kit *k, bool look_only)
{
    const tt_talk_options options = {.writer = "east",
                                     .kept = !look_only,
                                     .look_only = look_only,
                                     .number = "000001A",
                                     .how = "resume"};
    for (uint32_t i = 0; i < k->count; i++) f->records[f->count++] = k->records[i];
    return talk_open_with(b, f, &options, MORNING);
}

static journal_kit begun(arena *keep)
{
    journal_kit k = journal_kit_new(keep);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\",\"role\":\"householder\"}");
    kit_add(&k, "east", "answer", ANSWER("danger", "{\"kind\":\"answer\",\"option\":\"no\"}"));
    return k;
}

static bool told(const tt_turn *turn, const char *words)
{
    return turn_tells(turn, TT_PART_NOTE, words);
}

static void each_is_named_and_stays_in_the_history(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++) {
        const left_out *of = &unknown[i];
        arena *keep = test_arena();
        record_folder *f = record_folder_new();
        journal_kit k = begun(keep);
        kit_add(&k, "east", of->kind, of->data);
        told_talk t = take_up(b, f, &k, false);
        const str named = str_printf(keep, "as they are now: %s %s", of->kind, of->about);
        if (!told(turn_of(&t), named.p)) fail_msg("%s %s is not named", of->kind, of->data);
        tt_history history;
        assert_int_equal(tt_talk_history(t.talk, &history), TT_OK);
        assert_int_equal(history.count, 4); /* and how it was taken up */
        assert_true(history.items[2].left_out);
        assert_false(history.items[1].left_out);
        assert_string_equal(history.items[2].record->kind, of->kind);
        assert_true(*history.items[2].text != 0);
        talk_close(&t);
        record_folder_free(f);
        arena_free(keep);
    }
    tt_book_free(b);
}

/* ---- danger ---- */

#define NO_MORE(answer) ANSWER("danger", answer)

/* A case with such a record, which may be taken back behind it: what its next sitting begins with,
 * and where that is danger, with what to do. */
static void assert_taken_up(const char *kind, const char *data, bool back, tt_turn_kind wanted)
{
    arena *keep = test_arena();
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    journal_kit k = begun(keep);
    kit_add(&k, "east", kind, data);
    if (back) kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":3}}");
    told_talk t = take_up(b, f, &k, false);
    assert_turn(turn_of(&t), wanted);
    if (wanted == TT_TURN_STOP) assert_true(turn_tells(turn_of(&t), TT_PART_DO, ""));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

/* What it was need not have been safe. */
static void an_answer_about_danger_that_is_unknown_counts_as_danger(void **state)
{
    static const char *const answers[] = {
        NO_MORE("{\"kind\":\"answer\",\"option\":\"smoke\"}"), NO_MORE("{\"kind\":\"heard\"}"),
        NO_MORE("{\"kind\":\"not\",\"options\":[\"smoke\"]}"), NO_MORE("{}"),
        NO_MORE("{\"kind\":\"number\",\"number\":0}")};
    (void)state;
    for (size_t i = 0; i < sizeof answers / sizeof *answers; i++)
        assert_taken_up("answer", answers[i], false, TT_TURN_STOP);
}

/* Taken back, too: only a safe answer ends it, and nobody can tell any more whether this was. */
static void taken_back_it_counts_all_the_same(void **state)
{
    static const char *const answers[] = {NO_MORE("{\"kind\":\"answer\",\"option\":\"smoke\"}"),
                                          NO_MORE("{\"kind\":\"answer\",\"option\":\"gas\"}"),
                                          NO_MORE("{}")};
    (void)state;
    for (size_t i = 0; i < sizeof answers / sizeof *answers; i++)
        assert_taken_up("answer", answers[i], true, TT_TURN_STOP);
}

/* A safe answer, or one to a question that there is no more, is taken back like any other. */
static void what_was_safe_is_taken_back_without_danger(void **state)
{
    static const char *const answers[] = {NO_MORE("{\"kind\":\"answer\",\"option\":\"no\"}"),
                                          ANSWER("gauge", "{\"kind\":\"unsure\"}")};
    (void)state;
    for (size_t i = 0; i < sizeof answers / sizeof *answers; i++)
        assert_taken_up("answer", answers[i], true, TT_TURN_DANGER); /* asked at each sitting */
}

/* Names of pages that there are none for leave what every danger asks for. */
static void danger_whose_pages_are_gone_is_danger(void **state)
{
    static const char *const dangers[] = {
        "{\"words\":\"it boils over\",\"entry\":\"no-such-page\"}",
        "{\"words\":\"it boils over\",\"entry\":\"no-such-page\",\"also\":[\"another\",7,\"\"]}",
        "{\"words\":\"it boils over\",\"also\":\"another\"}", "{\"list\":\"a\"}"};
    (void)state;
    for (size_t i = 0; i < sizeof dangers / sizeof *dangers; i++)
        assert_taken_up("danger", dangers[i], false, TT_TURN_STOP);
}

/* ---- what can be told of it ---- */

/* How it was left stands at the equipment, whatever the rules say. */
static void settings_that_were_left_are_told(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    journal_kit k = begun(keep);
    kit_add(&k, "east", "tried",
            "{\"fix\":\"kick\",\"outcome\":\"no-change\",\"set\":{\"from\":40,\"to\":35.5}}");
    kit_add(&k, "east", "tried", "{\"fix\":\"kick\",\"outcome\":\"worse\",\"set\":{\"from\":40}}");
    told_talk t = take_up(b, f, &k, false);
    assert_true(told(turn_of(&t), "It was set from 40 to 35.5"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

static tt_history history_of(told_talk *t)
{
    tt_history all;
    assert_int_equal(tt_talk_history(t->talk, &all), TT_OK);
    return all;
}

/* In the words of the record, where the rules have none; also a kind of a newer program. */
static void each_is_told_in_its_own_words(void **state)
{
    static const struct {
        const char *kind, *data, *text, *result;
    } all[] = {
        {"answer", "{\"question\":\"gauge\",\"asked\":\"What is it at?\",\"typed\":\"20\"}",
         "What is it at?", "20"},
        {"measured", "{\"fix\":\"kick\",\"question\":\"gauge\",\"words\":\"20 psi\"}", "gauge",
         "20 psi"},
        {"complaint", "{\"symptom\":\"no-steam\",\"text\":\"No steam\"}", "What is wrong",
         "No steam"},
        {"complaint", "{\"symptom\":\"no-steam\"}", "What is wrong", "no-steam"},
        {"complaint", "{\"symptom\":\"no-steam\",\"at\":[\"third\",\"fine\",7]}", "What is wrong",
         "no-steam: third, the fine filter, "},
        {"tried", "{\"fix\":\"kick\",\"outcome\":\"odd\"}", "kick", "odd"},
        {"tried", "{\"fix\":\"turn\",\"outcome\":\"odd\",\"set\":7}", "Turn the shaft", "odd"},
        {"confirm", "{\"how\":\"yes\",\"cause\":\"worn\"}", "Was that the cause?", "worn"},
        {"confirm", "{\"how\":\"unsure\",\"cause\":null}", "Was that the cause?", "not sure"},
        {"confirm", "{\"how\":\"not-listed\",\"cause\":\"worn\"}", "Was that the cause?",
         "no, something that these rules don't list"},
        {"confirm", "{\"how\":\"other\"}", "Was that the cause?", "no, it was another one"},
        {"confirm", "{\"how\":\"yes\"}", "Was that the cause?", "yes"},
        {"confirm", "{\"how\":\"guessed\"}", "Was that the cause?", "guessed"},
        {"close", "{\"how\":\"gone\"}", "Closed the case", "the trouble is gone"},
        {"close", "{\"how\":\"call\"}", "Closed the case", "somebody else goes on"},
        {"close", "{\"how\":\"stop\"}", "Closed the case", "stopped for danger"},
        {"close", "{\"how\":\"made-safe\"}", "Closed the case", "the danger is over"},
        {"close", "{\"how\":\"in-order\"}", "Closed the case", "everything is in order"},
        {"close", "{\"how\":\"drifted\"}", "Closed the case", "not everything is in order"},
        {"close", "{\"how\":\"recorded\"}", "Closed the case", "what is good is recorded"},
        {"close", "{\"how\":\"elsewhere\",\"case\":\"000002B\"}", "Closed the case",
         "it goes on in case 000002B"},
        {"close", "{\"how\":\"sold\"}", "Closed the case", "sold"},
        {"past", "{}", "Past", ""},
        {"noted", "{}", "Noted", ""},
        {"language", "{\"language\":\"tlh\"}", "Goes on in this language: tlh", ""},
        {"again", "{\"question\":\"noise\",\"reply\":{\"kind\":\"not\",\"options\":[\"click\"]}}",
         "How does it sound", "not: It clicks (looked again)"},
        {"answer",
         "{\"question\":\"noise\",\"reply\":{\"kind\":\"likely\",\"weights\":{\"hum\":0.9}}}",
         "How does it sound", "probably It hums"},
        {"measured",
         "{\"fix\":\"turn\",\"question\":\"tank\",\"reply\":{\"kind\":\"number\",\"number\":20},"
         "\"words\":\"20 psi\"}",
         "What does the gauge", "20 psi"},
    };
    (void)state;
    tt_book *b = small_book(rules);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        arena *keep = test_arena();
        record_folder *f = record_folder_new();
        journal_kit k = begun(keep);
        kit_add(&k, "east", all[i].kind, all[i].data);
        told_talk t = take_up(b, f, &k, true);
        const tt_told *one = &history_of(&t).items[2];
        if (strstr(one->text, all[i].text) == NULL || strcmp(one->result, all[i].result) != 0)
            fail_msg("%s %s is told as %s: %s", all[i].kind, all[i].data, one->text, one->result);
        talk_close(&t);
        record_folder_free(f);
        arena_free(keep);
    }
    tt_book_free(b);
}

/* What two said of it differently need not be settled; beside it what they said of what there is.
 */
static void a_dispute_about_what_is_gone_is_not_settled(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    journal_kit k = begun(keep);
    const char *const *unsettled;
    uint32_t count;
    kit_aware(&k, "west", "resume", "{\"how\":\"join\"}");
    kit_add(&k, "west", "answer", ANSWER("danger", "{\"kind\":\"answer\",\"option\":\"no\"}"));
    kit_read(&k, "east");
    kit_add(&k, "east", "answer", ANSWER("gauge", "{\"kind\":\"number\",\"number\":20}"));
    kit_add(&k, "west", "answer", ANSWER("gauge", "{\"kind\":\"number\",\"number\":30}"));
    kit_add(&k, "east", "answer", ANSWER("noise", "{\"kind\":\"answer\",\"option\":\"hum\"}"));
    kit_add(&k, "west", "answer", ANSWER("noise", "{\"kind\":\"answer\",\"option\":\"click\"}"));
    told_talk t = take_up(b, f, &k, false);
    assert_int_equal(tt_talk_unsettled(t.talk, &unsettled, &count), TT_OK);
    assert_int_equal(count, 2);
    choose(&t, "no");
    const tt_turn *turn = turn_of(&t);
    assert_turn(turn, TT_TURN_SETTLE);
    assert_non_null(strstr(turn->choices[0].text, "How does it sound?"));
    assert_int_not_equal(choose(&t, "said-2")->kind, TT_TURN_SETTLE);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_is_named_and_stays_in_the_history),
        cmocka_unit_test(an_answer_about_danger_that_is_unknown_counts_as_danger),
        cmocka_unit_test(taken_back_it_counts_all_the_same),
        cmocka_unit_test(what_was_safe_is_taken_back_without_danger),
        cmocka_unit_test(danger_whose_pages_are_gone_is_danger),
        cmocka_unit_test(settings_that_were_left_are_told),
        cmocka_unit_test(each_is_told_in_its_own_words),
        cmocka_unit_test(a_dispute_about_what_is_gone_is_not_settled),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
