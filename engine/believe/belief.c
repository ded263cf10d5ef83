/* The posterior over causes: the weights of all hypotheses after the answers, and what is read from
 * them. */
#include "believe/belief.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "believe/belief_parts.h"

/* ---- making room ---- */

double *belief_numbers(arena *keep, uint32_t count)
{
    return arena_take_unset(keep, count * sizeof(double));
}

static void number_pairs(arena *keep, belief *b)
{
    uint32_t *first = ARENA_ARRAY(keep, uint32_t, b->causes), next = 1 + b->causes;
    for (uint32_t c = 0; c < b->causes; c++) {
        first[c] = next;
        if (b->pairs) next += b->causes - 1 - c;
    }
    assert(next > b->causes);
    b->first_pair = first;
    b->count = next;
}

static void bar_pairs(arena *keep, belief *b)
{
    bool *barred = ARENA_ARRAY(keep, bool, b->count);
    for (uint32_t i = 0; b->pairs && i < b->n->in.never_with_count; i++) {
        net_pair p = b->n->in.never_with[i];
        assert(p.first < b->causes && p.second < b->causes);
        if (p.first < p.second) barred[pair_at(b, p.first, p.second)] = true;
        if (p.second < p.first) barred[pair_at(b, p.second, p.first)] = true;
    }
    b->barred = barred;
}

static void make_room_for_answers(arena *keep, belief *b)
{
    b->weights = ARENA_ARRAY(keep, const double *, b->n->in.finding_count);
    b->looks = ARENA_ARRAY(keep, looks, b->n->in.finding_count);
    b->seen = (evidence){.weights = b->weights, .looks = b->looks};
}

static void make_room_for_components(arena *keep, belief *b)
{
    uint32_t atoms = 0;
    for (uint32_t i = 0; i < b->n->component_count; i++)
        if (b->n->components[i].atom_count > atoms) atoms = b->n->components[i].atom_count;
    b->atom_weight = ARENA_ARRAY(keep, double, atoms);
    b->row = ARENA_ARRAY(keep, double, atoms);
    b->log_listed = ARENA_ARRAY(keep, double, b->causes);
}

static void make_room_for_hypotheses(arena *keep, belief *b)
{
    b->share = ARENA_ARRAY(keep, double, b->causes);
    b->factor = ARENA_ARRAY(keep, double, b->causes);
    b->how_often = ARENA_ARRAY(keep, double, b->causes);
    b->log_share = ARENA_ARRAY(keep, double, b->causes);
    b->log_failed = ARENA_ARRAY(keep, double, b->causes);
    b->cure = ARENA_ARRAY(keep, double, b->causes);
    b->marginal = ARENA_ARRAY(keep, double, (size_t)b->causes + 1);
    b->log_prior = ARENA_ARRAY(keep, double, (size_t)b->causes + 1);
    b->log_likelihood = belief_numbers(keep, b->count);
    b->posterior = belief_numbers(keep, b->count);
}

/* Of two faults it is most of what a case takes: whoever never weighs them makes none. */
static void make_room(belief *b)
{
    if (b->has_room) return;
    number_pairs(b->keep, b);
    bar_pairs(b->keep, b);
    if (b->pairs) b->races = races_of(b->keep, b->n);
    if (b->pairs) b->pair_rows = ARENA_ARRAY(b->keep, double *, b->n->component_count);
    make_room_for_answers(b->keep, b);
    make_room_for_components(b->keep, b);
    make_room_for_hypotheses(b->keep, b);
    b->has_room = true;
}

belief *belief_room(arena *keep, const net *n, uint32_t most_faults)
{
    assert(most_faults == 1 || most_faults == 2);
    belief *b = ARENA_NEW(keep, belief);
    b->n = n;
    b->keep = keep;
    b->causes = n->in.cause_count;
    b->pairs = most_faults == 2 && net_weighs_pairs(n);
    return b;
}

