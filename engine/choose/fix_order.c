/* The order of fixes, and what is worth trying. */
#include "choose/fix_order.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "choose/fix_rank.h"

const choice_rules choice_rules_default = {
    .worth_trying = {0.05, 0.05, 0.20, 0.40},
    .price = {0, 10, 30, 120},
    .likely = 0.20,
    .call_minutes = 240,
    .bring = 0.05,
    .elsewhere = 0.6,
    .short_list = 12,
    .soonest = false,
};

/* ---- which fix waits for another ---- */

static bool waits_for(const fix_course *run, uint32_t first)
{
    assert(first < run->in->fix_count);
    return run->open[first] && !run->tried[first];
}

static bool waits(const fix_course *run, uint32_t f)
{
    const fix_option *fix = &run->in->fixes[f];
    for (uint32_t i = 0; i < fix->after_count; i++)
        if (waits_for(run, fix->after[i])) return true;
    return false;
}

/* ---- how a fix stands ---- */

/* A fix that cures nothing of what is left is never worth trying, however low the threshold. */
static fix_standing standing_of(const fix_course *run, double worth, double cured, double total)
{
    if (cured <= 0 || cured < worth * total) return FIX_NOT_YET;
    bool likely = !run->in->rules.soonest && cured >= run->in->rules.likely * total;
    return likely ? FIX_LIKELY : FIX_POSSIBLE;
}

static bool may_join(const fix_course *run, uint32_t g);

/* While a set-up stands, what is done under it takes its own minutes alone; but it is done also
 * where the fix before it has helped. */
static double minutes_as_it_stands(const fix_course *run, uint32_t f)
{
    const fix_option *fix = &run->in->fixes[f];
    const bool under = run->under != NO_FIX && may_join(run, f);
    return under ? fix_own_minutes(fix) * run->spread : fix->minutes;
}

static double ratio_of(const fix_course *run, uint32_t f, double cured)
{
    const double least_cost = 1e-9; /* a fix that takes no time still has a ratio */
    const bool flat = run->under == NO_FIX && (run->in->walk == NULL || run->at == NO_PLACE);
    const double cost =
        flat ? run->flat[f] : minutes_as_it_stands(run, f) + fix_course_way(run, f) + run->price[f];
    return cured / (cost > least_cost ? cost : least_cost);
}

static fix_rank rank_of(const fix_course *run, uint32_t f, double cured, double total)
{
    const fix_option *fix = &run->in->fixes[f];
    fix_rank rank = {
        .standing = standing_of(run, run->worth[f], cured, total),
        .level = fix->level,
        .ratio = ratio_of(run, f, cured),
        .name = fix->name,
        .fix = f,
    };
    if (!run->open[f]) rank.standing = FIX_CLOSED;
    if (run->open[f] && waits(run, f)) rank.standing = FIX_NOT_YET;
    return rank;
}

/* ---- what opens the way ---- */

/* A fix that waits and all that it waits for, each after what comes before it. */
static void add_to_chain(fix_course *run, uint32_t f, uint32_t *count)
{
    const fix_option *fix = &run->in->fixes[f];
    if (run->in_chain[f] == run->chains) return;
    run->in_chain[f] = run->chains;
    for (uint32_t i = 0; i < fix->after_count; i++)
        if (waits_for(run, fix->after[i])) add_to_chain(run, fix->after[i], count);
    assert(*count < run->in->fix_count);
    run->chain[(*count)++] = f;
}

/* One after the other. Only what they cure is looked at: there are as many chains as fixes that
 * wait, and causes without end. */
static double cured_by_chain(fix_course *run, uint32_t count)
{
    double cured = 0;
    for (uint32_t i = 0; i < count; i++) {
        const fix_option *fix = &run->in->fixes[run->chain[i]];
        for (uint32_t k = 0; k < fix->cure_count; k++)
            run->after[1 + fix->cures[k].cause] = run->left[1 + fix->cures[k].cause];
    }
    for (uint32_t i = 0; i < count; i++) {
        cured += cured_weight(&run->in->fixes[run->chain[i]], run->after);
        fix_failed(&run->in->fixes[run->chain[i]], run->after);
    }
    return cured;
}

/* What waits and all that it waits for, as one: its cost, and the most that is asked of any. */
typedef struct fix_chain {
    uint32_t count;
    double worth, cured_most; /* cured_most: by each as if it were the first */
} fix_chain;

double fix_course_total(fix_course *run)
{
    if (run->total < 0) run->total = weights_total(run->left, run->in->cause_count);
    return run->total;
}

