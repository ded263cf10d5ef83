/* Ask, fix or call: the balanced test on problems small enough to do by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "choose/choose.h"

enum { CAUSES = 40, QUESTIONS = 8 };

/* Causes 0 … n-1, each with a fix of its own for certain, and yes/no questions. */
typedef struct call_desk {
    choice_input in;
    fix_option fixes[CAUSES];
    net_rate cures[CAUSES];
    question_option questions[QUESTIONS];
    prediction seen[QUESTIONS];
    double flat[QUESTIONS][2];
    double rows[QUESTIONS][2 * CAUSES];
    uint32_t every[CAUSES];
    double w[CAUSES + 1];
    arena *scratch;
    guard way_out;
} call_desk;

static int set_up(void **state)
{
    static call_desk d;
    memset(&d, 0, sizeof d);
    d.scratch = arena_new(NULL, &d.way_out);
    if (d.scratch == NULL) return 1;
    if (setjmp(d.way_out.place) != 0) return 1;
    d.in =
        (choice_input){.fixes = d.fixes, .questions = d.questions, .rules = choice_rules_default};
    for (uint32_t c = 0; c < CAUSES; c++) d.every[c] = c;
    *state = &d;
    return 0;
}

static int tear_down(void **state)
{
    arena_free(((call_desk *)*state)->scratch);
    return 0;
}

static fix_option *cause(call_desk *d, double chance, double minutes, risk_level level)
{
    uint32_t c = d->in.cause_count++;
    d->in.fix_count = d->in.cause_count;
    d->w[1 + c] = chance;
    d->cures[c] = (net_rate){c, 1};
    d->fixes[c] = (fix_option){
        .minutes = minutes, .level = level, .cures = &d->cures[c], .cure_count = 1, .open = true};
    return &d->fixes[c];
}

/* A question to which nobody's answer depends on the cause, until `says` is called. Add it after
 * the causes. */
static question_option *question(call_desk *d, double minutes)
{
    uint32_t q = d->in.question_count++;
    d->flat[q][0] = d->flat[q][1] = .5;
    for (uint32_t i = 0; i < 2 * d->in.cause_count; i++) d->rows[q][i] = .5;
    d->seen[q] = (prediction){.states = 2,
                              .base = d->flat[q],
                              .other = d->flat[q],
                              .listed_count = d->in.cause_count,
                              .listed = d->every,
                              .rows = d->rows[q]};
    d->questions[q] = (question_option){.minutes = minutes, .seen = &d->seen[q]};
    return &d->questions[q];
}

static void says(call_desk *d, uint32_t q, uint32_t c, double yes)
{
    d->rows[q][2 * c] = 1 - yes;
    d->rows[q][2 * c + 1] = yes;
}

static choice step(call_desk *d)
{
    return choose_step(&d->in, d->scratch, d->w);
}

static void near(double found, double expected)
{
    if (!(fabs(found - expected) <= 1e-12 * fmax(1, fabs(expected))))
        fail_msg("%.17g, expected %.17g", found, expected);
}

/* The first is done anywhere, the second here under the same lockout, the third half an hour away,
 * where a question is, too: the second is nearest to whoever has done the first, wherever one stood
 * in thought before. */
static void what_is_done_under_one_lockout_is_near_where_one_stands(void **state)
{
    call_desk *d = *state;
    static const double walk[] = {0, 30, 30, 0};
    cause(d, .5, 10, RISK_LOW)->place = NO_PLACE;
    cause(d, .3, 20, RISK_LOW)->place = 0;
    cause(d, .2, 10, RISK_LOW)->place = 1;
    for (uint32_t f = 0; f < 2; f++) d->fixes[f].set_up = 1;
    d->fixes[0].set_up_minutes = 5;
    d->fixes[1].set_up_minutes = 15;
    question(d, 5)->place = 1;
    d->in.walk = walk;
    d->in.place_count = 2;
    const choice c = step(d);
    assert_int_equal(c.step, STEP_FIX);
    assert_int_equal(c.fix, 0);
    assert_int_equal(c.with, 1);
    near(c.value_fix, 10 + 5 + .2 * (30 + 10));
}

/* ---- the sign that settles a fix ---- */

/* A fix for one of two causes, half a chance each; where it is done, a look after whose "no" the
 * cause has a chance of exactly a quarter. Asking first costs 34 minutes, fixing first 30. */
