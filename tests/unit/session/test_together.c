/* Two fixes under one lockout, with one outcome: what it says of the causes, reckoned by hand from
 * the table of docs/mathematics.md (outcomes of fixes). */
#include <math.h>
#include <string.h>

#include "open_gate.h"
#include "small_book.h"
#include "telltale.h"
#include "testing.h"

#define FIX(name, cures, procedure, level) \
    "  " name ":\n    text: Do it\n    role: hand\n    takes: 40 min\n    cures: " cures "\n" \
    "    procedure: " procedure "\n    protect: [Gloves]\n    put-back: Undo it\n" \
    "    harm:\n      from: [electricity]\n      unprotected: {worst: critical, chance: " \
    "occasional}\n" \
    "      protected: " level "\n"
#define LOW    "{worst: negligible, chance: improbable}"
#define MEDIUM "{worst: marginal, chance: occasional}"

#define BOOK(level) BOOK_WITH("", "", level, "unplug")
#define BOOK_WITH(questions, symptoms, level, oil) \
    "book: {title: Pump, roles: [{hand: {authorised: yes}}], two-faults: 0, done-wrongly: 0}\n" \
    "questions:\n  hum: {ask: Hum}\n" questions \
    "symptoms:\n  hums: {text: Hums, when: {hum: yes}, shown-by: {worn: 70 %}}\n" symptoms \
    "causes:\n  worn: {text: Worn}\n  slack: {text: Slack}\n  dry: {text: Dry}\n" \
    "procedures:\n" \
    "  lock:\n    takes: 38 min\n    energies: [electricity]\n    tell: Tell the desk.\n" \
    "    isolate: Switch off\n    release: Wait\n    prove: Try\n    restore: Take off your " \
    "lock\n" \
    "  unplug:\n    takes: 38 min\n    energies: [electricity]\n    tell: Tell the desk.\n" \
    "    isolate: Pull the plug\n    release: Wait\n    prove: Try\n    restore: Take off your " \
    "lock\n" \
    "fixes:\n" FIX("renew", "{worn: 80 %, slack: 30 %}", "lock", LOW) \
        FIX("tighten", "{slack: 60 %}", "lock", level) FIX("oil", "{dry: 90 %}", oil, LOW)

typedef struct scene {
    tt_book *book;
    tt_case *c;
    uint32_t renew, tighten, oil;
} scene;

static scene begin(const char *yaml)
{
    scene s = {.book = small_book(yaml)};
    assert_int_equal(tt_case_new(s.book, &(tt_options){.role = TT_NONE}, &s.c), TT_OK);
    open_gate(s.c);
    s.renew = tt_fix_find(s.book, "renew");
    s.tighten = tt_fix_find(s.book, "tighten");
    s.oil = tt_fix_find(s.book, "oil");
    return s;
}

static void end(scene *s)
{
    tt_case_free(s->c);
    tt_book_free(s->book);
}

static const tt_view *look(const scene *s)
{
    const tt_view *v;
    assert_int_equal(tt_look(s->c, &v), TT_OK);
    return v;
}

/* Null: something not listed. */
static double chance_of(const scene *s, const char *cause)
{
    const tt_view *v = look(s);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (cause == NULL ? v->causes[i].name == NULL
                          : v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("no cause '%s'", cause == NULL ? "" : cause);
    return 0;
}

static void both_in_vain_speak_once(void **state)
{
    (void)state;
    scene s = begin(BOOK(LOW));
    const double worn = chance_of(&s, "worn") * .2 * .9,
                 slack = chance_of(&s, "slack") * .7 * .4 * .9, dry = chance_of(&s, "dry") * .98,
                 other = chance_of(&s, NULL) * .98, all = worn + slack + dry + other;
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.tighten, TT_NO_CHANGE), TT_OK);
    assert_true(fabs(chance_of(&s, "worn") - worn / all) < 1e-12);
    assert_true(fabs(chance_of(&s, "slack") - slack / all) < 1e-12);
    assert_true(fabs(chance_of(&s, "dry") - dry / all) < 1e-12);
    assert_true(fabs(chance_of(&s, NULL) - other / all) < 1e-12);
    end(&s);
}

static void both_are_tried_and_both_put_back(void **state)
{
    (void)state;
    scene s = begin(BOOK(LOW));
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.tighten, TT_NO_CHANGE), TT_OK);
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(s.c, &tried, &count), TT_OK);
    assert_int_equal(count, 2);
    assert_int_equal(tried[0].fix, s.renew);
    assert_int_equal(tried[0].with, s.tighten);
    assert_int_equal(tried[1].with, s.renew);
    assert_string_equal(tried[0].with_name, "tighten");
    assert_int_equal(look(&s)->step, TT_PUT_BACK);
    assert_int_equal(look(&s)->fix, s.tighten);
    assert_int_equal(tt_put_back(s.c, s.tighten), TT_OK);
    assert_int_equal(look(&s)->fix, s.renew);
    end(&s);
}

