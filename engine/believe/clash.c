/* Two answers that don't fit together. */
#include "believe/clash.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "believe/doubting.h"
#include "compile/misread.h"

/* ---- what one would hear ---- */

/* Chance of each answer to one question, from a row of its component. */
static void answers_of_row(const net *n, const component *g, uint32_t slot, const double *row,
                           double *answers)
{
    const net_finding *f = &n->in.findings[g->findings[slot]];
    const misreading m = misreading_of(f);
    double states[EXPR_STATES_MAX] = {0};
    for (uint32_t x = 0; x < g->cell_count; x++)
        states[x / g->stride[slot] % f->states] += g->within[x] * row[g->cell_atom[x]];
    misread_states(&m, states, 1, answers);
}

/* ln of the chance of the likeliest answer to one question by itself. */
static double log_likeliest(const belief *b, arena *scratch, uint32_t finding, uint32_t hypothesis)
{
    const net *n = b->n;
    const component *g = &n->components[n->component_of[finding]];
    double *row = ARENA_ARRAY(scratch, double, g->atom_count), answers[EXPR_STATES_MAX], most = 0;
    belief_row(b, n->component_of[finding], hypothesis, row);
    answers_of_row(n, g, n->slot_of[finding], row, answers);
    for (uint32_t y = 0; y < n->in.findings[finding].states; y++) most = fmax(most, answers[y]);
    assert(most > 0 && most <= 1 + 1e-9);
    return log(most);
}

static double over_likeliest(const belief *b, arena *scratch, const evidence *seen, double says,
                             uint32_t hypothesis)
{
    const arena_mark mark = arena_here(scratch);
    for (uint32_t f = 0; f < b->n->in.finding_count; f++)
        if (doubting_is_seen(b, seen, f)) says -= log_likeliest(b, scratch, f, hypothesis);
    arena_back_to(scratch, mark);
    return says;
}

double belief_fit(const belief *b, arena *scratch, const evidence *seen, uint32_t hypothesis)
{
    return over_likeliest(b, scratch, seen, belief_log_says(b, hypothesis), hypothesis);
}

/* ---- the fit of what is left ---- */

static const double *like_of(doubting *d, uint32_t hypothesis)
{
    if (d->like[hypothesis] != NULL) return d->like[hypothesis];
    double *like = ARENA_ARRAY(d->scratch, double, d->seen_count);
    for (uint32_t i = 0; i < d->seen_count; i++) {
        const arena_mark mark = arena_here(d->scratch);
        like[i] = log_likeliest(d->b, d->scratch, d->seen[i], hypothesis);
        arena_back_to(d->scratch, mark);
    }
    return d->like[hypothesis] = like;
}

/* As over_likeliest. */
static double fit_of(doubting *d, double says, uint32_t hypothesis)
{
    const double *like = like_of(d, hypothesis);
    for (uint32_t i = 0; i < d->seen_count; i++)
        if (d->weights[d->seen[i]] != NULL) says -= like[i];
    return says;
}

static double log_weight(const doubting *d, uint32_t hypothesis)
{
    const belief *b = d->b;
    return b->log_prior[hypothesis] + history_of(b, hypothesis) +
           b->n->in.answers_count * d->says[hypothesis];
}

static uint32_t likeliest(const doubting *d)
{
    uint32_t best = 1;
    for (uint32_t h = 2; h <= d->b->causes; h++)
        if (log_weight(d, h) > log_weight(d, best)) best = h;
    return best;
}

static double fit_left(doubting *d)
{
    doubting_weigh(d);
    const uint32_t best = likeliest(d);
    return fit_of(d, d->says[best], best);
}

/* ---- the likeliest, without looking at all ---- */

/* Of the same weight in any order: all of them are looked at. */
static int by_falling_weight(const void *x, const void *y)
{
    const weighed *a = x, *b = y;
    return THREE_WAY(b->weight, a->weight);
}