static void what_leaves_a_fix_at_its_threshold_settles_nothing(void **state)
{
    call_desk *d = *state;
    static const double nowhere_else[] = {0};
    cause(d, .5, 10, RISK_LOW)->place = 0;
    cause(d, .5, 40, RISK_LOW)->place = NO_PLACE;
    question(d, 4)->place = 0;
    says(d, 0, 0, .75);
    says(d, 0, 1, .25);
    d->in.walk = nowhere_else;
    d->in.place_count = 1;
    d->in.rules.worth_trying[RISK_LOW] = .25;
    choice c = step(d);
    near(c.value_fix, 10 + .5 * 40);
    near(c.value_ask, 4 + .5 * 10 + .375 * 40 + .5 * 10 + .125 * 40);
    assert_false(c.settles);
    assert_int_equal(c.step, STEP_FIX);
    d->in.rules.worth_trying[RISK_LOW] = .26; /* "no" saves the fix: 10 / 2 is more than 4 */
    c = step(d);
    assert_true(c.settles);
    assert_int_equal(c.question, 0);
    d->questions[0].minutes = 5; /* and 5 is not */
    assert_false(step(d).settles);
}

/* ---- a second look ---- */

/* Another look at what was answered, right so often. */
static void look_again(call_desk *d, double minutes, double right)
{
    question(d, minutes);
    says(d, d->in.question_count - 1, 0, right);
    says(d, d->in.question_count - 1, 1, 1 - right);
}

/* Rates of .278, .1, .04, .238 and .085 bits a minute: the certain look is the second of three to
 * be weighed, then the third, and is worth most. */
static void the_three_looks_that_tell_most_a_minute_are_weighed(void **state)
{
    call_desk *d = *state;
    cause(d, .5, 60, RISK_MEDIUM);
    cause(d, .5, 60, RISK_MEDIUM);
    look_again(d, 1, .8);
    look_again(d, 10, 1);
    look_again(d, 3, .7);
    look_again(d, .5, .7);
    look_again(d, 1.4, .7);
    d->in.again_count = d->in.question_count;
    d->in.question_count = 0;
    choice c = step(d);
    near(c.value_fix, 60 + .5 * 10 + .5 * 60);
    assert_int_equal(c.step, STEP_ASK);
    assert_true(c.again);
    assert_int_equal(c.question, 1);
    near(c.value_ask, 10 + 60);
    near(c.saves_minutes, 95 - 70);
    near(c.bits, 1);
    d->questions[4].minutes = 1.1; /* .108 bits a minute: the certain one is not weighed */
    c = step(d);
    assert_int_equal(c.question, 0);
    near(c.value_ask, 1 + 60 + .2 * (10 + 60));
}

/* ---- asking, fixing, calling ---- */

/* Two causes, 20 and 40 minutes; one question tells them apart. */
static void two_causes(call_desk *d, double question_minutes)
{
    cause(d, .5, 20, RISK_LOW);
    cause(d, .5, 40, RISK_LOW);
    question(d, question_minutes);
    says(d, 0, 0, 0);
    says(d, 0, 1, 1);
}

static void asks_when_an_answer_saves_more_than_it_costs(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    choice c = step(d);
    assert_int_equal(c.step, STEP_ASK);
    assert_int_equal(c.question, 0);
    assert_int_equal(c.fix, 0);
    near(c.bits, 1);
    near(c.value_ask, 5 + .5 * 20 + .5 * 40);
    near(c.value_fix, 20 + .5 * 40); /* after that there's no doubt left to ask about */
    near(c.value_call, 240);
    near(c.saves_minutes, 5);
}

static void fixes_when_asking_costs_more_than_it_saves(void **state)
{
    call_desk *d = *state;
    two_causes(d, 11);
    choice c = step(d);
    assert_int_equal(c.step, STEP_FIX);
    assert_int_equal(c.fix, 0);
    assert_int_equal(c.question, 0);
    near(c.saves_minutes, -1);
}

static void even_goes_to_the_fix(void **state)
{
    call_desk *d = *state;
    two_causes(d, 10);
    choice c = step(d);
    near(c.value_ask, c.value_fix);
    assert_int_equal(c.step, STEP_FIX);
}

