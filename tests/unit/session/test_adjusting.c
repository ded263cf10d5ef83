/* Fixes that change a setting step by step. The book is that of the program's own transcripts,
 * with changes where a test says so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "open_gate.h"
#include "telltale.h"

enum { TEXT_MAX = 8192 };

typedef struct bench {
    tt_book *book;
    tt_case *c;
} bench;

static void read_file(char text[TEXT_MAX])
{
    FILE *file = fopen(TT_SOURCE_DIR "/tests/cli/regulator/book.yaml", "rb");
    assert_non_null(file);
    size_t length = fread(text, 1, TEXT_MAX - 1, file);
    text[length] = 0;
    fclose(file);
    assert_in_range(length, 1000, TEXT_MAX - 2000);
}

/* `old` must be there; null: nothing is replaced. */
static void replace(char text[TEXT_MAX], const char *old, const char *new)
{
    if (old == NULL) return;
    char *at = strstr(text, old);
    assert_non_null(at);
    memmove(at + strlen(new), at + strlen(old), strlen(at + strlen(old)) + 1);
    memcpy(at, new, strlen(new));
}

static bench begin_text(const char *text)
{
    bench b;
    tt_report *report;
    const tt_source source = {"book.yaml", text, strlen(text)};
    tt_status status = tt_book_load(&source, 1, &b.book, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    assert_int_equal(tt_case_new(b.book, NULL, &b.c), TT_OK);
    open_gate(b.c);
    return b;
}

static bench begin_with(const char *old, const char *new)
{
    char text[TEXT_MAX];
    read_file(text);
    replace(text, old, new);
    return begin_text(text);
}

static bench begin(void)
{
    return begin_with(NULL, NULL);
}

static void end(bench b)
{
    tt_case_free(b.c);
    tt_book_free(b.book);
}

static void say(bench b, const char *question, const char *typed)
{
    tt_reply reply;
    const char *why;
    uint32_t q = tt_question_find(b.book, question);
    assert_int_equal(tt_reply_read(b.c, q, typed, &reply, &why), TT_OK);
    assert_int_equal(tt_answer(b.c, q, &reply), TT_OK);
}

static void say_unsure(bench b, const char *question)
{
    uint32_t q = tt_question_find(b.book, question);
    assert_int_equal(tt_answer(b.c, q, &(tt_reply){.kind = TT_UNSURE}), TT_OK);
}

static bench begin_at(const char *reading)
{
    bench b = begin();
    say(b, "foam-look", "stiff");
    say(b, "foam-air", reading);
    return b;
}

static const tt_view *look(bench b)
{
    const tt_view *v;
    assert_int_equal(tt_look(b.c, &v), TT_OK);
    return v;
}

static uint32_t fix_of(bench b, const char *name)
{
    uint32_t fix = tt_fix_find(b.book, name);
    assert_int_not_equal(fix, TT_NONE);
    return fix;
}

static tt_status try(bench b, const char *fix, tt_outcome outcome)
{
    return tt_fix_tried(b.c, fix_of(b, fix), outcome);
}

static void step(bench b, tt_outcome outcome)
{
    assert_int_equal(try(b, "lower-air", outcome), TT_OK);
}

static void put_back(bench b)
{
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    assert_int_equal(look(b)->fix, fix_of(b, "lower-air"));
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_OK);
}

static tt_fix_plan plan_of(bench b, const char *fix)
{
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(b.c, fix_of(b, fix), &plan), TT_OK);
    return plan;
}

/* Null if nothing is known of it. */
static const tt_fact *fact(bench b, const char *name)
{
    const tt_view *v = look(b);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, name) == 0) return &v->facts[i];
    return NULL;
}

static const tt_fix *listed(bench b, const char *name)
{
    const tt_view *v = look(b);
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (strcmp(v->fixes[i].name, name) == 0) return &v->fixes[i];
    return NULL;
}

static tt_tried last_tried(bench b, uint32_t count_wanted)
{
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(b.c, &tried, &count), TT_OK);
    assert_int_equal(count, count_wanted);
    return tried[count - 1];
}

