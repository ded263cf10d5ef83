/* How much weighing the facts takes, counted before it is done. */
#include "compile/facts_parts.h"

/* Of some of a block's variables; more than one sum may go over: FACTS_COMBINATIONS_MAX + 1. */
static uint32_t combinations_of(const facts *f, const fact_block *b, const uint32_t *places,
                                uint32_t count)
{
    uint64_t all = 1;
    for (uint32_t i = 0; i < count && all <= FACTS_COMBINATIONS_MAX; i++)
        all *= f->variables[b->variables[places == NULL ? i : places[i]]].states;
    return all > FACTS_COMBINATIONS_MAX ? FACTS_COMBINATIONS_MAX + 1 : (uint32_t)all;
}

/* A sum takes each of the block's facts in each combination; each rule by itself takes its own, and
 * then all facts of the block once. */
static uint64_t steps_of_sum(const facts *f, const fact_block *b)
{
    const uint64_t all = combinations_of(f, b, NULL, b->variable_count);
    uint64_t steps = 0;
    if (all <= FACTS_COMBINATIONS_MAX) return all * b->variable_count;
    for (uint32_t t = 0; t < b->term_count; t++) {
        const fact_term *term = &b->terms[t];
        const uint64_t own = combinations_of(f, b, term->variables, term->variable_count);
        steps += b->state_count;
        if (own <= FACTS_COMBINATIONS_MAX) steps += own * term->variable_count;
    }
    return steps;
}

/* Its table is made once, by all rules in each combination; its sum is made for each of its facts,
 * and that at least twenty times. */
static uint64_t steps_of_block(const facts *f, const fact_block *b)
{
    enum { OFTEN = 4 };
    const uint64_t made = b->table == NULL ? 0 : combinations_of(f, b, NULL, b->variable_count);
    return steps_of_sum(f, b) * b->variable_count + made * b->term_count / OFTEN;
}

uint64_t facts_steps(const facts *f, uint32_t *most)
{
    uint64_t steps = 0, largest = 0;
    *most = NO_ID;
    for (uint32_t i = 0; i < f->block_count; i++) {
        const uint64_t own = steps_of_block(f, &f->blocks[i]);
        if (own > largest) *most = i;
        if (own > largest) largest = own;
        steps += own;
    }
    return steps;
}
