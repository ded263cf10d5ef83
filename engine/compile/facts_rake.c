/* The weights of the facts' states, raked until each comes as often as the author says. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "compile/facts_parts.h"

#define CLOSE_ENOUGH 1e-14 /* of a state's share */

enum { SWEEPS_MAX = 1000, SWEEPS_LEAST = 20, WORK_MAX = 50000000 };

/* What many blocks or causes come to is kept in pieces, so that a change is not a walk over all. */
enum { BLOCKS_A_PIECE = 32, CAUSES_A_PIECE = 1024 };

typedef struct raking {
    const facts *f;
    facts_range range;
    const double *cause_weights;
    double *const *weights;
    double *sum;         /* [block] */
    double *const *with; /* [block][room + state] */
    double *product;     /* [block / BLOCKS_A_PIECE + cause] of those of a cause among them */
    double *factor;      /* [cause] */
    double *weight;      /* [cause / CAUSES_A_PIECE] of all of them; below 0: not known */
    double *mass;        /* [state] of the variable at hand */
} raking;

/* A piece's product stands where none of another cause's does. */
static double *product_of(const raking *k, uint32_t piece, uint32_t cause)
{
    return &k->product[piece + cause];
}

static void multiply_piece(raking *k, uint32_t cause, uint32_t piece)
{
    uint32_t from = piece * BLOCKS_A_PIECE, to = from + BLOCKS_A_PIECE;
    double product = 1;
    if (from < k->f->first_block[cause]) from = k->f->first_block[cause];
    if (to > k->f->first_block[cause + 1]) to = k->f->first_block[cause + 1];
    for (uint32_t i = from; i < to; i++) product *= k->sum[i];
    *product_of(k, piece, cause) = product;
}

static uint32_t piece_end(const raking *k, uint32_t cause)
{
    const uint32_t end = k->f->first_block[cause + 1];
    return end == k->f->first_block[cause] ? 0 : (end - 1) / BLOCKS_A_PIECE + 1;
}

static void sum_cause(raking *k, uint32_t cause)
{
    double factor = 1;
    for (uint32_t i = k->f->first_block[cause] / BLOCKS_A_PIECE; i < piece_end(k, cause); i++)
        factor *= *product_of(k, i, cause);
    k->factor[cause] = factor;
    k->weight[cause / CAUSES_A_PIECE] = -1;
}

static void sum_block(raking *k, uint32_t block)
{
    const uint32_t cause = k->f->blocks[block].cause;
    k->sum[block] = facts_sum_block(&k->range, &k->f->blocks[block], k->with[block]);
    multiply_piece(k, cause, block / BLOCKS_A_PIECE);
    sum_cause(k, cause);
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
                ARENA_ARRAY(scratch, double,
                            (size_t)f->block_count / BLOCKS_A_PIECE + f->book->cause_count + 1),
                ARENA_ARRAY(scratch, double, f->book->cause_count),
                ARENA_ARRAY(scratch, double, f->book->cause_count / CAUSES_A_PIECE + 1),
                NULL};
    for (uint32_t v = 0; v < f->variable_count; v++)
        if (f->variables[v].states > longest) longest = f->variables[v].states;
    k.mass = ARENA_ARRAY(scratch, double, longest);
    for (uint32_t i = 0; i < f->block_count; i++)
        with[i] = ARENA_ARRAY(scratch, double, f->blocks[i].state_count);
    for (uint32_t i = 0; i < f->block_count; i++)
        k.sum[i] = facts_sum_block(&k.range, &f->blocks[i], k.with[i]);
    for (uint32_t c = 0; c < f->book->cause_count; c++) {
        const uint32_t end = piece_end(&k, c);
        for (uint32_t i = f->first_block[c] / BLOCKS_A_PIECE; i < end; i++)
            multiply_piece(&k, c, i);
        sum_cause(&k, c);
    }
    return k;
}