/* Everything that a case shows, as text, so that two can be compared to the last bit. */
static void dump(bench b, char out[TEXT_MAX])
{
    const tt_view *v = look(b);
    size_t at =
        (size_t)snprintf(out, TEXT_MAX, "%d %u %u\n", (int)v->step, v->fix, v->next.question);
    for (uint32_t i = 0; i < v->cause_count; i++)
        at += (size_t)snprintf(out + at, TEXT_MAX - at, "%s %a\n", v->causes[i].text,
                               v->causes[i].chance);
    for (uint32_t i = 0; i < v->pair_count; i++)
        at += (size_t)snprintf(out + at, TEXT_MAX - at, "%s %a\n", v->pairs[i].first,
                               v->pairs[i].chance);
    for (uint32_t i = 0; i < v->fact_count; i++)
        at += (size_t)snprintf(out + at, TEXT_MAX - at, "%s %s %s %d\n", v->facts[i].name,
                               v->facts[i].value, v->facts[i].from, v->facts[i].stale);
    for (uint32_t i = 0; i < v->fix_count; i++)
        at += (size_t)snprintf(out + at, TEXT_MAX - at, "%s %s %a %d\n", v->fixes[i].name,
                               v->fixes[i].text, v->fixes[i].chance, (int)v->fixes[i].standing);
    assert_in_range(at, 100, TEXT_MAX - 1);
}

static void assert_same_chances(bench b, bench other)
{
    const tt_view *v = look(b), *w = look(other);
    assert_int_equal(v->cause_count, w->cause_count);
    for (uint32_t i = 0; i < v->cause_count; i++) {
        assert_string_equal(v->causes[i].text, w->causes[i].text);
        assert_memory_equal(&v->causes[i].chance, &w->causes[i].chance, sizeof(double));
    }
}

/* ---- the tests ---- */

static void the_reading_is_asked_first(void **state)
{
    (void)state;
    bench b = begin();
    say(b, "foam-look", "stiff");
    assert_int_equal(listed(b, "lower-air")->standing, TT_LIKELY_FIX);
    assert_int_equal(look(b)->step, TT_ASK);
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "foam-air"));
    assert_false(plan_of(b, "lower-air").adjust.known);
    assert_string_equal(plan_of(b, "lower-air").put_back,
                        "Set the regulator back to not read yet.");
    assert_int_equal(try(b, "lower-air", TT_BETTER), TT_NOT_NOW);
    say(b, "foam-air", "52");
    assert_int_equal(look(b)->step, TT_FIX);
    assert_int_equal(look(b)->fix, fix_of(b, "lower-air"));
    tt_fix_plan plan = plan_of(b, "lower-air");
    assert_true(plan.adjust.known && !plan.adjust.under_way);
    assert_int_equal(plan.adjust.step, 1);
    assert_int_equal(plan.adjust.at_most, 3);
    assert_string_equal(plan.adjust.from_text, "52 psi");
    assert_string_equal(plan.adjust.to_text, "47 psi");
    assert_string_equal(plan.put_back, "Set the regulator back to 52 psi.");
    assert_int_equal(plan_of(b, "new-foamer").adjust.reading, TT_NONE);
    end(b);
}

static void what_decides_about_the_reading_comes_before_it(void **state)
{
    (void)state;
    bench b = begin_with("    plausible: 0 to 120 psi\n",
                         "    plausible: 0 to 120 psi\n    only-when: {hose: no}\n");
    say(b, "foam-look", "stiff");
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "hose"));
    say(b, "hose", "no");
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "foam-air"));
    end(b);
}

static void without_a_reading_it_is_not_offered(void **state)
{
    (void)state;
    bench b = begin();
    say(b, "foam-look", "stiff");
    say_unsure(b, "foam-air");
    assert_null(listed(b, "lower-air"));
    assert_int_equal(try(b, "lower-air", TT_NO_CHANGE), TT_NOT_NOW);
    end(b);
}

