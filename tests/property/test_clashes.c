/* Answers that clash, in the shipped books: calls of `rehearse` with about as many answers as a
 * case asks for, in which hardly any clash is told, and what is said of the chance that one of the
 * two was read amiss is so as often as that; and with all answers and one put in that the cause
 * hardly ever gives, which is told. What is found without one answer after the other is what a
 * belief weighed anew without each of them says.
 *
 * TT_CLASH_CALLS: so many calls instead. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "believe/belief_parts.h"
#include "believe/clash.h"
#include "rehearse/made_call.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

static arena *a;

typedef struct counts {
    uint32_t calls, alarms, false_alarms, planted, found;
    double amiss; /* sum of what was said of the chance that one of the two is read amiss */
} counts;

/* One in so many, another part in each call. */
static bool is_told(const made_call *call, uint32_t question, uint32_t one_in)
{
    dice d = dice_for(call->from->seed, call->number, DICE_NUMBERS, question);
    return dice_below(&d, one_in) == 0;
}

static void tell(tt_case *c, const made_call *call, uint32_t one_in)
{
    const program *p = call->from->prog;
    for (uint32_t q = 0; q < p->book->question_count; q++) {
        if (!p->is_evidence[q] || p->book->questions[q].gate || !is_told(call, q, one_in)) continue;
        const tt_reply said = call_reply(call, q, 0);
        if (tt_answer(c, q, &said) == TT_NO_MEMORY) fail_msg("no memory");
    }
}

static bool clashes(tt_case *c, arena *scratch, clash *out)
{
    const tt_view *view;
    assert_int_equal(tt_look(c, &view), TT_OK);
    const uint32_t questions = c->book->book->question_count;
    bool *may = ARENA_ARRAY(scratch, bool, questions);
    for (uint32_t q = 0; q < questions; q++) may[q] = c->now.weights[q] != NULL;
    const evidence seen = case_evidence(c);
    return belief_clash(c->now.single, c->now.pairs, scratch, &seen, may, out);
}

static bool is_amiss(const made_call *call, uint32_t question)
{
    return call_seen(call, question, 0) != call->state[question];
}

static const double *row_of(const prediction *p, uint32_t cause)
{
    for (uint32_t i = 0; i < p->listed_count; i++)
        if (p->listed[i] == cause) return p->rows + (size_t)i * p->states;
    return p->base;
}

/* ---- the slow twin: all anew without an answer ---- */

static belief *weighed_without(const belief *single, arena *scratch, const evidence *seen,
                               uint32_t gone, uint32_t gone_too, evidence *left)
{
    const uint32_t findings = single->n->in.finding_count;
    const double **weights = ARENA_ARRAY(scratch, const double *, findings);
    memcpy(weights, seen->weights, findings * sizeof *weights);
    weights[gone] = weights[gone_too] = NULL;
    *left = (evidence){.weights = weights, .looks = seen->looks, .person = seen->person};
    belief *b = belief_new(scratch, single->n, 1);
    belief_weigh(b, left, NULL);
    return b;
}

static double weight_of(const belief *single, const belief *left, uint32_t h)
{
    return single->log_prior[h] + history_of(single, h) +
           single->n->in.answers_count * belief_log_says(left, h);
}

static double twin_fit(const belief *single, arena *scratch, const evidence *seen, uint32_t gone)
{
    evidence left;
    uint32_t best = 1;
    const belief *b = weighed_without(single, scratch, seen, gone, gone, &left);
    for (uint32_t h = 2; h <= single->causes; h++)
        if (weight_of(single, b, h) > weight_of(single, b, best)) best = h;
    return belief_fit(b, scratch, &left, best);
}

static double twin_mean(const belief *single, arena *scratch, const evidence *seen, uint32_t gone,
                        uint32_t gone_too)
{
    evidence left;
    double top = -INFINITY, sum = 0;
    const belief *b = weighed_without(single, scratch, seen, gone, gone_too, &left);
    for (uint32_t h = 0; h <= single->causes; h++) top = fmax(top, weight_of(single, b, h));
    for (uint32_t h = 0; h <= single->causes; h++) sum += exp(weight_of(single, b, h) - top);
    return top + log(sum);
}

static void assert_as_the_twin_has_it(tt_case *c, const clash *found)
{
    arena *scratch = test_arena();
    const evidence seen = case_evidence(c);
    const belief *single = c->now.single;
    const double of_weaker = twin_fit(single, scratch, &seen, found->weaker),
                 of_other = twin_mean(single, scratch, &seen, found->other, found->other) -
                            twin_mean(single, scratch, &seen, found->other, found->weaker);
    assert_true(fabs(of_weaker - log(found->fit * found->raised)) < 1e-9);
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        if (c->now.weights[q] == NULL || !c->book->prog->is_evidence[q]) continue;
        assert_true(twin_fit(single, scratch, &seen, q) <= of_weaker + 1e-9);
        if (q == found->weaker) continue;
        assert_true(twin_mean(single, scratch, &seen, q, q) -
                        twin_mean(single, scratch, &seen, q, found->weaker) <=
                    of_other + 1e-9);
    }
    arena_free(scratch);
}

/* ---- one put in ---- */