static double sum_states(const double *p, uint32_t states, state_mask of)
{
    double sum = 0;
    for (uint32_t s = 0; s < states; s++)
        if (((of >> s) & 1) != 0) sum += p[s];
    return sum;
}

/* The states' parts of a variable in a block that reads it. */
static const double *parts_in(const raking *k, uint32_t block, uint32_t variable)
{
    const fact_block *b = &k->f->blocks[block];
    const uint32_t place = place_of_id(b->variables, b->variable_count, variable);
    assert(place < b->variable_count);
    return k->with[block] + b->room[place];
}

/* The cause's block that reads the variable; false: it has none. */
static bool block_reading(const raking *k, uint32_t cause, uint32_t variable, uint32_t *block)
{
    const facts *f = k->f;
    const uint32_t first = f->first_of[variable], count = f->first_of[variable + 1] - first;
    uint32_t at;
    SORTED_PLACE(at, count, i, f->block_of[first + i] < f->first_block[cause]);
    if (at == count || f->block_of[first + at] >= f->first_block[cause + 1]) return false;
    *block = f->block_of[first + at];
    return true;
}

/* Chance that the fact applies, with a cause that doesn't read it. */
static double chance_it_applies(const raking *k, uint32_t cause, uint32_t variable)
{
    double chance = 1;
    for (uint32_t v = variable; k->f->variables[v].parent != NO_VARIABLE;) {
        const state_mask in = k->f->variables[v].parent_states;
        const uint32_t parent = k->f->variables[v].parent, states = k->f->variables[parent].states;
        uint32_t block;
        if (block_reading(k, cause, parent, &block)) {
            const double *with = parts_in(k, block, parent);
            double whole = k->sum[block];
            return whole > 0 ? chance * sum_states(with, states, in) / whole : 0;
        }
        if (k->range.odds[parent] != NULL) chance *= sum_states(k->range.odds[parent], states, in);
        v = parent;
    }
    return chance;
}

/* Of all causes of a piece. */
static double weight_of_piece(raking *k, uint32_t piece)
{
    double *weight = &k->weight[piece];
    uint32_t end = (piece + 1) * CAUSES_A_PIECE;
    if (end > k->f->book->cause_count) end = k->f->book->cause_count;
    if (*weight >= 0) return *weight;
    *weight = 0;
    for (uint32_t c = piece * CAUSES_A_PIECE; c < end; c++)
        *weight += k->cause_weights[c] * k->factor[c];
    return *weight;
}

/* No cause of the piece that begins at c reads the variable, which always applies. */
static bool piece_stands(const raking *k, uint32_t variable, uint32_t c, uint32_t next)
{
    const facts *f = k->f;
    return c % CAUSES_A_PIECE == 0 && f->variables[variable].parent == NO_VARIABLE &&
           (next == f->first_of[variable + 1] ||
            f->blocks[f->block_of[next]].cause >= c + CAUSES_A_PIECE);
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
        if (piece_stands(k, variable, c, next)) {
            rest += weight_of_piece(k, c / CAUSES_A_PIECE);
            c += CAUSES_A_PIECE - 1;
            continue;
        }
        double weight = k->cause_weights[c] * k->factor[c];
        bool reads = next < f->first_of[variable + 1] && f->blocks[f->block_of[next]].cause == c;
        if (!reads) {
            if (weight > 0) rest += weight * chance_it_applies(k, c, variable);
            continue;
        }
        const double *with = parts_in(k, f->block_of[next], variable);
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
    enum { LIGHT = 4 }; /* so many products take as long as one step of a sum */
    uint64_t work = 1;
    for (uint32_t i = 0; i < k->f->block_count; i++) {
        const fact_block *b = &k->f->blocks[i];
        const uint32_t beside = k->f->first_block[b->cause + 1] - k->f->first_block[b->cause];
        work += (uint64_t)b->variable_count * (BLOCKS_A_PIECE + beside / BLOCKS_A_PIECE) / LIGHT;
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