/* At the limit, and on either side of it: no step would stay within. */
static void beyond_its_limits_it_is_not_offered(void **state)
{
    (void)state;
    static const char *const readings[] = {"35", "34.5", "61", "110"};
    for (size_t i = 0; i < sizeof readings / sizeof *readings; i++) {
        bench b = begin_at(readings[i]);
        assert_null(listed(b, "lower-air"));
        assert_int_equal(try(b, "lower-air", TT_BETTER), TT_NOT_NOW);
        end(b);
    }
    bench b = begin_at("60");
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "55 psi");
    end(b);
}

static void the_last_step_is_shortened_to_the_limit(void **state)
{
    (void)state;
    bench b = begin_at("42");
    step(b, TT_BETTER);
    assert_string_equal(plan_of(b, "lower-air").adjust.from_text, "37 psi");
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "35 psi");
    step(b, TT_BETTER);
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    assert_int_equal(plan_of(b, "lower-air").adjust.step, 0);
    end(b);
}

static void steps_go_up_as_well(void **state)
{
    (void)state;
    bench b = begin_with("by: -5 psi, within: 35 to 60 psi", "by: 0.1 psi, within: 0.1 to 0.3 psi");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "0.1");
    step(b, TT_BETTER);
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "0.3 psi");
    step(b, TT_BETTER);
    assert_int_equal(look(b)->step, TT_PUT_BACK); /* 0.1 + 0.1 + 0.1 is a hair above 0.3 */
    end(b);
}

/* Eight tenths added up are a hair below 0.8: no ninth step is worth taking. */
static void a_hair_is_no_step(void **state)
{
    (void)state;
    bench b = begin_with("by: -5 psi, within: 35 to 60 psi, at-most: 3",
                         "by: 0.1 psi, within: 0 to 0.8 psi, at-most: 20");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "0");
    for (int i = 0; i < 8; i++) {
        assert_int_not_equal(look(b)->step, TT_PUT_BACK);
        step(b, TT_BETTER);
    }
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    end(b);
}

/* 0.5 bar are 7.2519 psi, 2.5 to 4 bar are 36.259 to 58.015 psi: 1 bar = 100 kPa, 1 psi = 6.894757
 * kPa (NIST SP 811, B.8). */
static void what_is_written_in_another_unit_can_still_be_set(void **state)
{
    (void)state;
    static const char *const settings[] = {"44.7 psi", "37.4 psi", "36.3 psi"};
    bench b = begin_with("by: -5 psi, within: 35 to 60 psi", "by: -0.5 bar, within: 2.5 to 4 bar");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "58.01");
    assert_null(listed(b, "lower-air"));
    say(b, "foam-air", "58.0");
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "50.7 psi");
    say(b, "foam-air", "52");
    for (int i = 0; i < 3; i++) {
        assert_string_equal(plan_of(b, "lower-air").adjust.to_text, settings[i]);
        step(b, TT_BETTER);
    }
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    end(b);
    b = begin_with("by: -5 psi, within: 35 to 60 psi", "by: -5.125 psi, within: 35.0625 to 60 PSI");
    say(b, "foam-air", "52.5");
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "47.375 psi");
    end(b);
}

/* In order of minutes alone: ten to read the gauge and five to turn the knob are less than twenty,
 * sixty and five are more. */
static void reading_it_takes_time_too(void **state)
{
    (void)state;
    static const char *const minutes[] = {"    unit: psi\n    takes: 10 min\n",
                                          "    unit: psi\n    takes: 60 min\n"};
    static const char *const first[] = {"lower-air", "new-foamer"};
    for (int i = 0; i < 2; i++) {
        char text[TEXT_MAX];
        read_file(text);
        replace(text, "    unit: psi\n", minutes[i]);
        replace(text, "how-often: uncommon",
                "how-often: common"); /* so that both are likely to help */
        bench b = begin_text(text);
        tt_case_free(b.c);
        assert_int_equal(tt_case_new(b.book, &(tt_options){.role = TT_NONE, .soonest = true}, &b.c),
                         TT_OK);
        open_gate(b.c);
        say(b, "foam-look", "stiff");
        assert_string_equal(look(b)->fixes[0].name, first[i]);
        say(b, "foam-air", "52");
        assert_string_equal(look(b)->fixes[0].name, "lower-air");
        end(b);
    }
}