belief *belief_new(arena *keep, const net *n, uint32_t most_faults)
{
    belief *b = belief_room(keep, n, most_faults);
    belief_restart(b);
    return b;
}

void belief_see_net(belief *b, const net *n)
{
    assert(n->in.cause_count == b->causes);
    if (b->n == n) return;
    b->n = n; /* the one before may be gone */
    for (uint32_t i = 0; b->has_room && b->pairs && i < n->component_count; i++)
        if (n->components[i].slice_count > 1) race_of(&n->components[i], &b->races[i]);
}

/* ---- prior ---- */

/* Shares of the causes with their factors; false if nothing is left. */
static bool weigh_shares(belief *b, const double *factor)
{
    double sum = 0;
    for (uint32_t c = 0; c < b->causes; c++) {
        assert(factor == NULL || factor[c] >= 0);
        b->share[c] = b->n->in.weights[c] * (factor == NULL ? 1 : factor[c]);
        sum += b->share[c];
    }
    for (uint32_t c = 0; c < b->causes; c++) {
        b->share[c] = sum > 0 ? b->share[c] / sum : 0;
        b->log_share[c] = log(b->share[c]);
    }
    return sum > 0;
}

/* Sum of share × share over the pairs that can be. */
static double mass_of_pairs(const belief *b)
{
    double sum = 0;
    for (uint32_t c = 0; b->pairs && c < b->causes; c++) {
        const bool *barred = b->barred + b->first_pair[c];
        const double *other = b->share + c + 1;
        for (uint32_t i = 0; i < b->causes - 1 - c; i++)
            if (!barred[i]) sum += b->share[c] * other[i];
    }
    return sum;
}

static double factor_of(const double *factor, uint32_t cause)
{
    return factor == NULL ? 1 : factor[cause];
}

/* Most answers move no rule, and then the prior is what it was. */
static bool prior_stands(const belief *b, const double *factor)
{
    const net_input *in = &b->n->in;
    bool same = b->has_prior && b->not_listed == in->not_listed && b->two_faults == in->two_faults;
    for (uint32_t c = 0; same && c < b->causes; c++)
        same = b->factor[c] == factor_of(factor, c) && b->how_often[c] == in->weights[c];
    return same;
}

static void weigh_prior(belief *b, const double *factor)
{
    if (prior_stands(b, factor)) return;
    for (uint32_t c = 0; c < b->causes; c++) b->factor[c] = factor_of(factor, c);
    memcpy(b->how_often, b->n->in.weights, b->causes * sizeof *b->how_often);
    b->not_listed = b->n->in.not_listed;
    b->two_faults = b->n->in.two_faults;
    b->has_prior = true;
    double not_listed = b->n->in.not_listed;
    b->all_ruled_out = !weigh_shares(b, factor);
    double pairs = mass_of_pairs(b), two = pairs > 0 ? b->n->in.two_faults : 0;
    b->log_one = log((1 - not_listed) * (1 - two));
    b->log_two = pairs > 0 ? log((1 - not_listed) * two / pairs) : -INFINITY;
    b->log_prior[0] = b->all_ruled_out ? 0 : log(not_listed);
    for (uint32_t c = 0; c < b->causes; c++) b->log_prior[1 + c] = b->log_share[c] + b->log_one;
}

/* ---- posterior ---- */

static void sum_marginals(belief *b)
{
    memcpy(b->marginal, b->posterior, ((size_t)b->causes + 1) * sizeof *b->marginal);
    for (uint32_t c = 0; b->pairs && c < b->causes; c++) {
        const double *pair = b->posterior + b->first_pair[c];
        double *other = b->marginal + 1 + c + 1, own = b->marginal[1 + c];
        for (uint32_t i = 0; i < b->causes - 1 - c; i++) {
            own += pair[i];
            other[i] += pair[i];
        }
        b->marginal[1 + c] = own;
    }
}

/* Nothing that is left can have led here: what remains is something not listed. */
static void give_up(belief *b)
{
    for (uint32_t h = 0; h < b->count; h++) b->posterior[h] = h == 0 ? 1 : 0;
    b->log_evidence = -INFINITY;
}

