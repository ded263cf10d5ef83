/* A drill: the same seed is the same call, danger holds what is to be tried, and whoever does what
 * the engine would do needs the engine's minutes: a rehearsal's own way through the call is the
 * second opinion. */
#include <math.h>
#include <string.h>

#include "small_book.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

static tt_book *sample(arena *keep)
{
    tt_source files[8];
    tt_report *report;
    tt_book *b;
    const file_names names = files_ending(keep, TT_SOURCE_DIR "/cli/sample", ".yaml");
    for (size_t i = 0; i < names.count; i++) {
        const char *path =
            str_printf(keep, TT_SOURCE_DIR "/cli/sample/%.*s", STR_ARG(names.items[i])).p;
        const str text = file_bytes(keep, path);
        files[i] = (tt_source){str_copy(keep, names.items[i]).p, text.p, text.n};
    }
    assert_int_equal(tt_book_load(files, names.count, &b, &report), TT_OK);
    tt_report_free(report);
    return b;
}

static tt_drill *begin(const tt_book *b, uint64_t seed)
{
    tt_drill *d;
    assert_int_equal(tt_drill_new(b, &(tt_drill_options){.seed = seed, .role = TT_NONE}, &d),
                     TT_OK);
    return d;
}

static tt_drill_stand stand_of(tt_drill *d)
{
    tt_drill_stand s;
    assert_int_equal(tt_drill_look_at(d, &s), TT_OK);
    return s;
}

static tt_drill_review review_of(tt_drill *d)
{
    tt_drill_review r;
    assert_int_equal(tt_drill_review_of(d, &r), TT_OK);
    return r;
}

static uint32_t gate_among(tt_drill *d, const tt_drill_stand *s)
{
    tt_question q;
    for (uint32_t i = 0; i < s->look_count; i++)
        if (tt_question_show(tt_drill_case(d), s->looks[i], &q) == TT_OK && q.gate)
            return s->looks[i];
    fail_msg("nothing rules danger out");
    return TT_NONE;
}

/* Until it ends; false: it does something that a drill has no word for. */
static bool do_as_the_engine(tt_drill *d)
{
    for (int i = 0; i < 200 && stand_of(d).end == TT_DRILL_GOES_ON; i++) {
        const tt_view *v;
        const char *seen;
        bool held;
        tt_outcome outcome;
        assert_int_equal(tt_look(tt_drill_case(d), &v), TT_OK);
        const bool adjusts_or_joins = v->step == TT_FIX && v->with != TT_NONE;
        const bool looks_twice = v->step == TT_ASK && v->next.again != TT_FIRST_LOOK;
        if (adjusts_or_joins || looks_twice || v->next.quantity != TT_NONE) return false;
        if (v->step == TT_ASK)
            assert_int_equal(tt_drill_ask(d, v->next.question, &seen), TT_OK);
        else if (v->step == TT_FIX)
            assert_int_equal(tt_drill_try(d, v->fix, &held, &outcome), TT_OK);
        else
            assert_int_equal(tt_drill_call(d), TT_OK);
    }
    return stand_of(d).end != TT_DRILL_GOES_ON;
}

static void the_engines_way_takes_the_engines_minutes(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = sample(keep);
    uint32_t compared = 0;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        tt_drill *d = begin(b, seed);
        if (do_as_the_engine(d)) {
            const tt_drill_review r = review_of(d);
            if (strcmp(r.engine_end, "stopped") == 0) {
                tt_drill_free(d);
                continue;
            }
            assert_float_equal(r.minutes, r.engine_minutes, 1e-9);
            assert_int_equal(r.danger_count, 0);
            assert_int_equal(r.end == TT_DRILL_CURED, strcmp(r.engine_end, "cured") == 0);
            for (uint32_t i = 0; i < r.step_count; i++) assert_true(r.steps[i].same);
            compared++;
        }
        tt_drill_free(d);
    }
    assert_true(compared >= 20);
    tt_book_free(b);
    arena_free(keep);
}