static void gone_closes_and_says_what_is_different(void **state)
{
    (void)state;
    bench b = begin_at("52");
    step(b, TT_GONE);
    assert_int_equal(look(b)->step, TT_CLOSED);
    assert_string_equal(fact(b, "foam-air")->text, "47 psi");
    assert_string_equal(fact(b, "foam-air")->from, "fix");
    tt_tried tried = last_tried(b, 1);
    assert_int_equal(tried.outcome, TT_GONE);
    assert_string_equal(
        tried.setting,
        "What does the gauge at the foam air regulator read? 52 psi found, 47 psi left");
    assert_string_equal(tried.cured, "The foam air is set too high");
    assert_string_equal(tried.put_back, "");
    assert_false(tried.under_way);
    end(b);
}

static void better_keeps_the_step_and_looks_again(void **state)
{
    (void)state;
    bench b = begin_at("52"), before = begin_at("52");
    step(b, TT_BETTER);
    assert_int_equal(look(b)->step, TT_ASK);
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "foam-look"));
    assert_string_equal(fact(b, "foam-air")->text, "47 psi");
    assert_string_equal(fact(b, "foam-air")->from, "fix");
    assert_true(fact(b, "foam-look")->stale);
    assert_null(fact(b, "hose"));
    assert_string_equal(plan_of(b, "lower-air").put_back, "Set the regulator back to 52 psi.");
    assert_string_equal(plan_of(b, "new-foamer").text,
                        "Change the foamer; the air stands at 47 psi");
    /* what somebody set is no sign of a fault, and no outcome is known yet */
    assert_same_chances(b, before);
    say(b, "foam-look", "runny");
    assert_false(fact(b, "foam-look")->stale);
    assert_same_chances(b, before);
    assert_int_equal(look(b)->step, TT_ASK);
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "hose"));
    say_unsure(b, "hose");
    assert_int_equal(look(b)->step, TT_FIX);
    assert_int_equal(look(b)->fix, fix_of(b, "lower-air"));
    assert_int_equal(look(b)->next.question, TT_NONE);
    tt_tried tried = last_tried(b, 1);
    assert_true(tried.under_way);
    assert_int_equal(tried.outcome, TT_BETTER);
    assert_string_equal(
        tried.setting,
        "What does the gauge at the foam air regulator read? 52 psi found, 47 psi left");
    assert_string_equal(tried.put_back, "Set the regulator back to 52 psi.");
    end(b);
    end(before);
}

static void nothing_else_is_tried_meanwhile(void **state)
{
    (void)state;
    bench b = begin_at("52");
    assert_int_equal(listed(b, "new-foamer")->standing, TT_POSSIBLE_FIX);
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_NOT_NOW);
    step(b, TT_BETTER);
    assert_int_equal(listed(b, "new-foamer")->standing, TT_NOT_YET);
    assert_int_equal(try(b, "new-foamer", TT_GONE), TT_NOT_NOW);
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_NOT_NOW);
    step(b, TT_NO_CHANGE);
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    assert_int_equal(listed(b, "new-foamer")->standing, TT_NOT_YET);
    assert_int_equal(try(b, "new-foamer", TT_GONE), TT_NOT_NOW);
    assert_int_equal(try(b, "lower-air", TT_GONE), TT_NOT_NOW);
    assert_int_equal(tt_put_back(b.c, fix_of(b, "new-foamer")), TT_NOT_NOW);
    assert_int_equal(tt_put_back(b.c, TT_NONE), TT_FAULTY);
    put_back(b);
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_NOT_NOW);
    assert_int_equal(look(b)->fix, fix_of(b, "new-foamer"));
    end(b);
}

