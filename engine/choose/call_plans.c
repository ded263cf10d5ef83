/* Plans of whoever is called next: a course of fixes made for what may be known by then, before it
 * up to two questions. A plan costs a fixed number of minutes for each thing that may be wrong, so
 * what it costs on any weights is a sum of products. */
#include "choose/call_plans.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "choose/answer.h"
#include "choose/course_value.h"

typedef struct plan_maker {
    arena *keep;
    calling *c;
    fix_course *own;
    const double *now;
    const uint32_t *listed;
    uint32_t listed_count, most_states, width;
    /* what is left of `now` when everything of one's own that is worth it has failed */
    double *start;
    double *after, *even, *survives;
    double *scale;         /* [place in the list] of its answers */
    const double **others; /* room for what such plans cost: those that are compared */
    double *values;
    const double **asks_one; /* [place in the list] the plan that asks it, or null */
    const double **rest;     /* [place in the list × answers] its part after that answer */
} plan_maker;

/* ---- what a plan costs ---- */

static void add_run_course(fix_course *run, const fix_course *caller, const double *w,
                           double *survives, double *minutes);

/* `who` was found by best_callee for what the caller leaves, so their course was run for it. */
static void add_call_of(const fix_course *caller, uint32_t who, double *survives, double *minutes)
{
    const choice_input *in = caller->in;
    const double *least = may_call_outside(caller) ? caller->calls->least : NULL;
    for (uint32_t h = 0; h <= in->cause_count; h++)
        minutes[h] += (in->rules.call_minutes + (least != NULL ? least[h] : 0)) * survives[h];
    if (who == NO_CALLEE || least != NULL) return;
    add_run_course(caller->calls->of[who], caller, caller->left, survives, minutes);
}

static void add_call(fix_course *caller, double *survives, double *minutes)
{
    double value;
    const double total = fix_course_total(caller);
    add_call_of(caller, best_callee(caller, caller->left, total, &value), survives, minutes);
}

/* The course that is best for weights w, and was run for them last. */
static void add_run_course(fix_course *run, const fix_course *caller, const double *w,
                           double *survives, double *minutes)
{
    fix_course_begin(run, caller, w);
    run->total = run->first_total;
    for (uint32_t i = 0; i < run->best_length;) {
        const uint32_t end = i + 1 < run->best_length && run->joined[i + 1] ? i + 2 : i + 1;
        for (uint32_t k = i; k < end; k++)
            fix_course_add_cost(run, run->order[k], run->joined[k], survives, minutes);
        for (; i < end; i++) {
            fix_failed(&run->in->fixes[run->order[i]], survives);
            fix_course_try(run, run->order[i]);
        }
    }
    add_call(run, survives, minutes);
}

static void add_course(fix_course *run, const fix_course *caller, const double *w, double *survives,
                       double *minutes)
{
    fix_course_after(run, caller, w);
    add_run_course(run, caller, w, survives, minutes);
}

/* ---- the list of plans ---- */

static double *empty_plan(plan_maker *m)
{
    return ARENA_ARRAY(m->keep, double, m->width);
}

static void keep_plan(plan_maker *m, const double *minutes)
{
    call_plans *all = &m->c->plans;
    for (uint32_t i = 0; i < all->count; i++)
        if (memcmp(all->minutes[i], minutes, m->width * sizeof *minutes) == 0) return;
    assert(all->count < all->room);
    all->minutes[all->count++] = minutes;
}

static void set_all(double *row, uint32_t count, double value)
{
    for (uint32_t h = 0; h < count; h++) row[h] = value;
}

/* When everything of one's own that is worth it was tried. Who comes then? NO_CALLEE: not those of
 * whom plans are made. */
static uint32_t comes_at_the_end(plan_maker *m, const double *w, double total)
{
    double value;
    fix_course_begin(m->own, NULL, w);
    m->own->total = total;
    fix_course_try_all(m->own);
    uint32_t who = best_callee(m->own, m->own->left, fix_course_total(m->own), &value);
    bool next = who != NO_CALLEE && m->c->in->callees[who].level == m->c->in->callees[0].level;
    return next ? who : NO_CALLEE;
}

/* Nothing is asked: the own course is done with, and whoever comes follows theirs. */
static void plan_without_asking(plan_maker *m, const double *w, double total)
{
    double *minutes = empty_plan(m);
    const uint32_t who = comes_at_the_end(m, w, total);
    if (who == NO_CALLEE) return;
    set_all(m->survives, m->width, 1);
    add_call_of(m->own, who, m->survives, minutes);
    keep_plan(m, minutes);
}

static const prediction *seen_of(const plan_maker *m, uint32_t place)
{
    assert(place < m->listed_count);
    return m->c->in->questions[m->listed[place]].seen;
}

static void plans_without_asking(plan_maker *m)
{
    plan_without_asking(m, m->now, weights_total(m->now, m->width - 1));
    for (uint32_t i = 0; i < m->listed_count; i++)
        for (uint32_t y = 0; seen_of(m, i) != NULL && y < seen_of(m, i)->states; y++) {
            const double total =
                weights_after(seen_of(m, i), m->now, m->c->in->cause_count, y, m->after);
            plan_without_asking(m, m->after, total);
        }
    m->c->plans.up_to[0] = m->c->plans.count;
}

/* ---- they ask ---- */

static double *plan_with_question(plan_maker *m, uint32_t place)
{
    const choice_input *in = m->c->in;
    double *minutes = arena_take_unset(m->keep, m->width * sizeof *minutes);
    set_all(minutes, m->width,
            in->rules.call_minutes + minutes_of(&in->questions[m->listed[place]]));
    return minutes;
}