static void one_seed_is_one_call(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = sample(keep);
    tt_drill *one = begin(b, 5), *other = begin(b, 5);
    const tt_drill_stand s = stand_of(one);
    assert_string_equal(s.complaint, stand_of(other).complaint);
    assert_true(s.look_count > 1);
    const uint32_t question = s.looks[s.look_count - 1];
    const char *here, *there;
    assert_int_equal(tt_drill_ask(one, question, &here), TT_OK);
    assert_int_equal(tt_drill_ask(other, question, &there), TT_OK);
    assert_string_equal(here, there);
    tt_drill_free(one);
    tt_drill_free(other);
    bool differs = false;
    tt_drill *first = begin(b, 5);
    const char *said = str_copy(keep, str_of(stand_of(first).complaint)).p;
    for (uint64_t seed = 6; seed < 30; seed++) {
        tt_drill *d = begin(b, seed);
        differs = differs || strcmp(said, stand_of(d).complaint) != 0;
        tt_drill_free(d);
    }
    assert_true(differs);
    tt_drill_free(first);
    tt_book_free(b);
    arena_free(keep);
}

static void nothing_is_done_while_danger_is_open(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = sample(keep);
    tt_drill *d = begin(b, 3);
    const tt_drill_stand s = stand_of(d);
    bool held;
    tt_outcome outcome;
    const char *seen;
    assert_true(s.fix_count > 0);
    const uint32_t fix = s.fixes[0], gate = gate_among(d, &s);
    assert_int_equal(tt_drill_try(d, fix, &held, &outcome), TT_OK);
    assert_true(held);
    assert_float_equal(stand_of(d).minutes, 0, 1e-9);
    assert_int_equal(stand_of(d).end, TT_DRILL_GOES_ON);
    assert_int_equal(tt_drill_ask(d, gate, &seen), TT_OK);
    assert_string_not_equal(seen, "");
    assert_int_equal(tt_drill_call(d), TT_OK);
    assert_int_equal(tt_drill_call(d), TT_NOT_NOW);
    assert_int_equal(tt_drill_ask(d, gate, &seen), TT_NOT_NOW);
    const tt_drill_review r = review_of(d);
    assert_int_equal(r.danger_count, 1);
    assert_int_equal(r.dangers[0].kind, TT_DRILL_TRIED_BEFORE);
    assert_string_not_equal(r.dangers[0].fix, "");
    assert_string_not_equal(r.dangers[0].answer, "");
    assert_true(r.steps[0].held && !r.steps[0].same && r.steps[0].instead_gate);
    assert_true(r.minutes >= r.call_minutes);
    tt_drill_free(d);
    tt_book_free(b);
    arena_free(keep);
}

static void never_to_ask_about_danger_is_told(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = sample(keep);
    tt_drill *d = begin(b, 3);
    assert_int_equal(tt_drill_call(d), TT_OK);
    const tt_drill_review r = review_of(d);
    assert_int_equal(r.danger_count, 1);
    assert_int_equal(r.dangers[0].kind, TT_DRILL_NEVER_ASKED);
    assert_int_equal(review_of(d).danger_count, 1); /* once */
    assert_true(r.cause_count >= 1);
    tt_drill_free(d);
    assert_int_equal(tt_drill_new(b, &(tt_drill_options){.seed = 1, .role = 99}, &d), TT_FAULTY);
    assert_null(d);
    tt_book_free(b);
    arena_free(keep);
}

static void looks_speak_for_what_is_wrong(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = sample(keep);
    bool spoke = false;
    for (uint64_t seed = 1; seed < 12; seed++) {
        tt_drill *d = begin(b, seed);
        do_as_the_engine(d);
        if (stand_of(d).end == TT_DRILL_GOES_ON) assert_int_equal(tt_drill_call(d), TT_OK);
        const tt_drill_review r = review_of(d);
        for (uint32_t i = 0; i < r.step_count; i++) {
            assert_true(isfinite(r.steps[i].decibels));
            spoke = spoke || r.steps[i].decibels > 1;
        }
        tt_drill_free(d);
    }
    assert_true(spoke);
    tt_book_free(b);
    arena_free(keep);
}