static void one_step_back_takes_both(void **state)
{
    (void)state;
    scene s = begin(BOOK(LOW));
    const double before = chance_of(&s, "slack");
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.tighten, TT_NO_CHANGE), TT_OK);
    assert_int_equal(tt_undo(s.c), TT_OK);
    assert_true(fabs(chance_of(&s, "slack") - before) < 1e-15);
    end(&s);
}

/* Of a partial cure all is seen anew that either may have changed, and nothing else. */
static void what_either_may_have_changed_is_looked_at_again(void **state)
{
    (void)state;
    scene s = begin(BOOK_WITH("  drip: {ask: Drip}\n  rattle: {ask: Rattle}\n",
                              "  drips: {text: Drips, when: {drip: yes}, shown-by: {dry: 70 %}}\n"
                              "  rattles: {text: Rattles, when: {rattle: yes}, shown-by: {slack: "
                              "70 %}}\n",
                              LOW, "lock"));
    static const char *const asked[] = {"drip", "rattle", "hum"};
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(tt_answer(s.c, tt_question_find(s.book, asked[i]),
                                   &(tt_reply){.kind = TT_ANSWER, .option = 0}),
                         TT_OK);
    assert_int_equal(tt_fixes_tried(s.c, s.tighten, s.oil, TT_BETTER), TT_OK);
    const tt_view *v = look(&s);
    for (size_t i = 0; i < 3; i++) {
        bool seen = false, stale = false;
        for (uint32_t k = 0; k < v->fact_count; k++) {
            if (v->facts[k].question != tt_question_find(s.book, asked[i])) continue;
            seen = true;
            stale = v->facts[k].stale;
        }
        assert_true(seen);
        assert_int_equal(stale, i < 2);
    }
    end(&s);
}

/* Slack is cured by either: 1 - .7 × .4. */
static void the_cause_cured_is_one_of_those_of_both(void **state)
{
    (void)state;
    scene s = begin(BOOK(LOW));
    const double worn = chance_of(&s, "worn") * .8, slack = chance_of(&s, "slack") * .72;
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.tighten, TT_GONE), TT_OK);
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(s.c, &tried, &count), TT_OK);
    for (uint32_t i = 0; i < count; i++)
        assert_string_equal(tried[i].cured_name, worn > slack ? "worn" : "slack");
    assert_int_equal(look(&s)->step, TT_CLOSED);
    assert_int_equal(tt_came_back(s.c, s.tighten), TT_OK);
    assert_int_equal(tt_tried_fixes(s.c, &tried, &count), TT_OK);
    assert_true(tried[0].came_back && tried[1].came_back);
    end(&s);
}

static void another_lockout_is_refused(void **state)
{
    (void)state;
    scene s = begin(BOOK(LOW));
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.oil, TT_NO_CHANGE), TT_FAULTY);
    assert_int_equal(tt_fixes_tried(s.c, s.renew, s.renew, TT_NO_CHANGE), TT_FAULTY);
    end(&s);
}

/* 38 of 40 minutes are the lockout's. */
static void only_what_is_of_low_risk_is_done_beside_another(void **state)
{
    (void)state;
    scene low = begin(BOOK(LOW)), medium = begin(BOOK(MEDIUM));
    const uint32_t hum = tt_question_find(low.book, "hum");
    const tt_reply unsure = {.kind = TT_UNSURE};
    assert_int_equal(tt_answer(low.c, hum, &unsure), TT_OK);
    assert_int_equal(tt_answer(medium.c, hum, &unsure), TT_OK);
    assert_int_equal(look(&low)->step, TT_FIX);
    assert_int_equal(look(&low)->fix, low.renew);
    assert_int_equal(look(&low)->with, low.tighten);
    assert_true(fabs(look(&low)->with_saves - 38) < 1e-12);
    assert_true(look(&medium)->step != TT_FIX || look(&medium)->with != medium.tighten);
    end(&low);
    end(&medium);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_in_vain_speak_once),
        cmocka_unit_test(both_are_tried_and_both_put_back),
        cmocka_unit_test(one_step_back_takes_both),
        cmocka_unit_test(what_either_may_have_changed_is_looked_at_again),
        cmocka_unit_test(the_cause_cured_is_one_of_those_of_both),
        cmocka_unit_test(another_lockout_is_refused),
        cmocka_unit_test(only_what_is_of_low_risk_is_done_beside_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