/* The answer that this cause gives least, to one of the questions that nothing is reckoned from. */
static double least_of(tt_case *c, arena *scratch, uint32_t cause, uint32_t *question,
                       uint32_t *state)
{
    const evidence seen = case_evidence(c);
    double least = 1;
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        if (!c->book->prog->is_evidence[q] || c->now.weights[q] == NULL ||
            c->book->book->questions[q].kind != QUESTION_CHOICE)
            continue;
        const prediction p = belief_foresee(scratch, c->now.single, &seen, q);
        for (uint32_t y = 0; y < p.states; y++) {
            if (row_of(&p, cause)[y] >= least) continue;
            least = row_of(&p, cause)[y];
            *question = q;
            *state = y;
        }
    }
    return least;
}

static void plant(tt_case *c, arena *scratch, uint32_t cause, counts *n)
{
    uint32_t question = 0, state = 0, option = 0;
    clash found;
    if (least_of(c, scratch, cause, &question, &state) > 0.005) return;
    const struct question *q = &c->book->book->questions[question];
    while (q->shown_order[option] != state) option++;
    const tt_reply said = {.kind = TT_ANSWER, .option = option};
    assert_int_equal(tt_answer(c, question, &said), TT_OK);
    n->planted++;
    if (!clashes(c, scratch, &found)) return;
    n->found += found.weaker == question || found.other == question;
    assert_as_the_twin_has_it(c, &found);
}

/* ---- calls ---- */

typedef struct calls {
    tt_book *book;
    world in;
    made_from from;
    arena *keep, *scratch; /* of one call */
    counts n;
} calls;

static void play(calls *all, uint64_t number, uint32_t one_in,
                 void (*judge)(calls *all, tt_case *c, const made_call *call))
{
    tt_case *c;
    made_call call;
    all->keep = arena_new(NULL, NULL);
    all->scratch = arena_new(NULL, NULL);
    assert_int_equal(tt_case_new(all->book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    assert_int_equal(call_draw(all->keep, all->scratch, &all->from, &all->in, number, c, &call),
                     TT_OK);
    tell(c, &call, one_in);
    all->n.calls++;
    judge(all, c, &call);
    tt_case_free(c);
    arena_free(all->keep);
    arena_free(all->scratch);
}

static void judge_as_it_is(calls *all, tt_case *c, const made_call *call)
{
    clash found;
    counts *n = &all->n;
    if (!clashes(c, all->scratch, &found)) return;
    n->alarms++;
    n->amiss += found.amiss;
    n->false_alarms += !is_amiss(call, found.weaker) && !is_amiss(call, found.other);
}

static void judge_planted(calls *all, tt_case *c, const made_call *call)
{
    clash found;
    if (call->size == 1 && !clashes(c, all->scratch, &found))
        plant(c, all->scratch, call->causes[0], &all->n);
}

static uint32_t wanted_calls(uint32_t usual)
{
    const char *wanted = getenv("TT_CLASH_CALLS");
    return wanted != NULL ? (uint32_t)strtoul(wanted, NULL, 10) : usual;
}

/* Over all shipped books; tells of each. */
static counts play_books(uint32_t each, uint32_t one_in,
                         void (*judge)(calls *all, tt_case *c, const made_call *call))
{
    shipped_book books[SHIPPED_MOST];
    const uint32_t count = shipped_books(a, books);
    counts sum = {0};
    for (uint32_t i = 0; i < count; i++) {
        calls all = {.book = shipped_load(a, &books[i])};
        all.in = world_written(a, all.book->prog);
        all.from = (made_from){.prog = all.book->prog, .seed = 5};
        for (uint64_t k = 0; k < each; k++) play(&all, k, one_in, judge);
        print_message("%s: %u calls, told in %u, nothing read amiss in %u of them, %.1f expected; "
                      "planted %u, found %u\n",
                      books[i].folder, all.n.calls, all.n.alarms, all.n.false_alarms,
                      all.n.alarms - all.n.amiss, all.n.planted, all.n.found);
        sum.calls += all.n.calls;
        sum.alarms += all.n.alarms;
        sum.false_alarms += all.n.false_alarms;
        sum.planted += all.n.planted;
        sum.found += all.n.found;
        sum.amiss += all.n.amiss;
        tt_book_free(all.book);
    }
    return sum;
}

static void hardly_any_are_told_without_cause(void **state)
{
    (void)state;
    const counts n = play_books(wanted_calls(134), 4, judge_as_it_is);
    const double expected = n.alarms - n.amiss;
    assert_true(n.calls >= 400);
    assert_true(n.false_alarms <= 0.05 * n.calls);
    assert_true(fabs(n.false_alarms - expected) <= 3 * sqrt(expected + 1));
}

static void planted_clashes_are_found(void **state)
{
    (void)state;
    const counts n = play_books(wanted_calls(10), 1, judge_planted);
    assert_true(n.planted > 0);
    assert_true(n.found >= 0.6 * n.planted);
}

static int begin(void **state)
{
    (void)state;
    a = test_arena();
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hardly_any_are_told_without_cause),
        cmocka_unit_test(planted_clashes_are_found),
    };
    return cmocka_run_group_tests_name("clashes", tests, begin, NULL);
}