/* The whole sequence is one outcome: the same to the last bit as a plain fix that did not help. */
static void putting_back_is_as_if_a_plain_fix_had_failed(void **state)
{
    (void)state;
    bench plain = begin_with(
        "    adjust: {reading: foam-air, by: -5 psi, within: 35 to 60 psi, at-most: 3 times}\n"
        "    look-again: [foam-look, hose]\n"
        "    put-back: Set the regulator back to {foam-air as found, psi}.\n",
        "    put-back: Set it back.\n");
    say(plain, "foam-look", "stiff");
    say(plain, "foam-air", "52");
    assert_int_equal(try(plain, "lower-air", TT_NO_CHANGE), TT_OK);
    assert_int_equal(tt_put_back(plain.c, tt_fix_find(plain.book, "lower-air")), TT_OK);
    for (int kept = 0; kept <= 2; kept++) {
        char before[TEXT_MAX], after[TEXT_MAX];
        bench b = begin_at("52");
        for (int i = 0; i < kept; i++) {
            step(b, TT_BETTER);
            say(b, "foam-look", "good");
            say(b, "hose", "no");
        }
        step(b, kept == 2 ? TT_BETTER : TT_NO_CHANGE);
        put_back(b);
        dump(plain, before);
        dump(b, after);
        assert_string_equal(before, after);
        tt_tried tried = last_tried(b, 1);
        assert_int_equal(tried.outcome, TT_NO_CHANGE);
        assert_true(tried.was_put_back);
        assert_string_equal(tried.setting, "");
        assert_string_equal(tried.put_back, "");
        end(b);
    }
    end(plain);
}

static void undo_is_exact_at_every_step(void **state)
{
    (void)state;
    enum { STEPS = 8 };
    static char seen[STEPS + 1][TEXT_MAX], back[TEXT_MAX];
    bench b = begin_at("52");
    for (int i = 0; i <= STEPS; i++) {
        dump(b, seen[i]);
        switch (i) {
        case 0:
        case 3:
            step(b, TT_BETTER);
            break;
        case 1:
        case 4:
            say(b, "foam-look", "good");
            break;
        case 2:
            say(b, "hose", "no");
            break;
        case 5:
            step(b, TT_NO_CHANGE);
            break;
        case 6:
            put_back(b);
            break;
        case 7:
            assert_int_equal(try(b, "new-foamer", TT_GONE), TT_OK);
            break;
        }
    }
    for (int i = STEPS - 1; i >= 0; i--) {
        assert_int_equal(tt_undo(b.c), TT_OK);
        dump(b, back);
        assert_string_equal(back, seen[i]);
    }
    end(b);
}

static void a_stop_holds_everything_back(void **state)
{
    (void)state;
    bench b = begin_at("52");
    step(b, TT_BETTER);
    say(b, "hose", "yes");
    assert_int_equal(look(b)->step, TT_STOP);
    for (uint32_t i = 0; i < look(b)->fix_count; i++)
        assert_true(look(b)->fixes[i].standing >= TT_NOT_YET);
    assert_true(last_tried(b, 1).under_way);
    assert_int_equal(tt_undo(b.c), TT_OK);
    assert_int_equal(look(b)->step, TT_ASK);
    step(b, TT_NO_CHANGE);
    say(b, "hose", "yes");
    assert_int_equal(look(b)->step, TT_STOP);
    end(b);
}

/* Rules see the setting as it is: here the step itself leads into a stop. */
static void the_setting_itself_may_stop_it(void **state)
{
    (void)state;
    bench b = begin_with("    when: {hose: yes}\n    then:",
                         "    when: {foam-air: below 48 psi}\n    then:");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "52");
    assert_int_equal(look(b)->step, TT_FIX);
    step(b, TT_NO_CHANGE);
    assert_int_equal(look(b)->step, TT_STOP);
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_OK);
    assert_int_equal(look(b)->step, TT_FIX);
    assert_int_equal(look(b)->fix, fix_of(b, "new-foamer"));
    end(b);
}

