/* After a fix was tried the set of faults may be another: the belief moves from S to what is left
 * of it. */
#include <assert.h>
#include <math.h>

#include "believe/belief_parts.h"

#define CURE_MOST (1 - 1e-6)

const outcome_rates outcome_rates_default = {.better_though_kept = 0.10,
                                             .better_untargeted = 0.02,
                                             .same_though_removed = 0.20,
                                             .done_wrongly = 0};

typedef struct trial {
    belief *b; /* its `cure` holds the chance that the fix cures each cause, 0 if it does not aim at
                  it */
    fix_outcome outcome;
    const outcome_rates *rates;
} trial;

/* No fix is certain. */
static void note_cures(belief *b, const net_rate *cures, uint32_t count)
{
    for (uint32_t c = 0; c < b->causes; c++) b->cure[c] = 0;
    for (uint32_t i = 0; i < count; i++) {
        assert(cures[i].cause < b->causes && cures[i].chance >= 0 && cures[i].chance <= 1);
        b->cure[cures[i].cause] = fmin(cures[i].chance, CURE_MOST);
    }
}

/* ---- chances of the report ---- */

/* Of "better", or else of "no change". */
static double split(const trial *t, double better)
{
    assert(t->outcome != OUTCOME_GONE && better >= 0 && better <= 1);
    return t->outcome == OUTCOME_BETTER ? better : 1 - better;
}

/* Of a fix that is done rightly, which of two causes goes is no matter of the other; done wrongly
 * it cures neither. `x` is of a try, and so has that in it. */
static double if_done_rightly(const trial *t, double x)
{
    assert(t->rates->done_wrongly >= 0 && t->rates->done_wrongly < 1);
    return fmin(x / (1 - t->rates->done_wrongly), CURE_MOST);
}

/* All causes stay (cure chances x, y; 0 where not aimed at), and this report. */
static double chance_kept(const trial *t, double x, double y)
{
    const bool aimed_at = x > 0 || y > 0;
    const double wrongly = t->rates->done_wrongly;
    const double left = (1 - if_done_rightly(t, x)) * (1 - if_done_rightly(t, y));
    return (wrongly + (1 - wrongly) * left) *
           split(t, aimed_at ? t->rates->better_though_kept : t->rates->better_untargeted);
}

/* The cause with cure chance `gone` goes, the other stays, and this report. */
static double chance_one_left(const trial *t, double gone, double stays)
{
    return gone * (1 - if_done_rightly(t, stays)) * split(t, 1 - t->rates->same_though_removed);
}

static double chance_of_single(const trial *t, uint32_t c)
{
    double x = t->b->cure[c];
    return t->outcome == OUTCOME_GONE ? x : chance_kept(t, x, 0);
}

static double chance_of_pair(const trial *t, uint32_t c, uint32_t d)
{
    double x = t->b->cure[c], y = t->b->cure[d];
    if (t->outcome == OUTCOME_GONE) return x * if_done_rightly(t, y);
    return chance_kept(t, x, y) + chance_one_left(t, x, y) + chance_one_left(t, y, x);
}

static double chance_of_report(const trial *t)
{
    const belief *b = t->b;
    double sum = t->outcome == OUTCOME_GONE ? 0 : b->posterior[0] * chance_kept(t, 0, 0);
    for (uint32_t c = 0; c < b->causes; c++) sum += b->posterior[1 + c] * chance_of_single(t, c);
    for (uint32_t c = 0; b->pairs && c < b->causes; c++)
        for (uint32_t d = c + 1; d < b->causes; d++)
            sum += b->posterior[pair_at(b, c, d)] * chance_of_pair(t, c, d);
    return sum;
}

/* ---- moving ---- */

static double log_sum(double a, double b)
{
    double top = fmax(a, b), low = fmin(a, b);
    return isinf(low) ? top : top + log1p(exp(low - top));
}

/* Per prior: what has been seen of a hypothesis up to now, outcomes before this one included. Kept
 * apart from the prior so that a cause that was ruled out can come back when the answer that ruled
 * it out is changed. */
static double log_seen(const belief *b, uint32_t hypothesis)
{
    return b->history[hypothesis] + b->log_likelihood[hypothesis];
}

/* What comes to single c from its pair with d when d goes; prior of the pair over prior of c is
 * share of d × two / one. */
static double log_inflow(const trial *t, uint32_t c, uint32_t d)
{
    const belief *b = t->b;
    assert(b->pairs && c != d);
    uint32_t pair = c < d ? pair_at(b, c, d) : pair_at(b, d, c);
    if (b->barred[pair] || b->cure[d] == 0) return -INFINITY;
    return log_seen(b, pair) + b->log_share[d] + b->log_two - b->log_one +
           log(chance_one_left(t, b->cure[d], b->cure[c]));
}

static void move_singles(const trial *t)
{
    belief *b = t->b;
    for (uint32_t c = 0; c < b->causes; c++) {
        double moved = log_seen(b, 1 + c) + log(chance_kept(t, b->cure[c], 0));
        for (uint32_t d = 0; b->pairs && d < b->causes; d++)
            if (d != c && b->cure[d] > 0) moved = log_sum(moved, log_inflow(t, c, d));
        b->history[1 + c] = moved;
    }
}

static void move_pairs(const trial *t)
{
    belief *b = t->b;
    for (uint32_t c = 0; b->pairs && c < b->causes; c++)
        for (uint32_t d = c + 1; d < b->causes; d++) {
            uint32_t pair = pair_at(b, c, d);
            b->history[pair] = log_seen(b, pair) + log(chance_kept(t, b->cure[c], b->cure[d]));
        }
}

static void forget_stale(belief *b, const bool *stale)
{
    for (uint32_t f = 0; stale != NULL && f < b->n->in.finding_count; f++)
        if (stale[f]) b->weights[f] = NULL;
}

/* Pairs take from singles before they change, so singles move first. */
static void move(const trial *t, const bool *stale)
{
    belief *b = t->b;
    move_singles(t);
    move_pairs(t);
    b->history[0] = log_seen(b, 0) + log(chance_kept(t, 0, 0));
    forget_stale(b, stale);
    belief_weigh_answers(b);
    for (uint32_t h = 0; h < b->count; h++) b->history[h] -= b->log_likelihood[h];
}

/* Single faults can't say what "better" means: start afresh, but for what the failed fixes told. */
static void start_afresh(belief *b, const bool *stale)
{
    for (uint32_t h = 0; h <= b->causes; h++) b->history[h] = h == 0 ? 0 : b->log_failed[h - 1];
    forget_stale(b, stale);
    belief_weigh_answers(b);
}

static void begin_history(belief *b)
{
    if (b->had_outcome) return;
    if (b->history == NULL) b->history = belief_numbers(b->keep, b->count);
    for (uint32_t h = 0; h < b->count; h++) b->history[h] = 0;
    b->had_outcome = true;
}

double belief_outcome(belief *b, const net_rate *cures, uint32_t cure_count, fix_outcome outcome,
                      const outcome_rates *rates, const bool *stale)
{
    const trial t = {b, outcome, rates};
    note_cures(b, cures, cure_count);
    double chance = chance_of_report(&t);
    if (outcome == OUTCOME_GONE || chance <= 0) return chance;
    assert(chance <= 1 + 1e-9);
    begin_history(b);
    for (uint32_t c = 0; c < b->causes; c++) b->log_failed[c] += log1p(-b->cure[c]);
    if (outcome == OUTCOME_BETTER && !b->pairs)
        start_afresh(b, stale);
    else
        move(&t, stale);
    belief_combine(b);
    return chance;
}