static void even_between_fix_and_call_goes_to_the_fix(void **state)
{
    call_desk *d = *state;
    cause(d, .5, 120, RISK_LOW);
    d->w[0] = .5;
    choice c = step(d);
    assert_true(c.value_fix == c.value_call);
    assert_int_equal(c.step, STEP_FIX);
}

static void between_equal_questions_the_first_one(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    question(d, 5);
    says(d, 1, 0, 0);
    says(d, 1, 1, 1);
    for (d->in.rules.short_list = 1; d->in.rules.short_list <= 2; d->in.rules.short_list++)
        assert_int_equal(step(d).question, 0);
}

static void weights_need_not_sum_to_one(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    for (uint32_t h = 0; h < 3; h++) d->w[h] *= 1024;
    choice c = step(d);
    near(c.value_ask, 35);
    near(c.value_call, 240);
    near(choose_ask_once(&d->in, d->scratch, d->w, 0), 35 * 1024);
}

/* The balanced test lets the fix be followed by a question too: fixing first keeps what the
 * question is worth. */
static void a_question_is_still_there_after_the_fix(void **state)
{
    call_desk *d = *state;
    cause(d, .6, 2, RISK_LOW);
    cause(d, .2, 60, RISK_LOW);
    cause(d, .2, 60, RISK_LOW);
    question(d, 5);
    for (uint32_t c = 0; c < 3; c++) says(d, 0, c, c == 2);
    choice c = step(d);
    /* fix 0 (2), then with .4 ask (5) and do the right one (60) */
    near(c.value_fix, 2 + .4 * (5 + 60));
    assert_int_equal(c.step, STEP_FIX);
    assert_int_equal(c.fix, 0);
}

static void best_question_by_bits_per_minute(void **state)
{
    call_desk *d = *state;
    for (int i = 0; i < 4; i++) cause(d, .25, 60, RISK_LOW);
    question(d, 10); /* 1 bit */
    question(d, 2);  /* .81 bits */
    for (uint32_t c = 0; c < 4; c++) {
        says(d, 0, c, c < 2);
        says(d, 1, c, c < 1);
    }
    choice c = step(d);
    assert_int_equal(c.question, 1);
    near(c.bits, 2 - .75 * log2(3));
    d->questions[0].minutes = 2;
    assert_int_equal(step(d).question, 0);
    d->questions[0].minutes = d->questions[1].minutes = 0; /* counts as a tenth of a minute */
    /* 0 or 1: the other question tells which; 2 or 3: try one, then the other. */
    near(step(d).value_ask, .1 + .5 * (.1 + 60) + .5 * (60 + .5 * 60));
}

/* Alike but for where they are, two minutes away: 1 bit in 16 minutes there and back counts as .6.
 */
static void what_is_elsewhere_counts_less(void **state)
{
    static const double way[] = {0, 2, 2, 0};
    call_desk *d = *state;
    for (int i = 0; i < 2; i++) cause(d, .5, 60, RISK_LOW);
    question(d, 12)->place = 1; /* .6 / 16 = 1 / 26.7 */
    question(d, 26)->place = 0;
    for (uint32_t q = 0; q < 2; q++)
        for (uint32_t c = 0; c < 2; c++) says(d, q, c, c < 1);
    d->in.place_count = 2;
    d->in.walk = way;
    d->in.here = 0;
    assert_int_equal(step(d).question, 1);
    d->questions[1].minutes = 27;
    assert_int_equal(step(d).question, 0);
    near(step(d).value_ask, 2 + 12 + 2 + 60); /* the fixes are here */
    d->questions[0].place = 0;                /* no way at all: 1 / 12 */
    d->questions[1].minutes = 13;
    assert_int_equal(step(d).question, 0);
    d->in.here = 1; /* both are as far: 1 / 16 against 1 / 17 */
    assert_int_equal(step(d).question, 0);
    d->in.here = NO_PLACE; /* and from nowhere nothing is far */
    d->questions[1].minutes = 11;
    assert_int_equal(step(d).question, 1);
}

static void a_question_without_a_table_teaches_nothing(void **state)
{
    call_desk *d = *state;
    two_causes(d, 11);
    d->questions[0].seen = NULL;
    choice c = step(d);
    assert_int_equal(c.step, STEP_FIX);
    near(c.bits, 0);
    near(c.value_ask, 11 + 40);
}

