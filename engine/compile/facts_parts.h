/* The steps of facts_build, shared by the files that hold them; nobody else includes this. */
#ifndef TT_COMPILE_FACTS_PARTS_H
#define TT_COMPILE_FACTS_PARTS_H

#include "compile/program_parts.h"

/* Facts while they are built. What only building needs lives in scratch. */
typedef struct facts_draft {
    arena *keep, *scratch;
    const program *p;
    const net_input *in;
    expander *expand;
    facts *f;
    const expr **rule_when; /* [rule] over findings; null: it is none of ours */
    /* [finding] a fact that could be a variable; one that some factor reads */
    bool *can_be, *is_read;
    uint32_t *stamp, stamps;         /* [finding] when it was last read */
    uint32_t *reads, read_count;     /* what was read last */
    uint32_t *root;                  /* [variable] union-find within one cause */
    uint32_t *block_of_root, *place; /* [variable] */
    fact_block *blocks;
    uint32_t block_room;
} facts_draft;

/* facts_reads.c: all findings that these conditions read, rising, also by way of whether a fact
 * applies; in d->reads until the next call. */
void facts_find_reads(facts_draft *d, const expr *const *when, uint32_t count);

/* facts_blocks.c: once the variables are known. */
void facts_make_blocks(facts_draft *d);
/* facts_steps.c: what weighing each fact once takes, and the block that takes most (NO_ID: there is
 * none). */
uint64_t facts_steps(const facts *f, uint32_t *most);

/* What sums go over: the states that are left of each variable. */
typedef struct facts_range {
    const facts *f;
    const facts_told *told;
    double **odds;          /* [variable][state], as facts_outlook has them; null: none is left */
    uint32_t *const *live;  /* [variable] states with odds above 0, rising */
    uint32_t *live_count;   /* [variable] */
    uint32_t *state;        /* [finding] the combination at hand; NO_STATE: as it is told */
    const state_mask *left; /* [variable] states with which what was told applies */
    arena *room;
} facts_range;

/* facts_sum.c: with the weights as they are. Everything is taken from `keep`. */
facts_range facts_range_of(arena *keep, const facts *f, const facts_told *told);
/* Once a variable has other weights. */
void facts_weigh_anew(facts_range *r, uint32_t variable);
/* Mean of a block's factors; into with[room + state] what of it comes with that state. */
double facts_sum_block(facts_range *r, const fact_block *b, double *with);
void facts_fill_table(facts_range *r, const fact_block *b, double *table);

/* facts_rake.c: finds the weights g of f's variables; they start as the shares. */
void facts_rake(arena *scratch, const facts *f, const double *cause_weights,
                double *const *weights);

#endif
