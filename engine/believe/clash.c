/* Two answers that don't fit together. */
#include "believe/clash.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "believe/joined.h"
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

static bool is_seen(const belief *b, const evidence *seen, uint32_t finding)
{
    sighting one;
    return b->n->component_of[finding] != NO_COMPONENT &&
           looks_at(b->n, seen, finding, &one).count > 0;
}

static double over_likeliest(const belief *b, arena *scratch, const evidence *seen, double says,
                             uint32_t hypothesis)
{
    const arena_mark mark = arena_here(scratch);
    for (uint32_t f = 0; f < b->n->in.finding_count; f++)
        if (is_seen(b, seen, f)) says -= log_likeliest(b, scratch, f, hypothesis);
    arena_back_to(scratch, mark);
    return says;
}

double belief_fit(const belief *b, arena *scratch, const evidence *seen, uint32_t hypothesis)
{
    return over_likeliest(b, scratch, seen, belief_log_says(b, hypothesis), hypothesis);
}

/* ---- without some of the answers ---- */

/* ln of what one group says: of the other hypothesis and of the causes it lists, beside what it
 * says of all others. */
typedef struct group_says {
    double base, other;
    const double *listed;
} group_says;

/* One of the groups that list a cause, and the cause's place among those that it lists. */
typedef struct listing {
    uint32_t group, place;
} listing;

typedef struct doubting {
    const belief *b;
    arena *scratch;
    const double **weights;
    looks *looks;
    evidence left;
    double *says;                       /* [1 + cause] ln P(answers left | hypothesis) */
    joining whole;                      /* of all answers */
    const group_says *of_whole;         /* [group] what it says */
    bool *untouched;                    /* [group] all of its answers are there */
    uint32_t *group_of;                 /* [component] 1 + the group that has it; 0: none */
    uint32_t touched[2], touched_count; /* groups, one twice if two answers of it are left out */
    double *sums;                       /* [1 + cause] what the groups that list it say */
    listing *listings;                  /* of all causes, cause by cause, groups rising */
    uint32_t *listings_from;            /* [cause], and the end */
    uint32_t *seen, seen_count;         /* findings that were answered */
    double *
        *like; /* [1 + cause] ln of the likeliest answer to each of `seen`; null: not needed yet */
} doubting;

static group_says say_group(const doubting *d, const joined *j)
{
    const joined_says s = joined_weigh(d->scratch, d->b->n, NULL, j, &d->left, UINT32_MAX);
    group_says out = {.base = log(fmax(s.base, LIKELIHOOD_LEAST))};
    double *listed = ARENA_ARRAY(d->scratch, double, j->listed_count);
    out.other = log(fmax(s.other, LIKELIHOOD_LEAST)) - out.base;
    for (uint32_t i = 0; i < j->listed_count; i++)
        listed[i] = log(fmax(s.listed[i], LIKELIHOOD_LEAST)) - out.base;
    out.listed = listed;
    return out;
}

/* Is every answer there that this group had with all of them? Then it says the same. */
static const group_says *says_as_before(const doubting *d, const joined *j)
{
    if (d->of_whole == NULL) return NULL;
    const uint32_t i = d->group_of[j->components[0]] - 1;
    const joined *w = &d->whole.groups[i];
    assert(i < d->whole.count);
    return w->count == j->count && d->untouched[i] ? &d->of_whole[i] : NULL;
}

static void weigh_left(doubting *d)
{
    const net *n = d->b->n;
    const arena_mark mark = arena_here(d->scratch);
    const joining all = joining_of(d->scratch, n, &d->left);
    double base = 0;
    for (uint32_t h = 0; h <= d->b->causes; h++) d->says[h] = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        const joined *j = &all.groups[i];
        const group_says *before = says_as_before(d, j);
        const group_says s = before != NULL ? *before : say_group(d, j);
        base += s.base;
        d->says[0] += s.other;
        for (uint32_t k = 0; k < j->listed_count; k++) d->says[1 + j->listed[k]] += s.listed[k];
    }
    for (uint32_t h = 0; h <= d->b->causes; h++) d->says[h] += base;
    arena_back_to(d->scratch, mark);
}