static void no_question_left(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    d->in.question_count = 0;
    choice c = step(d);
    assert_int_equal(c.step, STEP_FIX);
    assert_int_equal(c.question, UINT32_MAX);
    assert_true(isinf(c.value_ask));
    near(c.saves_minutes, 0);
}

static void nothing_left_to_do_but_call(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    d->fixes[0].open = d->fixes[1].open = false;
    choice c = step(d);
    assert_int_equal(c.step, STEP_CALL);
    assert_int_equal(c.fix, UINT32_MAX);
    assert_true(isinf(c.value_fix));
    near(c.value_ask, 245);
}

static void high_risk_is_never_the_next_step(void **state)
{
    call_desk *d = *state;
    cause(d, .99, 1, RISK_HIGH);
    cause(d, .01, 1, RISK_LOW);
    choice c = step(d);
    assert_int_equal(c.step, STEP_CALL);
    assert_int_equal(c.fix, UINT32_MAX);
}

static void calls_when_calling_is_cheaper(void **state)
{
    call_desk *d = *state;
    cause(d, .3, 100, RISK_LOW);
    d->w[0] = .7;
    choice c = step(d);
    assert_int_equal(c.step, STEP_CALL);
    near(c.value_fix, 100 + .7 * 240);
}

static void nothing_known_at_all_calls(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    memset(d->w, 0, sizeof d->w);
    choice c = step(d);
    assert_int_equal(c.step, STEP_CALL);
    near(c.value_ask, 245);
    near(c.bits, 0);
}

/* Thirty-two equal causes: no fix passes its gate before three answers are in, which is further
 * than the values look. */
static void many_causes(call_desk *d, double yes)
{
    d->in.rules.worth_trying[RISK_LOW] = .2;
    for (int i = 0; i < 32; i++) cause(d, 1. / 32, 10, RISK_LOW);
    for (uint32_t q = 0; q < 5; q++) {
        question(d, 2);
        for (uint32_t c = 0; c < 32; c++) says(d, q, c, c >> q & 1 ? yes : 1 - yes);
    }
}

static void goes_on_asking_while_every_fix_is_below_its_gate(void **state)
{
    call_desk *d = *state;
    many_causes(d, .95);
    choice c = step(d);
    assert_int_equal(c.fix, UINT32_MAX);
    assert_true(c.value_ask > c.value_call);
    assert_true(c.saves_minutes < 0);
    assert_int_equal(c.step, STEP_ASK);
}

/* The same with answers that hardly tell anything: five bits at this rate would take days. */
static void does_not_ask_what_would_never_lead_there(void **state)
{
    call_desk *d = *state;
    many_causes(d, .52);
    assert_int_equal(step(d).step, STEP_CALL);
}

/* Half of five bits at .7136 bits in two minutes costs 7.01 minutes; if the last cause alone can be
 * cured here in ten minutes, knowing the cause saves 230 / 32 = 7.19, in twenty 6.88. */
static void asks_on_as_long_as_knowing_saves_more(void **state)
{
    call_desk *d = *state;
    many_causes(d, .95);
    for (uint32_t f = 0; f + 1 < d->in.fix_count; f++) d->fixes[f].open = false;
    assert_int_equal(step(d).step, STEP_ASK);
    d->fixes[d->in.fix_count - 1].minutes = 20;
    assert_int_equal(step(d).step, STEP_CALL);
}

/* Knowing which of them it is saves 230 minutes of 240: at .7136 bits that is worth 65.65 minutes a
 * question, and no saving at all could be worth 68.5. */
static void asks_as_long_as_it_may_take(void **state)
{
    static const struct {
        double minutes;
        step_kind step;
    } told[] = {{65, STEP_ASK}, {66, STEP_CALL}, {68, STEP_CALL}, {69, STEP_CALL}};
    call_desk *d = *state;
    many_causes(d, .95);
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        for (uint32_t q = 0; q < d->in.question_count; q++)
            d->questions[q].minutes = told[i].minutes;
        assert_int_equal(step(d).step, told[i].step);
    }
}

/* And where no fix is open to anybody here, knowing the cause saves nothing. */
static void does_not_ask_when_no_fix_is_open(void **state)
{
    call_desk *d = *state;
    many_causes(d, .95);
    for (uint32_t f = 0; f < d->in.fix_count; f++) d->fixes[f].open = false;
    assert_int_equal(step(d).step, STEP_CALL);
}