static void what_rules_out_danger_is_asked_again_first(void **state)
{
    (void)state;
    bench b = begin_with("    ask: Does the hose swell?\n",
                         "    ask: Does the hose swell?\n    safe: [no]\n");
    say(b, "hose", "no");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "52");
    step(b, TT_BETTER);
    assert_int_equal(look(b)->step, TT_ASK);
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "hose"));
    say(b, "hose", "no");
    say(b, "foam-look", "stiff");
    assert_int_equal(look(b)->step, TT_FIX);
    assert_int_equal(look(b)->fix, fix_of(b, "lower-air"));
    end(b);
}

/* It was told before the first step, ended after it, and is over when the setting is put back. */
static void putting_back_brings_no_danger_back_that_is_over(void **state)
{
    (void)state;
    bench b = begin_with("    ask: Does the hose swell?\n",
                         "    ask: Does the hose swell?\n    safe: [no]\n");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "52");
    say(b, "hose", "yes");
    assert_int_equal(look(b)->step, TT_STOP);
    assert_int_equal(try(b, "lower-air", TT_WORSE), TT_OK); /* done all the same */
    assert_int_equal(look(b)->step, TT_STOP);
    say(b, "hose", "no");
    say(b, "foam-look", "stiff"); /* what the fix wants looked at again */
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    put_back(b);
    assert_int_equal(look(b)->gate.state, TT_GATE_OPEN);
    assert_int_equal(look(b)->step, TT_FIX);
    end(b);
}

static void what_could_not_be_done_tells_nothing(void **state)
{
    (void)state;
    bench b = begin_at("52"), untouched = begin_at("52");
    step(b, TT_COULD_NOT);
    assert_same_chances(b, untouched);
    assert_null(listed(b, "lower-air"));
    assert_int_equal(look(b)->fix, fix_of(b, "new-foamer"));
    assert_false(last_tried(b, 1).was_put_back);
    assert_int_equal(tt_undo(b.c), TT_OK);
    step(b, TT_BETTER);
    step(b, TT_COULD_NOT); /* the second step: the first must be put back all the same */
    assert_string_equal(fact(b, "foam-air")->text, "47 psi");
    put_back(b);
    assert_same_chances(b, untouched);
    assert_null(listed(b, "lower-air"));
    assert_string_equal(fact(b, "foam-air")->text, "52 psi");
    assert_string_equal(fact(b, "foam-air")->from, "answer");
    assert_int_equal(last_tried(b, 1).outcome, TT_COULD_NOT);
    assert_true(last_tried(b, 1).was_put_back);
    end(b);
    end(untouched);
}

static void what_can_not_be_put_back_is_for_somebody_else(void **state)
{
    (void)state;
    bench b = begin_at("52");
    step(b, TT_NO_CHANGE);
    step(b, TT_COULD_NOT);
    assert_int_equal(look(b)->step, TT_CALL);
    assert_string_equal(look(b)->call_role, "technician");
    assert_int_equal(try(b, "new-foamer", TT_GONE), TT_NOT_NOW);
    tt_tried tried = last_tried(b, 1);
    assert_true(tried.under_way);
    assert_string_equal(tried.put_back, "Set the regulator back to 52 psi.");
    assert_string_equal(
        tried.setting,
        "What does the gauge at the foam air regulator read? 52 psi found, 47 psi left");
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower-air")), TT_OK);
    assert_int_equal(look(b)->fix, fix_of(b, "new-foamer"));
    end(b);
}

static void the_next_step_starts_where_it_was_read_again(void **state)
{
    (void)state;
    bench b = begin_at("52");
    step(b, TT_BETTER);
    say(b, "foam-air", "48.5");
    assert_string_equal(fact(b, "foam-air")->from, "answer");
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "43.5 psi");
    assert_string_equal(plan_of(b, "lower-air").adjust.found_text, "52 psi");
    assert_int_equal(tt_retract(b.c, tt_question_find(b.book, "foam-air")), TT_OK);
    assert_int_equal(tt_retract(b.c, tt_question_find(b.book, "foam-look")), TT_OK);
    bench before = begin_at("52");
    assert_same_chances(b, before);
    end(before);
    assert_string_equal(plan_of(b, "lower-air").adjust.to_text, "43.5 psi");
    say(b, "foam-air", "34");
    put_back(b);
    assert_string_equal(fact(b, "foam-air")->text, "52 psi");
    end(b);
}

