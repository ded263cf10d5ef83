/* The weights of the facts' states, raked until each comes as often as the author says. */
#include <assert.h>
#include <math.h>

#include "compile/facts_parts.h"

#define CLOSE_ENOUGH 1e-14 /* of a state's share */

enum { SWEEPS_MAX = 1000, SWEEPS_LEAST = 20, WORK_MAX = 50000000 };

typedef struct raking {
    const facts *f;
    facts_range range;
    const double *cause_weights;
    double *const *weights;
    double *sum;         /* [block] */
    double *const *with; /* [block][room + state] */
    double *factor;      /* [cause] */
    double *mass;        /* [state] of the variable at hand */
} raking;

static void sum_cause(raking *k, uint32_t cause)
{
    k->factor[cause] = 1;
    for (uint32_t i = k->f->first_block[cause]; i < k->f->first_block[cause + 1]; i++)
        k->factor[cause] *= k->sum[i];
}

static void sum_block(raking *k, uint32_t block)
{
    k->sum[block] = facts_sum_block(&k->range, &k->f->blocks[block], k->with[block]);
    sum_cause(k, k->f->blocks[block].cause);
}

static raking raking_new(arena *scratch, const facts *f, const double *cause_weights,
                         double *const *weights)
{
    uint32_t longest = 0;
    double **with = ARENA_ARRAY(scratch, double *, f->block_count);
    raking k = {f,
                facts_range_of(scratch, f, &f->site),
                cause_weights,
                weights,
                ARENA_ARRAY(scratch, double, f->block_count),
                with,
                ARENA_ARRAY(scratch, double, f->book->cause_count),
                NULL};
    for (uint32_t v = 0; v < f->variable_count; v++)
        if (f->variables[v].states > longest) longest = f->variables[v].states;
    k.mass = ARENA_ARRAY(scratch, double, longest);
    for (uint32_t i = 0; i < f->block_count; i++)
        with[i] = ARENA_ARRAY(scratch, double, f->blocks[i].state_count);
    for (uint32_t i = 0; i < f->block_count; i++)
        k.sum[i] = facts_sum_block(&k.range, &f->blocks[i], k.with[i]);
    for (uint32_t c = 0; c < f->book->cause_count; c++) sum_cause(&k, c);
    return k;
}

static double sum_states(const double *p, uint32_t states, state_mask of)
{
    double sum = 0;
    for (uint32_t s = 0; s < states; s++)
        if (((of >> s) & 1) != 0) sum += p[s];
    return sum;
}

/* The cause's block that reads the variable, or null; `at` gets its states' parts. */
static const fact_block *block_reading(const raking *k, uint32_t cause, uint32_t variable,
                                       const double **at)
{
    for (uint32_t i = k->f->first_block[cause]; i < k->f->first_block[cause + 1]; i++) {
        const fact_block *b = &k->f->blocks[i];
        for (uint32_t p = 0; p < b->variable_count; p++)
            if (b->variables[p] == variable) {
                *at = k->with[i] + b->room[p];
                return b;
            }
    }
    return NULL;
}

/* Chance that the fact applies, with a cause that doesn't read it. */
static double chance_it_applies(const raking *k, uint32_t cause, uint32_t variable)
{
    double chance = 1;
    for (uint32_t v = variable; k->f->variables[v].parent != NO_VARIABLE;) {
        const state_mask in = k->f->variables[v].parent_states;
        const uint32_t parent = k->f->variables[v].parent, states = k->f->variables[parent].states;
        const double *with;
        const fact_block *b = block_reading(k, cause, parent, &with);
        if (b != NULL) {
            double whole = k->sum[b - k->f->blocks];
            return whole > 0 ? chance * sum_states(with, states, in) / whole : 0;
        }
        if (k->range.odds[parent] != NULL) chance *= sum_states(k->range.odds[parent], states, in);
        v = parent;
    }
    return chance;
}