/* Facts move the prior: rows are shares times factors and need not sum to 1 for a cause. The
 * answers keep their proportions, and no weight is won or lost by asking. */
/* ---- somebody to call ---- */

/* Who is called may do everything; the caller nothing that is not open already. */
static void somebody_to_call(call_desk *d)
{
    static bool all[CAUSES];
    static callee called = {1, all, false};
    for (uint32_t f = 0; f < d->in.fix_count; f++) all[f] = true;
    d->in.callees = &called;
    d->in.callee_count = 1;
    d->in.sends = true;
}

/* Who comes tries the quicker one first, or asks themselves if that is cheaper. */
static void a_call_costs_waiting_and_what_they_do(void **state)
{
    call_desk *d = *state;
    two_causes(d, 11);
    d->fixes[0].open = d->fixes[1].open = false;
    somebody_to_call(d);
    choice c = step(d);
    near(c.value_call, 240 + 20 + .5 * 40);
    assert_int_equal(c.step, STEP_CALL);
    d->questions[0].minutes = 5;
    c = step(d);
    near(c.value_call, 240 + 5 + .5 * 20 + .5 * 40);
    near(c.value_ask, c.value_call); /* the same minutes, whoever asks */
    assert_int_equal(c.step, STEP_CALL);
}

/* A part that is unlikely when they are called is not packed: they go twice, unless it was found
 * out before. So it is asked now, though the caller can do nothing, and who comes could ask too. */
static void an_answer_that_saves_a_second_trip_is_asked_for_who_comes(void **state)
{
    call_desk *d = *state;
    cause(d, .96, 20, RISK_LOW);
    cause(d, .04, 40, RISK_LOW);
    question(d, 5);
    says(d, 0, 0, 0);
    says(d, 0, 1, 1);
    d->fixes[0].open = d->fixes[1].open = false;
    d->fixes[1].needs_parts = true;
    somebody_to_call(d);
    choice c = step(d);
    near(c.value_call, 240 + 20 + .04 * 240); /* calling on is less than 240 and 40 */
    near(c.value_ask, 5 + 240 + .96 * 20 + .04 * 40);
    assert_int_equal(c.step, STEP_ASK);
    assert_true(c.for_callee);
    d->fixes[1].needs_parts = false;
    assert_int_equal(step(d).step, STEP_CALL);
}

/* The part for the last cause is too unlikely to be brought. So it stays unlikely that they fetch
 * it, though by then the lockout stands under which the rest of that fix takes five minutes. */
static void what_was_not_brought_is_not_done_under_a_lockout_that_stands(void **state)
{
    call_desk *d = *state;
    cause(d, .46, 15, RISK_LOW);
    cause(d, .04, 15, RISK_LOW);
    cause(d, .5, 5, RISK_LOW);
    d->cures[0].chance = .1;
    for (uint32_t f = 0; f < 2; f++) {
        d->fixes[f].set_up = 1;
        d->fixes[f].set_up_minutes = 10;
    }
    for (uint32_t f = 0; f < 3; f++) d->fixes[f].open = false;
    somebody_to_call(d);
    near(step(d).value_call, 240 + 5 + .5 * 15 + .5 * 5 + .46 * .9 * 240);
    d->fixes[1].needs_parts = true;
    near(step(d).value_call, 240 + 5 + .5 * 15 + (.46 * .9 + .04) * 240);
}

/* An answer that leads to a fix of one's own is asked for oneself. */
static void what_one_can_use_oneself_is_not_asked_for_who_comes(void **state)
{
    call_desk *d = *state;
    two_causes(d, 1);
    somebody_to_call(d);
    choice c = step(d);
    assert_int_equal(c.step, STEP_ASK);
    assert_false(c.for_callee);
}

/* Where hardly anything is theirs to cure, they are passed over: somebody from outside comes, who
 * is taken to know what it is. So nothing is ever worth less for being known. */
static void who_can_do_nothing_about_it_is_passed_over(void **state)
{
    call_desk *d = *state;
    two_causes(d, 500);
    d->fixes[0].open = d->fixes[1].open = false;
    somebody_to_call(d);
    d->in.sends = false;
    d->w[0] = 1 - (d->w[1] = .1) - (d->w[2] = .05);
    choice c = step(d);
    near(c.value_call, 240 + .85 * 240 + .1 * 20 + .05 * 40);
    assert_int_equal(c.callee, NO_CALLEE);
    d->w[0] = 1 - (d->w[1] = .15) - (d->w[2] = .1);
    c = step(d);
    near(c.value_call, 240 + .75 * 240 + .15 * 20 + .1 * 40);
    assert_int_equal(c.callee, 0);
}