static double cured_now(fix_course *run, uint32_t f)
{
    if (run->cured[f] >= 0) return run->cured[f];
    if (run->counted_count < run->in->fix_count)
        run->counted[run->counted_count++] = f;
    else
        run->counted_count = run->in->fix_count + 1;
    return run->cured[f] = cured_weight(&run->in->fixes[f], run->left);
}

static fix_chain chain_of(fix_course *run, uint32_t f)
{
    fix_chain chain = {.count = 0};
    run->chains++;
    add_to_chain(run, f, &chain.count);
    assert(chain.count > 1);
    for (uint32_t i = 0; i < chain.count; i++) {
        chain.worth = fmax(chain.worth, run->worth[run->chain[i]]);
        chain.cured_most += cured_now(run, run->chain[i]);
    }
    return chain;
}

/* The fix of a chain that can be tried now stands for all of it: what is cured per minute of them
 * all, if that is enough for the riskiest of them. */
static fix_rank rank_of_chain(fix_course *run, const fix_chain *chain, double total)
{
    uint32_t at = run->at;
    double cost = 0;
    fix_rank rank = {.standing = FIX_CLOSED, .fix = NO_FIX};
    for (uint32_t i = 0; i < chain->count; i++) {
        const uint32_t x = run->chain[i];
        const fix_option *fix = &run->in->fixes[x];
        cost += minutes_as_it_stands(run, x) + choose_walk(run->in, at, fix->place) + run->price[x];
        if (run->walks) at = choose_stand(run->in, at, fix->place);
        if (waits(run, x)) continue;
        const fix_rank own = rank_of(run, x, cured_now(run, x), total);
        if (rank.fix == NO_FIX || fix_rank_compare(&own, &rank) < 0) rank = own;
    }
    const double cured = cured_by_chain(run, chain->count);
    rank.standing = standing_of(run, chain->worth, cured, total);
    rank.ratio = cured / fmax(cost, 1e-9);
    return rank;
}

/* ---- the order ---- */

/* The last of those that were not tried takes its place: their order says nothing. */
void fix_course_leave_out(fix_course *run, uint32_t f)
{
    assert(!run->tried[f]);
    run->tried[f] = true;
    run->gone[run->gone_count++] = f;
    if (!run->open[f]) return;
    const uint32_t last = run->untried[--run->untried_count];
    run->untried[run->where[f]] = last;
    run->where[last] = run->where[f];
}

static void put_back_all(fix_course *run)
{
    for (uint32_t i = 0; i < run->gone_count; i++) {
        const uint32_t f = run->gone[i];
        run->tried[f] = false;
        if (!run->open[f]) continue;
        run->where[f] = run->untried_count;
        run->untried[run->untried_count++] = f;
    }
    run->gone_count = 0;
    assert(run->untried_count == run->offered_count);
}

static void count_all_again(fix_course *run)
{
    const uint32_t fixes = run->in->fix_count, count = run->counted_count;
    for (uint32_t i = 0; i < count && count <= fixes; i++) run->cured[run->counted[i]] = -1;
    for (uint32_t f = 0; f < fixes && count > fixes; f++) run->cured[f] = -1;
    run->counted_count = 0;
}

/* Only what the last run has touched is made as it was. */
void fix_course_begin(fix_course *run, const fix_course *caller, const double *w)
{
    assert(caller != run);
    memcpy(run->left, w, ((size_t)run->in->cause_count + 1) * sizeof *w);
    run->total = caller != NULL && w == caller->left ? caller->total : -1;
    count_all_again(run);
    put_back_all(run);
    for (uint32_t i = 0; caller != NULL && i < caller->gone_count; i++)
        fix_course_leave_out(run, caller->gone[i]);
    run->at = run->here;
}

/* Whoever opens the way to something better stands where all of it would. */
static void lift_what_opens(fix_course *run, fix_rank *ranks, double total)
{
    for (uint32_t i = 0; i < run->waiter_count; i++) {
        const uint32_t f = run->waiters[i];
        if (run->tried[f] || !waits(run, f)) continue;
        const fix_chain chain = chain_of(run, f);
        const fix_rank rank = rank_of_chain(run, &chain, total);
        assert(rank.fix != NO_FIX);
        if (fix_rank_compare(&rank, &ranks[rank.fix]) < 0) ranks[rank.fix] = rank;
    }
}

fix_measure choose_measure(const choice_input *in, arena *scratch, const double *w, uint32_t fix)
{
    assert(fix < in->fix_count);
    const arena_mark before = arena_here(scratch);
    fix_course *run = fix_course_own(scratch, in);
    const double total = weights_total(w, in->cause_count),
                 cured = cured_weight(&in->fixes[fix], w);
    fix_course_begin(run, NULL, w);
    const fix_measure m = {.standing = rank_of(run, fix, cured, total).standing,
                           .waits = waits(run, fix),
                           .chance = total > 0 ? cured / total : 0,
                           .least = run->worth[fix],
                           .cost =
                               in->fixes[fix].minutes + fix_course_way(run, fix) + run->price[fix]};
    arena_back_to(scratch, before);
    return m;
}