static void a_second_adjustment_starts_afresh(void **state)
{
    (void)state;
    bench b = begin_with(
        "    put-back: not needed\n    harm: none\n    takes: 20 min",
        "    adjust: {reading: foam-air, by: 3 psi, within: 40 to 60 psi, at-most: 1 time}\n"
        "    put-back: Back to {foam-air as found, psi} from {foam-air as left, psi}\n    harm: "
        "none\n    takes: 20 min");
    say(b, "foam-look", "stiff");
    say(b, "foam-air", "52");
    step(b, TT_NO_CHANGE);
    put_back(b);
    assert_int_equal(look(b)->fix, fix_of(b, "new-foamer"));
    assert_string_equal(plan_of(b, "new-foamer").adjust.to_text, "55 psi");
    assert_int_equal(try(b, "new-foamer", TT_BETTER), TT_OK);
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    assert_string_equal(plan_of(b, "new-foamer").put_back, "Back to 52 psi from 55 psi");
    last_tried(b, 2);
    end(b);
}

/* ---- for each piece of equipment ---- */

static const char of_pieces[] =
    "book:\n"
    "  title: Two applicators\n"
    "  roles: [attendant]\n"
    "kinds:\n"
    "  applicator:\n"
    "    one: applicator\n"
    "    ask: Which applicators are there?\n"
    "questions:\n"
    "  look:\n"
    "    for-each: applicator\n"
    "    ask: How does the foam of {applicator} look?\n"
    "    answers: {stiff: Stiff, good: Good}\n"
    "  air:\n"
    "    for-each: applicator\n"
    "    ask: At what is the air of {applicator} set?\n"
    "    reading: pressure\n"
    "    unit: psi\n"
    "    about: the site\n"
    "symptoms:\n"
    "  stiff-foam:\n"
    "    for-each: applicator\n"
    "    text: The foam of {applicator} is stiff\n"
    "    when: {look: stiff}\n"
    "    shown-by: {air-high: almost always}\n"
    "causes:\n"
    "  air-high:\n"
    "    for-each: applicator\n"
    "    text: The air of {applicator} is too high\n"
    "fixes:\n"
    "  lower:\n"
    "    for-each: applicator\n"
    "    text: Lower the air of {applicator} from {air as found} to {air as left}\n"
    "    role: attendant\n    cures: {air-high: usually}\n"
    "    adjust: {reading: air, by: -5 psi, within: 30 to 60 psi, at-most: 2 times}\n"
    "    look-again: [look]\n"
    "    put-back: Back to {air as found, psi}\n"
    "    harm: none\n"
    "site:\n"
    "  units:\n"
    "    applicator:\n"
    "      left: {text: the left applicator, air: 50 psi}\n"
    "      right: {text: the right applicator, air: 44 psi}\n";

static void each_piece_has_a_setting_of_its_own(void **state)
{
    (void)state;
    bench b = begin_text(of_pieces);
    char before[TEXT_MAX], after[TEXT_MAX];
    say(b, "look of left", "stiff");
    say(b, "look of right", "stiff");
    dump(b, before);
    assert_int_equal(try(b, "lower of left", TT_BETTER), TT_OK);
    assert_int_equal(try(b, "lower of right", TT_BETTER), TT_NOT_NOW);
    assert_string_equal(fact(b, "air of left")->from, "fix");
    assert_string_equal(fact(b, "air of left")->source, "");
    assert_string_equal(fact(b, "air of right")->from, "site");
    assert_string_equal(plan_of(b, "lower of left").text,
                        "Lower the air of the left applicator from 50 psi to 45 psi");
    assert_string_equal(plan_of(b, "lower of right").text,
                        "Lower the air of the right applicator from 44 psi to 44 psi");
    assert_string_equal(last_tried(b, 1).setting,
                        "At what is the air of the left applicator set? 50 psi found, 45 psi left");
    assert_int_equal(look(b)->next.question, tt_question_find(b.book, "look of left"));
    assert_int_equal(try(b, "lower of left", TT_NO_CHANGE), TT_OK);
    assert_string_equal(last_tried(b, 1).put_back, "Back to 50 psi");
    assert_int_equal(tt_put_back(b.c, fix_of(b, "lower of left")), TT_OK);
    assert_string_equal(fact(b, "air of left")->from, "site");
    assert_string_equal(fact(b, "air of left")->text, "50 psi");
    assert_false(fact(b, "look of left")->stale);
    assert_int_equal(try(b, "lower of right", TT_GONE), TT_OK);
    assert_string_equal(
        last_tried(b, 2).setting,
        "At what is the air of the right applicator set? 44 psi found, 39 psi left");
    for (int i = 0; i < 4; i++) assert_int_equal(tt_undo(b.c), TT_OK);
    dump(b, after);
    assert_string_equal(before, after);
    end(b);
}