/* From here on fit_without need not weigh all causes. With all answers weighed. */
static void keep_order(doubting *d)
{
    const uint32_t causes = d->b->causes;
    d->by_weight = ARENA_ARRAY(d->scratch, weighed, causes);
    d->moved = ARENA_ARRAY(d->scratch, bool, (size_t)causes + 1);
    for (uint32_t h = 1; h <= causes; h++) d->by_weight[h - 1] = (weighed){log_weight(d, h), h};
    SORT(d->by_weight, causes, by_falling_weight);
}

static void mark_moved(doubting *d, bool moved)
{
    for (uint32_t i = 0; i < d->touched_count; i++) {
        const joined *j = &d->whole.groups[d->touched[i]];
        for (uint32_t k = 0; k < j->listed_count; k++) d->moved[1 + j->listed[k]] = moved;
    }
}

/* The heavier of the two; of the same weight the one in front. 0: none. */
static uint32_t heavier(const doubting *d, uint32_t a, uint32_t b)
{
    if (a == 0 || b == 0) return a + b;
    const double of_a = log_weight(d, a), of_b = log_weight(d, b);
    return of_a > of_b || (of_a == of_b && a < b) ? a : b;
}

/* What no answer left out says something of keeps its order; but what is added to all of them may
 * be rounded otherwise, so those that are almost as heavy as the heaviest are looked at, too. */
static uint32_t heaviest_unmoved(doubting *d, double base)
{
    static const double rounding = 1e-6;
    uint32_t best = 0;
    double top = -INFINITY;
    for (uint32_t i = 0; i < d->b->causes; i++) {
        const uint32_t h = d->by_weight[i].hypothesis;
        const double weight = d->by_weight[i].weight;
        if (d->moved[h]) continue;
        if (best != 0 && weight < top - rounding) break;
        if (best == 0) top = weight;
        d->says[h] = d->sums[h] + base;
        best = heavier(d, best, h);
    }
    return best;
}

/* As fit_left, to the same bytes; false: what is left has to be joined anew. */
static bool fit_touched(doubting *d, double *fit)
{
    const arena_mark mark = arena_here(d->scratch);
    touched_says t;
    double other;
    if (!doubting_touched(d, &t)) return false;
    const double base = doubting_base(d, &t, &other);
    mark_moved(d, true);
    uint32_t best = heaviest_unmoved(d, base);
    for (uint32_t i = 0; i < d->touched_count; i++) {
        const joined *j = &d->whole.groups[d->touched[i]];
        for (uint32_t k = 0; k < j->listed_count; k++) {
            const uint32_t h = 1 + j->listed[k];
            d->says[h] = doubting_sum(d, &t, j->listed[k]) + base;
            best = heavier(d, best, h);
        }
    }
    mark_moved(d, false);
    arena_back_to(d->scratch, mark);
    *fit = fit_of(d, d->says[best], best);
    return true;
}

/* ln of the chance of the answers left, on the mean over hypotheses. */
static double log_mean(doubting *d)
{
    double top = -INFINITY, sum = 0;
    doubting_weigh(d);
    for (uint32_t h = 0; h <= d->b->causes; h++) top = fmax(top, log_weight(d, h));
    for (uint32_t h = 0; h <= d->b->causes; h++) sum += exp(log_weight(d, h) - top);
    return isinf(top) ? top : top + log(sum);
}

static double fit_without(doubting *d, uint32_t finding)
{
    const double *had = d->weights[finding];
    d->weights[finding] = NULL;
    doubting_touch(d, finding, false);
    double fit;
    if (!fit_touched(d, &fit)) fit = fit_left(d);
    doubting_touch(d, finding, true);
    d->weights[finding] = had;
    return fit;
}

/* How likely the weaker answer is once this one is left out, too. */
static double expected_without(doubting *d, uint32_t weaker, uint32_t finding)
{
    const double *its = d->weights[finding], *weak = d->weights[weaker];
    d->weights[finding] = NULL;
    doubting_touch(d, finding, false);
    const double both = log_mean(d);
    d->weights[weaker] = NULL;
    doubting_touch(d, weaker, false);
    const double rest = log_mean(d);
    doubting_touch(d, weaker, true);
    doubting_touch(d, finding, true);
    d->weights[weaker] = weak;
    d->weights[finding] = its;
    return both - rest;
}