static void add_to(double *sum, const double *more, uint32_t count)
{
    for (uint32_t h = 0; h < count; h++) sum[h] += more[h];
}

/* What comes after answer y: a course with the parts that were brought. */
static const double *rest_after(plan_maker *m, fix_course *next, uint32_t place, uint32_t y,
                                double scale)
{
    const choice_input *in = m->c->in;
    double *rest = empty_plan(m);
    set_all(m->even, m->width, scale);
    weights_of_answer(seen_of(m, place), m->even, in->cause_count, y, m->survives);
    weights_of_answer(seen_of(m, place), m->start, in->cause_count, y, m->after);
    add_course(next, m->own, m->after, m->survives, rest);
    return rest;
}

static double scale_of(plan_maker *m, uint32_t place)
{
    return scale_of_answers(seen_of(m, place), m->start, m->c->in->cause_count, m->after);
}

static void plan_one_question(plan_maker *m, fix_course *next, uint32_t place)
{
    double *minutes = plan_with_question(m, place);
    const double scale = m->scale[place] = scale_of(m, place);
    if (scale <= 0) return;
    for (uint32_t y = 0; y < seen_of(m, place)->states; y++) {
        const double *rest = rest_after(m, next, place, y, scale);
        m->rest[place * m->most_states + y] = rest;
        add_to(minutes, rest, m->width);
    }
    m->asks_one[place] = minutes;
    keep_plan(m, minutes);
}

/* After answer y: the other questions' plans, or the course. */
static void add_best_after(plan_maker *m, uint32_t place, uint32_t y, double scale, double *minutes)
{
    const choice_input *in = m->c->in;
    const double wait = in->rules.call_minutes, *rest = m->rest[place * m->most_states + y],
                 *other = NULL;
    double total = scale * weights_after(seen_of(m, place), m->start, in->cause_count, y, m->after);
    double best = plan_value(rest, m->start, in->cause_count, INFINITY);
    uint32_t count = 0;
    for (uint32_t i = 0; i < m->listed_count; i++)
        if (i != place && m->asks_one[i] != NULL) m->others[count++] = m->asks_one[i];
    plan_values(m->others, count, m->after, in->cause_count, m->values);
    for (uint32_t i = 0; i < count; i++) {
        const double value = scale * m->values[i] - wait * total;
        if (value < best) other = m->others[i];
        best = fmin(best, value);
    }
    if (other == NULL) {
        add_to(minutes, rest, m->width);
        return;
    }
    set_all(m->even, m->width, scale);
    weights_of_answer(seen_of(m, place), m->even, in->cause_count, y, m->survives);
    for (uint32_t h = 0; h < m->width; h++) minutes[h] += m->survives[h] * (other[h] - wait);
}

static void plan_two_questions(plan_maker *m, uint32_t place)
{
    if (m->asks_one[place] == NULL) return;
    double *minutes = plan_with_question(m, place);
    for (uint32_t y = 0; y < seen_of(m, place)->states; y++)
        add_best_after(m, place, y, m->scale[place], minutes);
    keep_plan(m, minutes);
}

static void plans_with_questions(plan_maker *m)
{
    const uint32_t who = comes_at_the_end(m, m->now, weights_total(m->now, m->width - 1));
    m->c->plans.up_to[1] = m->c->plans.up_to[2] = m->c->plans.count;
    if (who == NO_CALLEE) return;
    memcpy(m->start, m->own->left, m->width * sizeof *m->start);
    fix_course *next = m->c->of[who];
    fix_course_begin(next, m->own, m->start);
    fix_course_pack(next);
    next->packed = true;
    for (uint32_t i = 0; i < m->listed_count; i++)
        if (seen_of(m, i) != NULL) plan_one_question(m, next, i);
    m->c->plans.up_to[1] = m->c->plans.count;
    for (uint32_t i = 0; i < m->listed_count; i++) plan_two_questions(m, i);
    m->c->plans.up_to[2] = m->c->plans.count;
    next->packed = false;
}

static uint32_t most_states(const choice_input *in, const uint32_t *listed, uint32_t count)
{
    uint32_t most = 0;
    for (uint32_t i = 0; i < count; i++) {
        const prediction *seen = in->questions[listed[i]].seen;
        if (seen != NULL && seen->states > most) most = seen->states;
    }
    return most;
}

void make_call_plans(arena *keep, fix_course *own, const double *now, const uint32_t *listed,
                     uint32_t listed_count)
{
    const choice_input *in = own->in;
    if (in->callee_count == 0 || !in->sends) return;
    plan_maker m = {.keep = keep,
                    .c = own->calls,
                    .own = own,
                    .now = now,
                    .listed = listed,
                    .listed_count = listed_count};
    m.width = in->cause_count + 1;
    m.most_states = most_states(in, listed, listed_count);
    m.start = empty_plan(&m);
    m.after = empty_plan(&m);
    m.even = empty_plan(&m);
    m.survives = empty_plan(&m);
    m.others = ARENA_ARRAY(keep, const double *, listed_count);
    m.values = ARENA_ARRAY(keep, double, listed_count);
    m.scale = ARENA_ARRAY(keep, double, listed_count);
    m.asks_one = ARENA_ARRAY(keep, const double *, listed_count);
    m.rest = ARENA_ARRAY(keep, const double *, (size_t)listed_count *m.most_states);
    m.c->plans.room = 1 + listed_count * (m.most_states + 2);
    m.c->plans.minutes = ARENA_ARRAY(keep, const double *, m.c->plans.room);
    plans_without_asking(&m);
    plans_with_questions(&m);
}