/* The posterior holds the logarithms of the weights. */
static void normalise(belief *b, double top)
{
    double sum = 0;
    for (uint32_t h = 0; h < b->count; h++) sum += b->posterior[h] = exp(b->posterior[h] - top);
    assert(sum >= 1);
    for (uint32_t h = 0; h < b->count; h++) b->posterior[h] /= sum;
    b->log_evidence = top + log(sum);
}

static double weigh_pairs_of(const belief *b, uint32_t c, double top)
{
    const uint32_t first = b->first_pair[c];
    const bool *barred = b->barred + first;
    const double *other = b->log_share + c + 1,
                 *history = b->had_outcome ? b->history + first : NULL;
    for (uint32_t i = 0; i < b->causes - 1 - c; i++) {
        const double prior = barred[i] ? -INFINITY : b->log_share[c] + other[i] + b->log_two;
        const double weight =
            prior + (history == NULL ? 0 : history[i]) + b->log_likelihood[first + i];
        b->posterior[first + i] = weight;
        if (weight > top) top = weight;
    }
    return top;
}

void belief_combine(belief *b)
{
    double top = -INFINITY;
    for (uint32_t h = 0; h <= b->causes; h++) {
        b->posterior[h] = b->log_prior[h] + history_of(b, h) + b->log_likelihood[h];
        if (b->posterior[h] > top) top = b->posterior[h];
    }
    for (uint32_t c = 0; b->pairs && c < b->causes; c++) top = weigh_pairs_of(b, c, top);
    if (isinf(top))
        give_up(b);
    else
        normalise(b, top);
    sum_marginals(b);
}

static void remember_answers(belief *b, const evidence *seen)
{
    for (uint32_t f = 0; f < b->n->in.finding_count; f++) {
        b->weights[f] = seen->weights[f];
        b->looks[f] = seen->looks == NULL ? (looks){NULL, 0} : seen->looks[f];
    }
}

void belief_weigh(belief *b, const evidence *seen, const double *factor)
{
    make_room(b);
    remember_answers(b, seen);
    weigh_prior(b, factor);
    belief_weigh_answers(b);
    belief_combine(b);
}

void belief_forget_answers(belief *b)
{
    if (!b->has_room) return;
    for (uint32_t f = 0; f < b->n->in.finding_count; f++) b->weights[f] = NULL;
}

void belief_forget(belief *b)
{
    belief_forget_answers(b);
    if (!b->had_outcome) return; /* nothing else was written */
    b->had_outcome = false;
    for (uint32_t c = 0; c < b->causes; c++) b->log_failed[c] = 0;
}

void belief_restart(belief *b)
{
    make_room(b);
    belief_forget(b);
    weigh_prior(b, NULL);
    belief_weigh_answers(b);
    belief_combine(b);
}

/* ---- reading it ---- */

uint32_t belief_count(const belief *b)
{
    return b->count;
}

const double *belief_posterior(const belief *b)
{
    return b->posterior;
}

double belief_log_evidence(const belief *b)
{
    return b->log_evidence;
}

double belief_log_says(const belief *b, uint32_t hypothesis)
{
    assert(hypothesis < b->count);
    return b->log_likelihood[hypothesis] / b->n->in.answers_count;
}

void belief_marginals(const belief *b, double *out)
{
    memcpy(out, b->marginal, ((size_t)b->causes + 1) * sizeof *out);
}

double belief_two_faults(const belief *b)
{
    double sum = 0;
    for (uint32_t h = b->causes + 1; h < b->count; h++) sum += b->posterior[h];
    return sum;
}

bool belief_all_ruled_out(const belief *b)
{
    return b->all_ruled_out;
}

void belief_projected(const belief *b, double *out)
{
    for (uint32_t h = 0; h <= b->causes; h++) out[h] = 0.5 * (b->posterior[h] + b->marginal[h]);
}
