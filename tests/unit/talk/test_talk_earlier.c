/* A trouble that a site had before: what is told of it, which cases it may belong to, and where it
 * goes on. */
#include "journal_kit.h"
#include "one_desk.h"
#include "small_book.h"
#include "talk_kit.h"
#include "test_sources.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "base/moment.h"
#include "base/value.h"

/* Invented here: a well. */
static const char rules[] =
    "book: {title: 'House well', roles: [householder], two-faults: 0}\n"
    "questions:\n"
    "  noise: {ask: 'How does it sound?', answers: {hum: 'It hums', click: 'It clicks'}, usual: "
    "hum}\n"
    "symptoms:\n"
    "  no-water: {text: 'No water comes', heard: [no water], when: {noise: click}, shown-by: "
    "{stuck: usually}}\n"
    "  low: {text: 'The water is low', heard: [low water], when: {noise: hum}, shown-by: "
    "{stuck: rarely}}\n"
    "causes:\n  stuck: {text: 'The pump is stuck'}\n"
    "fixes:\n"
    "  turn: {text: 'Turn the shaft', role: householder, cures: {stuck: usually}, harm: none,\n"
    "         takes: 5 min, put-back: 'Turn it back'}\n"
    "  knock: {text: 'Knock on it', role: householder, cures: {stuck: rarely}, harm: none,\n"
    "         takes: 5 min, put-back: not needed}\n";

#define NOW "2026-11-29T08:00:00Z"

typedef struct scene {
    arena *keep;
    tt_book *b;
    record_folder *f;
    tt_past *past;
    told_talk t;
} scene;

static int set_up(void **state)
{
    arena *keep = test_arena();
    scene *s = ARENA_NEW(keep, scene);
    s->keep = keep;
    s->b = small_book(rules);
    s->f = record_folder_new();
    assert_int_equal(tt_past_new(&s->past), TT_OK);
    *state = s;
    return 0;
}

static int tear_down(void **state)
{
    scene *s = *state;
    talk_close(&s->t);
    record_folder_free(s->f);
    tt_past_free(s->past);
    tt_book_free(s->b);
    arena_free(s->keep);
    return 0;
}

/* A case so many days ago; `end` null: it is open. */
static void was(scene *s, const char *number, double days, const char *symptom, const char *end)
{
    journal_kit k = journal_kit_new(s->keep);
    k.clock -= (int64_t)(days * 86400000); /* the kit's clock stands at NOW */
    const int64_t then = k.clock;
    kit_add(&k, "east", "begin", "{\"by\":\"east desk\"}");
    k.clock = then;
    kit_add(&k, "east", "complaint",
            str_printf(s->keep, "{\"symptom\":\"%s\",\"text\":\"as it was called\"}", symptom).p);
    k.clock = then;
    if (end != NULL) kit_add(&k, "east", "close", end);
    assert_int_equal(tt_past_add(s->past, number, k.records, k.count), TT_OK);
}

#define BY_TURNING  "{\"how\":\"gone\",\"fix\":\"turn\",\"fix_text\":\"old words\"}"
#define BY_KNOCKING "{\"how\":\"gone\",\"fix\":\"knock\"}"
#define CALLED      "{\"how\":\"call\"}"

static const tt_turn *complains(scene *s, const char *of)
{
    const tt_talk_options options = {
        .writer = "east", .kept = true, .number = "000009Z", .past = s->past};
    s->t = talk_open_with(s->b, s->f, &options, NOW);
    say_it_is_safe(&s->t, "no");
    return choose(&s->t, of);
}

static void assert_choices(const tt_turn *turn, const char *const *ids)
{
    uint32_t count = 0;
    for (; ids[count] != NULL && count < turn->choice_count; count++)
        assert_string_equal(turn->choices[count].id, ids[count]);
    assert_null(ids[count]);
    assert_int_equal(turn->choice_count, count);
}
#define ASSERT_CHOICES(turn, ...) assert_choices((turn), (const char *const[]){__VA_ARGS__, NULL})

static bool news_tell(const tt_turn *turn, const char *words)
{
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count; k++)
            if (strstr(turn->news[i].items[k], words) != NULL) return true;
    return turn_tells(turn, TT_PART_PAST, words);
}

/* ---- offered ---- */

static void the_last_open_ones_are_offered_the_latest_first(void **state)
{
    scene *s = *state;
    char number[24];
    for (int i = 1; i <= 6; i++) {
        snprintf(number, sizeof number, "00000%dA", i);
        was(s, number, 10 - i, "no-water", NULL);
    }
    was(s, "000007A", 1, "low", NULL); /* another trouble */
    was(s, "000008A", 2, "no-water", BY_TURNING);
    const tt_turn *turn = complains(s, "no-water");
    assert_turn(turn, TT_TURN_EARLIER);
    ASSERT_CHOICES(turn, "case-000006A", "case-000005A", "case-000004A", "case-000003A",
                   "back-000008A", "none");
    assert_non_null(strstr(turn->choices[0].text, "No water comes"));
    assert_non_null(strstr(turn->choices[0].text, "with east desk"));
    assert_non_null(strstr(turn->choices[4].text, "Turn the shaft"));
    assert_non_null(strstr(turn->choices[4].text, "2026-11-27"));
}