/* Whoever asks for help is sent to the next, however little that one can do; the call-out is then
 * all that is counted. */
static void who_asks_for_help_is_never_left_alone(void **state)
{
    call_desk *d = *state;
    two_causes(d, 500);
    d->fixes[0].open = d->fixes[1].open = false;
    somebody_to_call(d);
    d->w[0] = 1 - (d->w[1] = .1) - (d->w[2] = .05);
    choice c = step(d);
    near(c.value_call, 240);
    assert_int_equal(c.callee, 0);
    d->w[0] = 1 - (d->w[1] = .15) - (d->w[2] = .1);
    assert_true(step(d).value_call > 240);
}

static void facts_that_move_the_prior(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    d->rows[0][0] = .5;
    d->rows[0][1] = .5 * 3; /* yes makes cause 0 three times as likely */
    d->rows[0][2] = .5;
    d->rows[0][3] = .5;
    double no = .25 + .25, yes = .75 + .25, scale = 1 / (no + yes);
    double value = 5 + scale * (20 * no + 40 * .25) + scale * (20 * yes + 40 * .25);
    near(choose_ask_once(&d->in, d->scratch, d->w, 0), value);
    near(step(d).value_ask, value);
}

static void the_short_list_bounds_what_is_looked_at(void **state)
{
    call_desk *d = *state;
    two_causes(d, 5);
    question(d, 1); /* .03 bits a minute or so: not on a list of one */
    says(d, 1, 0, .45);
    d->in.rules.short_list = 1;
    near(step(d).value_ask, 35);
    d->in.rules.short_list = 0;
    choice c = step(d);
    assert_int_equal(c.question, UINT32_MAX);
    assert_int_equal(c.step, STEP_FIX);
}

static void scratch_is_given_back(void **state)
{
    call_desk *d = *state;
    many_causes(d, .95);
    size_t before = arena_size(d->scratch);
    step(d);
    choose_ask_once(&d->in, d->scratch, d->w, 0);
    assert_int_equal(arena_size(d->scratch), before);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_is_done_under_one_lockout_is_near_where_one_stands),
        TEST(what_leaves_a_fix_at_its_threshold_settles_nothing),
        TEST(the_three_looks_that_tell_most_a_minute_are_weighed),
        TEST(asks_when_an_answer_saves_more_than_it_costs),
        TEST(fixes_when_asking_costs_more_than_it_saves),
        TEST(even_goes_to_the_fix),
        TEST(even_between_fix_and_call_goes_to_the_fix),
        TEST(between_equal_questions_the_first_one),
        TEST(weights_need_not_sum_to_one),
        TEST(a_question_is_still_there_after_the_fix),
        TEST(best_question_by_bits_per_minute),
        TEST(what_is_elsewhere_counts_less),
        TEST(a_question_without_a_table_teaches_nothing),
        TEST(no_question_left),
        TEST(nothing_left_to_do_but_call),
        TEST(high_risk_is_never_the_next_step),
        TEST(calls_when_calling_is_cheaper),
        TEST(nothing_known_at_all_calls),
        TEST(goes_on_asking_while_every_fix_is_below_its_gate),
        TEST(does_not_ask_what_would_never_lead_there),
        TEST(asks_on_as_long_as_knowing_saves_more),
        TEST(asks_as_long_as_it_may_take),
        TEST(does_not_ask_when_no_fix_is_open),
        TEST(a_call_costs_waiting_and_what_they_do),
        TEST(an_answer_that_saves_a_second_trip_is_asked_for_who_comes),
        TEST(what_was_not_brought_is_not_done_under_a_lockout_that_stands),
        TEST(what_one_can_use_oneself_is_not_asked_for_who_comes),
        TEST(who_can_do_nothing_about_it_is_passed_over),
        TEST(who_asks_for_help_is_never_left_alone),
        TEST(facts_that_move_the_prior),
        TEST(the_short_list_bounds_what_is_looked_at),
        TEST(scratch_is_given_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