/* An author who expects a fix that can't be offered is told why it isn't. */
static void a_worked_case_says_why_a_fix_is_not_offered(void **state)
{
    (void)state;
    char text[TEXT_MAX];
    read_file(text);
    size_t length = strlen(text);
    snprintf(text + length, TEXT_MAX - length, "%s",
             "cases:\n"
             "  far-too-high:\n    answers: {foam-look: stiff, foam-air: 90 psi}\n    expect: "
             "{first-fix: lower-air}\n"
             "  of-another-role:\n    answers: {foam-look: stiff, foam-air: 20 psi}\n    expect: "
             "{first-fix: new-foamer}\n");
    replace(text, "    role: attendant\n    cures: {foamer-worn",
            "    role: technician\n    cures: {foamer-worn");
    bench b = begin_text(text);
    tt_trials trials;
    assert_int_equal(tt_try(b.book, &trials), TT_OK);
    assert_int_equal(trials.count, 2);
    assert_string_equal(trials.items[0].why, "first fix: expected lower-air, got no fix worth "
                                             "trying yet (foam-air lies outside its 'within', "
                                             "or at the limit already)");
    assert_string_equal(trials.items[1].why, "first fix: expected new-foamer, got no fix worth "
                                             "trying yet (the role for it is technician: "
                                             "write 'as: technician')");
    end(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_reading_is_asked_first),
        cmocka_unit_test(what_decides_about_the_reading_comes_before_it),
        cmocka_unit_test(without_a_reading_it_is_not_offered),
        cmocka_unit_test(beyond_its_limits_it_is_not_offered),
        cmocka_unit_test(the_last_step_is_shortened_to_the_limit),
        cmocka_unit_test(steps_go_up_as_well),
        cmocka_unit_test(a_hair_is_no_step),
        cmocka_unit_test(what_is_written_in_another_unit_can_still_be_set),
        cmocka_unit_test(reading_it_takes_time_too),
        cmocka_unit_test(gone_closes_and_says_what_is_different),
        cmocka_unit_test(better_keeps_the_step_and_looks_again),
        cmocka_unit_test(nothing_else_is_tried_meanwhile),
        cmocka_unit_test(putting_back_is_as_if_a_plain_fix_had_failed),
        cmocka_unit_test(undo_is_exact_at_every_step),
        cmocka_unit_test(a_stop_holds_everything_back),
        cmocka_unit_test(the_setting_itself_may_stop_it),
        cmocka_unit_test(what_rules_out_danger_is_asked_again_first),
        cmocka_unit_test(putting_back_brings_no_danger_back_that_is_over),
        cmocka_unit_test(what_could_not_be_done_tells_nothing),
        cmocka_unit_test(what_can_not_be_put_back_is_for_somebody_else),
        cmocka_unit_test(the_next_step_starts_where_it_was_read_again),
        cmocka_unit_test(a_second_adjustment_starts_afresh),
        cmocka_unit_test(each_piece_has_a_setting_of_its_own),
        cmocka_unit_test(a_worked_case_says_why_a_fix_is_not_offered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