static void four_open_ones_are_all_offered(void **state)
{
    scene *s = *state;
    was(s, "000001A", 4, "no-water", NULL);
    was(s, "000002A", 3, "no-water", NULL);
    was(s, "000003A", 2, "no-water", NULL);
    was(s, "000004A", 1, "no-water", NULL);
    ASSERT_CHOICES(complains(s, "no-water"), "case-000004A", "case-000003A", "case-000002A",
                   "case-000001A", "none");
}

/* What was cured may be back for a month; only the last case, and only if a fix had ended it. */
static void what_was_cured_is_offered_for_a_month(void **state)
{
    static const struct {
        double days;
        const char *end;
        bool offered;
    } lasts[] = {{0.5, BY_TURNING, true},
                 {30, BY_TURNING, true},
                 {30.1, BY_TURNING, false},
                 {3, BY_KNOCKING, true},
                 {3, CALLED, false}};
    for (size_t i = 0; i < sizeof lasts / sizeof *lasts; i++) {
        scene *s = *state;
        was(s, "000001A", 40, "no-water", BY_TURNING);
        was(s, "000002A", lasts[i].days, "no-water", lasts[i].end);
        const tt_turn *turn = complains(s, "no-water");
        assert_int_equal(turn->kind == TT_TURN_EARLIER, lasts[i].offered);
        if (lasts[i].offered) ASSERT_CHOICES(turn, "back-000002A", "none");
        assert_true(news_tell(turn, "The same trouble here: 3 times"));
        tear_down(state);
        set_up(state);
    }
    complains(*state, "no-water");
}

static void nothing_is_offered_of_another_trouble(void **state)
{
    scene *s = *state;
    was(s, "000001A", 2, "no-water", NULL);
    was(s, "000002A", 1, "no-water", BY_TURNING);
    const tt_turn *turn = complains(s, "low");
    assert_true(turn->kind != TT_TURN_EARLIER);
    assert_false(news_tell(turn, "The same trouble"));
}

/* ---- said ---- */

static const char *kept(const scene *s, const char *kind, const char *key)
{
    const tt_record *r = last_record(s->f, kind);
    return r != NULL ? value_text(r->data, key) : NULL;
}

static void it_goes_on_in_the_one_that_is_chosen(void **state)
{
    static const char *const ways[][2] = {{"case-000001A", "000001A"}, {"back-000002A", "000002A"}};
    for (size_t i = 0; i < 2; i++) {
        scene *s = *state;
        was(s, "000001A", 2, "no-water", NULL);
        was(s, "000002A", 1, "no-water", BY_TURNING);
        complains(s, "no-water");
        choose(&s->t, ways[i][0]);
        assert_string_equal(kept(s, "close", "how"), "elsewhere");
        assert_string_equal(kept(s, "close", "case"), ways[i][1]);
        assert_null(last_record(s->f, "apart"));
        talk_close(&s->t);
        const tt_talk_options later = {
            .writer = "west", .kept = true, .number = "000009Z", .how = "resume"};
        s->t = talk_open_with(s->b, s->f, &later, NOW);
        const tt_turn *turn = choose(&s->t, "leave"); /* closed for whoever opens it again */
        assert_turn(turn, TT_TURN_END);
        assert_string_equal(turn->how, "elsewhere");
        assert_string_equal(turn->prompt, "The case is closed.");
        tear_down(state);
        set_up(state);
    }
    complains(*state, "no-water");
}

/* A yes is one only where there is one to say it of. */
static void a_plain_yes_needs_one_alone(void **state)
{
    for (int more = 0; more < 2; more++) {
        scene *s = *state;
        was(s, "000001A", 2, "no-water", NULL);
        if (more == 1) was(s, "000002A", 1, "no-water", NULL);
        complains(s, "no-water");
        const tt_turn *turn = type(&s->t, "yes");
        if (more == 1) {
            assert_turn(turn, TT_TURN_EARLIER);
            assert_null(last_record(s->f, "close"));
        } else {
            assert_string_equal(kept(s, "close", "case"), "000001A");
        }
        tear_down(state);
        set_up(state);
    }
    complains(*state, "no-water");
}

static void none_of_them_names_all_that_were_offered(void **state)
{
    static const char *const said[] = {"none", "no"};
    for (int i = 0; i < 2; i++) {
        scene *s = *state;
        was(s, "000001A", 3, "no-water", NULL);
        was(s, "000002A", 2, "no-water", NULL);
        was(s, "000003A", 1, "no-water", BY_TURNING);
        complains(s, "no-water");
        const tt_turn *turn = i == 0 ? choose(&s->t, said[0]) : type(&s->t, said[1]);
        assert_true(turn->kind != TT_TURN_EARLIER);
        assert_null(last_record(s->f, "close"));
        const tt_value *cases = value_get(last_record(s->f, "apart")->data, "cases");
        static const char *const wanted[] = {"000002A", "000001A", "000003A"};
        assert_int_equal(cases->count, 3);
        for (uint32_t k = 0; k < 3; k++) assert_string_equal(cases->items[k].text, wanted[k]);
        tear_down(state);
        set_up(state);
    }
    complains(*state, "no-water");
}