void choose_order_near(const choice_input *in, arena *scratch, const double *w,
                       const uint32_t *near, ranked_fix *out)
{
    arena_mark before = arena_here(scratch);
    fix_course *run = fix_course_own(scratch, in);
    fix_rank *ranks = run->ranks;
    double total = weights_total(w, in->cause_count);
    fix_course_begin(run, NULL, w);
    for (uint32_t f = 0; f < in->fix_count; f++)
        ranks[f] = rank_of(run, f, cured_now(run, f), total);
    lift_what_opens(run, ranks, total);
    fix_rank *sorted = ARENA_ARRAY(scratch, fix_rank, in->fix_count);
    for (uint32_t i = 0; i < in->fix_count; i++) sorted[i] = ranks[near == NULL ? i : near[i]];
    fix_ranks_sort(scratch, sorted, in->fix_count);
    for (uint32_t i = 0; i < in->fix_count; i++) {
        const uint32_t f = sorted[i].fix;
        const double chance = total > 0 ? run->cured[f] / total : 0;
        out[i] = (ranked_fix){.fix = f, .standing = sorted[i].standing, .chance = chance};
    }
    arena_back_to(scratch, before);
}

void choose_order(const choice_input *in, arena *scratch, const double *w, ranked_fix *out)
{
    choose_order_near(in, scratch, w, NULL, out);
}

/* Ranks those that are worth trying by themselves; of the others that much is noted. */
static uint32_t rank_worthy(fix_course *run, double total)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < run->untried_count; i++) {
        const uint32_t f = run->untried[i];
        const double cured = cured_now(run, f);
        const bool worth = cured > 0 && cured >= run->worth[f] * total;
        run->ranks[f].standing = FIX_NOT_YET;
        if (!worth) continue;
        run->ranks[f] = rank_of(run, f, cured, total);
        run->worthy[count++] = f;
    }
    assert(count <= run->offered_count);
    return count;
}

/* Together they cure no more than one after the other would on all of the weight; where that is not
 * enough, none of them comes first for the others' sake. Far above what rounding makes. */
static bool may_be_worth(const fix_chain *chain, double total)
{
    const double rounding = 1e-9;
    return chain->cured_most >= (chain->worth - rounding) * total;
}

/* lift_what_opens for what is then worth trying, which is all that fix_course_next looks at. */
static uint32_t lift_worthy(fix_course *run, uint32_t count, double total)
{
    for (uint32_t i = 0; i < run->waiter_count; i++) {
        const uint32_t f = run->waiters[i];
        if (run->tried[f] || !waits(run, f)) continue;
        const fix_chain chain = chain_of(run, f);
        if (!may_be_worth(&chain, total)) continue;
        const fix_rank rank = rank_of_chain(run, &chain, total);
        fix_rank *own = &run->ranks[rank.fix];
        if (rank.standing > FIX_POSSIBLE || fix_rank_compare(&rank, own) >= 0) continue;
        if (own->standing > FIX_POSSIBLE) run->worthy[count++] = rank.fix;
        *own = rank;
    }
    return count;
}

/* Where nothing waits for another, no ranks are made. */
static void add_if_worth(fix_course *run, uint32_t f, double total, double likely, fix_first *first)
{
    const double cured = cured_now(run, f);
    if (!(cured > 0 && cured >= run->worth[f] * total)) return;
    fix_first_add(first, cured >= likely,
                  (fix_lead){ratio_of(run, f, cured), run->in->fixes[f].level, f});
}

/* A fix is worth trying only where one of its causes weighs as much as all of them together would
 * have to, over their number; few causes do. */
static void add_of_heavy(fix_course *run, double total, double likely, fix_first *first)
{
    enum { STRETCH = 8 };
    const double rounding = 1e-9, least = run->lightest * total * (1 - rounding),
                 *w = run->left + 1;
    const uint32_t causes = run->in->cause_count;
    for (uint32_t c = 0; c < causes;) {
        const uint32_t end = causes - c < STRETCH ? causes : c + STRETCH;
        bool heavy = end - c < STRETCH;
        for (uint32_t i = 0; !heavy && i < STRETCH; i += STRETCH)
            for (uint32_t k = 0; k < STRETCH; k++) heavy |= w[c + k] >= least;
        for (; heavy && c < end; c++)
            for (uint32_t k = run->cure_start[c]; w[c] >= least && k < run->cure_start[c + 1]; k++)
                if (!run->tried[run->cure_fixes[k]])
                    add_if_worth(run, run->cure_fixes[k], total, likely, first);
        c = end;
    }
}