/* ---- the two ---- */

static bool find_weaker(doubting *d, const bool *may, double fit, clash *out)
{
    double best = -INFINITY;
    for (uint32_t i = 0; i < d->seen_count; i++) {
        const uint32_t f = d->seen[i];
        if (!may[f]) continue;
        const double without = fit_without(d, f);
        if (without <= best) continue;
        best = without;
        out->weaker = f;
    }
    out->fit = exp(fit);
    out->raised = exp(best - fit);
    return out->raised >= CLASH_RAISED_BY;
}

static bool find_other(doubting *d, const bool *may, clash *out)
{
    double best = -INFINITY;
    bool any = false;
    for (uint32_t i = 0; i < d->seen_count; i++) {
        const uint32_t f = d->seen[i];
        if (f == out->weaker || !may[f]) continue;
        const double expected = expected_without(d, out->weaker, f);
        if (any && expected <= best) continue;
        best = expected;
        out->other = f;
        any = true;
    }
    return any;
}

/* ---- read amiss ---- */

/* From here on the last look at it counts only as far as it was read right. */
static void take_as_right(doubting *d, uint32_t finding)
{
    sighting one;
    const looks all = looks_at(d->b->n, &d->left, finding, &one);
    assert(all.count > 0);
    sighting *items = ARENA_ARRAY(d->scratch, sighting, all.count);
    for (uint32_t l = 0; l < all.count; l++) items[l] = all.items[l];
    items[all.count - 1].right = true;
    d->looks[finding] = (looks){items, all.count};
}

double belief_amiss(const belief *single, arena *scratch, const evidence *seen, uint32_t one,
                    uint32_t other)
{
    const arena_mark mark = arena_here(scratch);
    const uint32_t count = single->causes + 1;
    assert(single->count == count && one != other);
    doubting d = doubting_of(single, scratch, seen);
    double *all = ARENA_ARRAY(scratch, double, count), right = 0;
    doubting_weigh_left(&d);
    for (uint32_t h = 0; h < count; h++) all[h] = d.says[h];
    take_as_right(&d, one);
    take_as_right(&d, other); /* nothing of the whole is kept here: the looks themselves change */
    doubting_weigh_left(&d);
    for (uint32_t h = 0; h < count; h++)
        right += single->posterior[h] * exp(fmin(0, d.says[h] - all[h]));
    assert(right >= 0 && right <= 1 + 1e-9);
    arena_back_to(scratch, mark);
    return 1 - fmin(1, right);
}

/* ---- all of it ---- */

static bool fits_a_pair(const belief *pairs, arena *scratch, const evidence *seen)
{
    uint32_t best = 0;
    const double *p = pairs == NULL ? NULL : pairs->posterior;
    for (uint32_t h = pairs == NULL ? 0 : pairs->causes + 1; p != NULL && h < pairs->count; h++)
        if (best == 0 || p[h] > p[best]) best = h;
    return best > 0 && belief_fit(pairs, scratch, seen, best) >= log(CLASH_LESS_LIKELY_THAN);
}

bool belief_clash(const belief *single, const belief *pairs, arena *scratch, const evidence *seen,
                  const bool *may, clash *out)
{
    const arena_mark mark = arena_here(scratch);
    doubting d = doubting_of(single, scratch, seen);
    *out = (clash){0};
    doubting_whole(&d);
    bool found = single->causes > 0 && !single->all_ruled_out;
    const double fit = found ? fit_left(&d) : 0;
    found = found && fit < log(CLASH_LESS_LIKELY_THAN) && !fits_a_pair(pairs, scratch, seen);
    if (found) keep_order(&d);
    found = found && find_weaker(&d, may, fit, out) && find_other(&d, may, out);
    if (found) out->amiss = belief_amiss(single, scratch, seen, out->weaker, out->other);
    found = found && out->amiss >= CLASH_AMISS;
    arena_back_to(scratch, mark);
    return found;
}