static void keep_listings(doubting *d)
{
    const joining *all = &d->whole;
    const uint32_t causes = d->b->causes;
    uint32_t *from = ARENA_ARRAY(d->scratch, uint32_t, (size_t)causes + 2);
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->groups[i].listed_count; k++)
            from[all->groups[i].listed[k] + 2]++;
    for (uint32_t c = 0; c < causes; c++) from[c + 2] += from[c + 1];
    d->listings = ARENA_ARRAY(d->scratch, listing, from[causes + 1]);
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->groups[i].listed_count; k++)
            d->listings[from[all->groups[i].listed[k] + 1]++] = (listing){i, k};
    d->listings_from = from;
}

/* As the groups are added up in weigh_left, one by one and in the same order. */
static void keep_sums(doubting *d)
{
    d->sums = ARENA_ARRAY(d->scratch, double, (size_t)d->b->causes + 1);
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const joined *j = &d->whole.groups[i];
        for (uint32_t k = 0; k < j->listed_count; k++)
            d->sums[1 + j->listed[k]] += d->of_whole[i].listed[k];
    }
}

static void keep_seen(doubting *d)
{
    const uint32_t findings = d->b->n->in.finding_count;
    d->seen = ARENA_ARRAY(d->scratch, uint32_t, findings);
    for (uint32_t f = 0; f < findings; f++)
        if (is_seen(d->b, &d->left, f)) d->seen[d->seen_count++] = f;
    d->like = ARENA_ARRAY(d->scratch, double *, (size_t)d->b->causes + 1);
}

/* What each group says of all answers: most of it holds when one or two are left out. */
static void keep_whole(doubting *d)
{
    d->whole = joining_of(d->scratch, d->b->n, &d->left);
    group_says *all = ARENA_ARRAY(d->scratch, group_says, d->whole.count);
    d->untouched = ARENA_ARRAY(d->scratch, bool, d->whole.count);
    d->group_of = ARENA_ARRAY(d->scratch, uint32_t, d->b->n->component_count);
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const joined *j = &d->whole.groups[i];
        for (uint32_t k = 0; k < j->count; k++) d->group_of[j->components[k]] = i + 1;
        all[i] = say_group(d, &d->whole.groups[i]);
        d->untouched[i] = true;
    }
    d->of_whole = all;
    keep_listings(d);
    keep_sums(d);
    keep_seen(d);
}

/* An answer of this finding is left out, or there again. */
static void touch(doubting *d, uint32_t finding, bool there)
{
    const uint32_t group = d->group_of[d->b->n->component_of[finding]] - 1;
    assert(group < d->whole.count && (there ? d->touched_count > 0 : d->touched_count < 2));
    if (!there) d->touched[d->touched_count++] = group;
    if (there) d->touched_count--;
    d->untouched[group] = there;
}

/* ---- the same, of what is touched alone ---- */

/* By itself, whatever is left out: then what is left of it is it, or nothing. */
static bool is_simple(const doubting *d, uint32_t group)
{
    return d->whole.groups[group].count == 1 && d->whole.groups[group].latent_count == 0;
}

static bool has_answers(const doubting *d, uint32_t group)
{
    const component *g = &d->b->n->components[d->whole.groups[group].components[0]];
    for (uint32_t i = 0; i < g->finding_count; i++)
        if (is_seen(d->b, &d->left, g->findings[i])) return true;
    return false;
}

typedef struct touched_says {
    group_says says[2];
    bool there[2];
} touched_says;

static const group_says *left_of(const doubting *d, const touched_says *t, uint32_t group)
{
    for (uint32_t i = 0; i < d->touched_count; i++)
        if (d->touched[i] == group) return t->there[i] ? &t->says[i] : NULL;
    return &d->of_whole[group];
}

static double sum_left(const doubting *d, const touched_says *t, uint32_t cause)
{
    double sum = 0;
    for (uint32_t i = d->listings_from[cause]; i < d->listings_from[cause + 1]; i++) {
        const group_says *s = left_of(d, t, d->listings[i].group);
        if (s != NULL) sum += s->listed[d->listings[i].place];
    }
    return sum;
}

static void add_whole(doubting *d, const touched_says *t)
{
    double base = 0, other = 0;
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const group_says *s = d->untouched[i] ? &d->of_whole[i] : left_of(d, t, i);
        if (s == NULL) continue;
        base += s->base;
        other += s->other;
    }
    d->says[0] = other + base;
    for (uint32_t h = 1; h <= d->b->causes; h++) d->says[h] = d->sums[h] + base;
    for (uint32_t i = 0; i < d->touched_count; i++) {
        const joined *j = &d->whole.groups[d->touched[i]];
        for (uint32_t k = 0; k < j->listed_count; k++)
            d->says[1 + j->listed[k]] = sum_left(d, t, j->listed[k]) + base;
    }
}