static const char knob_book[] =
    "book:\n"
    "  title: Knob\n"
    "  roles: [anybody]\n"
    "  not-listed: 0 %\n"
    "  two-faults: 0 %\n"
    "questions:\n"
    "  danger:\n    ask: Is it safe?\n    about: today\n    answers: {nothing: Nothing, gas: Gas}\n"
    "    safe: [nothing]\n    takes: 0 min\n"
    "  gauge: {ask: Reading, reading: pressure, unit: psi, plausible: 20 to 80 psi, takes: 2 min, "
    "read-right: 100 %}\n"
    "symptoms:\n"
    "  high: {text: High, heard: [high], when: {gauge: above 60 psi}, shown-by: {set-high: 100 %, "
    "stuck: 50 %}}\n"
    "causes:\n"
    "  set-high: {text: High}\n"
    "  stuck: {text: Stuck, how-often: rare}\n"
    "fixes:\n"
    "  down:\n"
    "    text: Turn it down\n"
    "    role: anybody\n    cures: {set-high: 60 %}\n"
    "    adjust: {reading: gauge, by: -5 psi, within: 20 to 80 psi, at-most: 3 times}\n"
    "    takes: 30 min\n"
    "    harm: none\n"
    "    put-back: Set it back.\n"
    "  hit:\n    text: Hit it\n    role: anybody\n    cures: {stuck: 90 %}\n    takes: 1 min\n"
    "    harm: none\n    put-back: not needed\n"
    "rules:\n  gas: {when: {danger: gas}, then: {stop: Leave}}\n";

/* An adjustment is one fix: it helps, or is put back at once. Its reading is taken with it. */
static void an_adjustment_is_one_fix(void **state)
{
    (void)state;
    tt_book *b = small_book(knob_book);
    const uint32_t danger = tt_question_find(b, "danger"), gauge = tt_question_find(b, "gauge"),
                   down = tt_fix_find(b, "down"), hit = tt_fix_find(b, "hit");
    uint32_t cured = 0, stayed = 0;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        tt_drill *d = begin(b, seed);
        const char *seen;
        bool held;
        tt_outcome outcome;
        assert_int_equal(tt_drill_ask(d, danger, &seen), TT_OK);
        if (seed % 2 == 0) assert_int_equal(tt_drill_ask(d, gauge, &seen), TT_OK);
        assert_int_equal(tt_drill_try(d, down, &held, &outcome), TT_OK);
        assert_false(held);
        assert_float_equal(stand_of(d).minutes, 32, 1e-9); /* read once, and turned */
        assert_true(outcome == TT_GONE || outcome == TT_NO_CHANGE);
        assert_int_equal(stand_of(d).end == TT_DRILL_CURED, outcome == TT_GONE);
        assert_int_equal(tt_drill_try(d, down, &held, &outcome), TT_NOT_NOW); /* once */
        if (stand_of(d).end == TT_DRILL_GOES_ON) {
            const tt_view *v;
            assert_int_equal(tt_look(tt_drill_case(d), &v), TT_OK);
            assert_true(v->step != TT_PUT_BACK);
            assert_int_equal(tt_drill_try(d, hit, &held, &outcome), TT_OK);
            if (outcome == TT_NO_CHANGE) assert_int_equal(tt_drill_call(d), TT_OK);
            stayed++;
        } else {
            assert_int_equal(tt_drill_try(d, hit, &held, &outcome), TT_NOT_NOW);
            cured++;
        }
        const tt_drill_review r = review_of(d);
        assert_int_equal(r.danger_count, 0);
        assert_string_not_equal(r.causes[0].text, "");
        tt_drill_free(d);
    }
    assert_true(cured > 0 && stayed > 0);
    tt_book_free(b);
}

static void what_there_is_none_of_is_not_done(void **state)
{
    (void)state;
    tt_book *b = small_book(knob_book);
    tt_drill *d = begin(b, 1);
    const char *seen;
    bool held;
    tt_outcome outcome;
    assert_int_equal(tt_drill_ask(d, 99, &seen), TT_NOT_NOW);
    assert_int_equal(tt_drill_try(d, 99, &held, &outcome), TT_NOT_NOW);
    assert_int_equal(stand_of(d).minutes, 0);
    tt_drill_free(d);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_engines_way_takes_the_engines_minutes),
        cmocka_unit_test(one_seed_is_one_call),
        cmocka_unit_test(nothing_is_done_while_danger_is_open),
        cmocka_unit_test(never_to_ask_about_danger_is_told),
        cmocka_unit_test(looks_speak_for_what_is_wrong),
        cmocka_unit_test(an_adjustment_is_one_fix),
        cmocka_unit_test(what_there_is_none_of_is_not_done),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