/* How much of J comes with each state of a variable. Returns the sum. */
static double weigh_states(raking *k, uint32_t variable)
{
    const facts *f = k->f;
    const fact_variable *v = &f->variables[variable];
    double rest = 0, total = 0;
    uint32_t next = f->first_of[variable];
    for (uint32_t s = 0; s < v->states; s++) k->mass[s] = 0;
    for (uint32_t c = 0; c < f->book->cause_count; c++) {
        const double *with = NULL;
        double weight = k->cause_weights[c] * k->factor[c];
        bool reads = next < f->first_of[variable + 1] && f->blocks[f->block_of[next]].cause == c;
        if (!reads) {
            if (weight > 0) rest += weight * chance_it_applies(k, c, variable);
            continue;
        }
        block_reading(k, c, variable, &with);
        for (uint32_t s = 0; s < v->states && weight > 0; s++)
            k->mass[s] += weight / k->sum[f->block_of[next]] * with[s];
        next++;
    }
    assert(next == f->first_of[variable + 1]);
    for (uint32_t s = 0; s < v->states; s++) {
        k->mass[s] += rest * k->range.odds[variable][s];
        total += k->mass[s];
    }
    return total;
}

/* Weights of one variable so that its states come as often as they should. Returns by how much they
 * did not. A state that no cause is left with can't come at all. */
static double rake_variable(raking *k, uint32_t variable)
{
    const fact_variable *v = &k->f->variables[variable];
    double total = weigh_states(k, variable), wanted = 0, sum = 0, off = 0;
    const double *odds = k->range.odds[variable];
    if (!(total > 0)) return 0;
    for (uint32_t s = 0; s < v->states; s++)
        if (odds[s] > 0 && k->mass[s] > 0) wanted += v->share[s];
    for (uint32_t s = 0; s < v->states; s++) {
        if (!(odds[s] > 0) || !(k->mass[s] > 0)) continue;
        double share = v->share[s] / wanted, is = k->mass[s] / total;
        off = fmax(off, fabs(is - share));
        k->weights[variable][s] *= share / is;
    }
    for (uint32_t s = 0; s < v->states; s++) sum += k->weights[variable][s];
    for (uint32_t s = 0; s < v->states; s++) k->weights[variable][s] /= sum;
    facts_weigh_anew(&k->range, variable);
    for (uint32_t i = k->f->first_of[variable]; i < k->f->first_of[variable + 1]; i++)
        sum_block(k, k->f->block_of[i]);
    return off;
}

static bool is_open(const raking *k, uint32_t variable)
{
    return k->range.odds[variable] != NULL && k->range.live_count[variable] > 1;
}

/* So that a book that takes long is not waited for: its shares are then met nearly. */
static uint32_t sweeps_for(const raking *k)
{
    uint64_t work = 1;
    for (uint32_t i = 0; i < k->f->block_count; i++) {
        const fact_block *b = &k->f->blocks[i];
        uint64_t one = b->variable_count;
        for (uint32_t p = 0; p < b->variable_count; p++)
            if (k->range.odds[b->variables[p]] != NULL && one <= WORK_MAX)
                one *= k->range.live_count[b->variables[p]];
        work += one * b->variable_count;
    }
    uint64_t sweeps = WORK_MAX / work;
    return sweeps > SWEEPS_MAX     ? SWEEPS_MAX
           : sweeps < SWEEPS_LEAST ? SWEEPS_LEAST
                                   : (uint32_t)sweeps;
}

void facts_rake(arena *scratch, const facts *f, const double *cause_weights, double *const *weights)
{
    raking k = raking_new(scratch, f, cause_weights, weights);
    double off = 1;
    for (uint32_t sweep = sweeps_for(&k); sweep > 0 && off > CLOSE_ENOUGH; sweep--) {
        off = 0;
        for (uint32_t v = 0; v < f->variable_count; v++)
            if (is_open(&k, v)) off = fmax(off, rake_variable(&k, v));
    }
}