/* To the same bytes as weigh_left; false: what is left has to be joined anew. */
static bool weigh_touched(doubting *d)
{
    const arena_mark mark = arena_here(d->scratch);
    touched_says t;
    for (uint32_t i = 0; i < d->touched_count; i++)
        if (!is_simple(d, d->touched[i])) return false;
    for (uint32_t i = 0; i < d->touched_count; i++) {
        t.there[i] = has_answers(d, d->touched[i]);
        if (t.there[i]) t.says[i] = say_group(d, &d->whole.groups[d->touched[i]]);
    }
    add_whole(d, &t);
    arena_back_to(d->scratch, mark);
    return true;
}

static void weigh(doubting *d)
{
    if (!weigh_touched(d)) weigh_left(d);
}

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
    return b->log_prior[hypothesis] + b->history[hypothesis] +
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
    weigh(d);
    const uint32_t best = likeliest(d);
    return fit_of(d, d->says[best], best);
}

/* ln of the chance of the answers left, on the mean over hypotheses. */
static double log_mean(doubting *d)
{
    double top = -INFINITY, sum = 0;
    weigh(d);
    for (uint32_t h = 0; h <= d->b->causes; h++) top = fmax(top, log_weight(d, h));
    for (uint32_t h = 0; h <= d->b->causes; h++) sum += exp(log_weight(d, h) - top);
    return isinf(top) ? top : top + log(sum);
}

static double fit_without(doubting *d, uint32_t finding)
{
    const double *had = d->weights[finding];
    d->weights[finding] = NULL;
    touch(d, finding, false);
    const double fit = fit_left(d);
    touch(d, finding, true);
    d->weights[finding] = had;
    return fit;
}

/* How likely the weaker answer is once this one is left out, too. */
static double expected_without(doubting *d, uint32_t weaker, uint32_t finding)
{
    const double *its = d->weights[finding], *weak = d->weights[weaker];
    d->weights[finding] = NULL;
    touch(d, finding, false);
    const double both = log_mean(d);
    d->weights[weaker] = NULL;
    touch(d, weaker, false);
    const double rest = log_mean(d);
    touch(d, weaker, true);
    touch(d, finding, true);
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

static doubting doubting_of(const belief *single, arena *scratch, const evidence *seen)
{
    const uint32_t findings = single->n->in.finding_count;
    doubting d = {.b = single, .scratch = scratch};
    d.weights = ARENA_ARRAY(scratch, const double *, findings);
    memcpy(d.weights, seen->weights, findings * sizeof *d.weights);
    d.looks = ARENA_ARRAY(scratch, looks, findings);
    if (seen->looks != NULL) memcpy(d.looks, seen->looks, findings * sizeof *d.looks);
    d.left = (evidence){.weights = d.weights, .looks = d.looks, .person = seen->person};
    d.says = ARENA_ARRAY(scratch, double, (size_t)single->causes + 1);
    return d;
}

double belief_amiss(const belief *single, arena *scratch, const evidence *seen, uint32_t one,
                    uint32_t other)
{
    const arena_mark mark = arena_here(scratch);
    const uint32_t count = single->causes + 1;
    assert(single->count == count && one != other);
    doubting d = doubting_of(single, scratch, seen);
    double *all = ARENA_ARRAY(scratch, double, count), right = 0;
    weigh_left(&d);
    for (uint32_t h = 0; h < count; h++) all[h] = d.says[h];
    take_as_right(&d, one);
    take_as_right(&d, other); /* nothing of the whole is kept here: the looks themselves change */
    weigh_left(&d);
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
    keep_whole(&d);
    bool found = single->causes > 0 && !single->all_ruled_out;
    const double fit = found ? fit_left(&d) : 0;
    found = found && fit < log(CLASH_LESS_LIKELY_THAN) && !fits_a_pair(pairs, scratch, seen) &&
            find_weaker(&d, may, fit, out) && find_other(&d, may, out);
    if (found) out->amiss = belief_amiss(single, scratch, seen, out->weaker, out->other);
    found = found && out->amiss >= CLASH_AMISS;
    arena_back_to(scratch, mark);
    return found;
}