/* No more of them are heavy than go into the whole of the weight. */
static bool heavy_are_few(const fix_course *run)
{
    enum { FEW = 4 }; /* one in so many */
    return run->lightest * run->in->cause_count >= FEW;
}

static uint32_t next_of_all(fix_course *run, double total)
{
    const double likely = run->in->rules.soonest ? INFINITY : run->in->rules.likely * total;
    fix_first first = fix_first_new(run->in->fixes);
    assert(run->waiter_count == 0);
    if (total > 0 && heavy_are_few(run))
        add_of_heavy(run, total, likely, &first);
    else
        for (uint32_t i = 0; i < run->untried_count; i++)
            add_if_worth(run, run->untried[i], total, likely, &first);
    return fix_first_of(&first);
}

/* First of the order among those worth trying, or NO_FIX: what choose_order begins with, without
 * ranking all the others. */
uint32_t fix_course_next(fix_course *run, double total)
{
    if (run->waiter_count == 0) return next_of_all(run, total);
    fix_first first = fix_first_new(run->in->fixes);
    const uint32_t count = lift_worthy(run, rank_worthy(run, total), total);
    for (uint32_t i = 0; i < count; i++) {
        const fix_rank *rank = &run->ranks[run->worthy[i]];
        if (rank->standing > FIX_POSSIBLE) continue;
        fix_first_add(&first, rank->standing == FIX_LIKELY,
                      (fix_lead){rank->ratio, rank->level, rank->fix});
    }
    return fix_first_of(&first);
}

/* ---- two under one set-up ---- */

static bool waits_for_this(const fix_option *fix, uint32_t f)
{
    for (uint32_t i = 0; i < fix->after_count; i++)
        if (fix->after[i] == f) return true;
    return false;
}

/* Done though the first may have helped, it must be worth trying on all of the weight, of low risk,
 * and put back if in vain. So must the first: a lockout saved would bring it before a question that
 * might have made it needless. */
static bool may_join(const fix_course *run, uint32_t g)
{
    const fix_option *first = &run->in->fixes[run->under], *fix = &run->in->fixes[g];
    if (g == run->under || fix->set_up == NO_SET_UP || fix->set_up != first->set_up) return false;
    if (!run->open[g] || run->tried[g] || run->missing[g] || waits(run, g)) return false;
    if (fix_held_to(first) != RISK_LOW || fix_held_to(fix) != RISK_LOW) return false;
    if (waits_for_this(fix, run->under)) return false;
    const double cured = cured_weight(fix, run->left);
    return cured > 0 && cured >= run->worth[g] * run->begun;
}

/* The fix to be done before the set-up of f, which was tried last, is given back; or NO_FIX. It is
 * the next one if what is under that set-up takes its own minutes alone. */
uint32_t fix_course_joins(fix_course *run, uint32_t f, double total_before, double total)
{
    if (!run->shares[f] || total <= 0) return NO_FIX;
    run->under = f;
    run->begun = total_before;
    run->spread = total_before / total;
    uint32_t g = fix_course_next(run, total);
    if (g != NO_FIX && minutes_as_it_stands(run, g) >= run->in->fixes[g].minutes) g = NO_FIX;
    run->under = NO_FIX;
    return g;
}

uint32_t fix_course_partner(fix_course *run, uint32_t f, const double *w)
{
    fix_course_begin(run, NULL, w);
    const double before = fix_course_total(run);
    fix_course_try(run, f);
    return fix_course_joins(run, f, before, fix_course_total(run));
}

void fix_course_pack(fix_course *run)
{
    const choice_input *in = run->in;
    const double enough = in->rules.bring * fix_course_total(run);
    for (uint32_t i = 0; i < run->parted_count; i++) {
        const uint32_t f = run->parted[i];
        run->missing[f] = !run->tried[f] && cured_now(run, f) < enough;
    }
}

void fix_course_try(fix_course *run, uint32_t f)
{
    const fix_option *fix = &run->in->fixes[f];
    fix_course_leave_out(run, f);
    if (run->walks) run->at = choose_stand(run->in, run->at, fix->place);
    fix_failed(fix, run->left);
    run->total = -1;
    for (uint32_t i = 0; i < fix->cure_count; i++) {
        uint32_t c = fix->cures[i].cause;
        for (uint32_t k = run->cure_start[c]; k < run->cure_start[c + 1]; k++)
            run->cured[run->cure_fixes[k]] = -1;
    }
}

void fix_course_try_all(fix_course *run)
{
    for (uint32_t f; (f = fix_course_next(run, fix_course_total(run))) != NO_FIX;)
        fix_course_try(run, f);
}