/* ---- told ---- */

/* Twice the same fix: something else may lie behind it. Others than the last one don't count. */
static void a_fix_that_ended_it_twice_is_doubted(void **state)
{
    static const struct {
        const char *ends[3];
        const char *told;
    } pasts[] = {{{BY_TURNING, BY_TURNING, BY_TURNING}, "ended 3 of these"},
                 {{BY_TURNING, BY_KNOCKING, BY_TURNING}, "ended 2 of these"},
                 {{BY_TURNING, BY_TURNING, BY_KNOCKING}, NULL},
                 {{BY_TURNING, BY_TURNING, CALLED}, NULL},
                 {{CALLED, CALLED, BY_TURNING}, NULL}};
    for (size_t i = 0; i < sizeof pasts / sizeof *pasts; i++) {
        scene *s = *state;
        for (int k = 0; k < 3; k++)
            was(s, str_printf(s->keep, "00000%dA", k + 1).p, 10 - k, "no-water", pasts[i].ends[k]);
        was(s, "000004A", 5, "low", BY_TURNING);
        const tt_turn *turn = complains(s, "no-water");
        assert_true(news_tell(turn, "The same trouble here: 4 times in 11 days, with this one."));
        assert_int_equal(news_tell(turn, "That fix has"), pasts[i].told != NULL);
        if (pasts[i].told != NULL) assert_true(news_tell(turn, pasts[i].told));
        tear_down(state);
        set_up(state);
    }
    complains(*state, "no-water");
}

/* ---- kept of it ---- */

static const tt_value *past_kept(scene *s, const char *which)
{
    const tt_record *r = last_record(s->f, "past");
    return r != NULL ? value_get(r->data, which) : NULL;
}

static void of_many_cases_the_last_thirty_are_kept(void **state)
{
    scene *s = *state;
    for (int i = 0; i < 32; i++) {
        was(s, str_printf(s->keep, "0001%02dA", i).p, 100 - i, "no-water", BY_TURNING);
        was(s, str_printf(s->keep, "0002%02dA", i).p, 100 - i, "low", NULL);
    }
    was(s, "000300A", 5, "low", "{\"how\":\"elsewhere\",\"case\":\"000200A\"}");
    complains(s, "no-water");
    const tt_value *cases = past_kept(s, "cases"), *open = past_kept(s, "open");
    assert_int_equal(cases->count, 30);
    assert_int_equal(open->count, 30);
    for (uint32_t i = 0; i < 30; i++) {
        assert_string_equal(value_text(&cases->items[i], "number"),
                            str_printf(s->keep, "0001%02uA", i + 2).p);
        assert_string_equal(value_text(&open->items[i], "number"),
                            str_printf(s->keep, "0002%02uA", i + 2).p);
    }
}

static void of_each_case_is_kept_what_may_be_told(void **state)
{
    scene *s = *state;
    was(s, "000001A", 2, "no-water",
        "{\"how\":\"gone\",\"fix\":\"turn\",\"fix_text\":\"old words\",\"cause\":\"stuck\",\"cause_"
        "text\":\"It stuck\"}");
    was(s, "000002A", 1, "low", NULL);
    complains(s, "no-water");
    const tt_value *ended = &past_kept(s, "cases")->items[0],
                   *open = &past_kept(s, "open")->items[0];
    static const char *const texts[][3] = {{"number", "000001A", "000002A"},
                                           {"symptom", "no-water", "low"},
                                           {"text", "as it was called", "as it was called"},
                                           {"cause", "stuck", NULL},
                                           {"cause_text", "It stuck", NULL},
                                           {"fix", "turn", NULL},
                                           {"fix_text", "old words", NULL},
                                           {"came_back", NULL, NULL},
                                           {"by", NULL, "east desk"}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const char *const is[] = {value_text(ended, texts[i][0]), value_text(open, texts[i][0])};
        for (int k = 0; k < 2; k++) {
            assert_int_equal(is[k] != NULL, texts[i][k + 1] != NULL);
            if (is[k] != NULL) assert_string_equal(is[k], texts[i][k + 1]);
        }
    }
    tt_moment then;
    assert_true(tt_moment_read(value_text(ended, "ended"), &then));
    assert_true(then.milliseconds == INT64_C(1795939200000) - 2 * 86400000);
    assert_null(value_get(ended, "confirmed"));
    assert_null(value_get(open, "ended"));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_last_open_ones_are_offered_the_latest_first),
        TEST(four_open_ones_are_all_offered),
        TEST(what_was_cured_is_offered_for_a_month),
        TEST(nothing_is_offered_of_another_trouble),
        TEST(it_goes_on_in_the_one_that_is_chosen),
        TEST(a_plain_yes_needs_one_alone),
        TEST(none_of_them_names_all_that_were_offered),
        TEST(a_fix_that_ended_it_twice_is_doubted),
        TEST(of_many_cases_the_last_thirty_are_kept),
        TEST(of_each_case_is_kept_what_may_be_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
