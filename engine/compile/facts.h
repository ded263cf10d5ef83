/* Facts that nobody has told yet. Rules make causes more or less likely by facts of the site and of
 * today; of each fact the author says how often each answer comes. Together they are one
 * distribution over causes c and states phi of the facts,
 *
 *     J(c, phi) = w_c f_c(phi) prod over facts i of g_i(phi_i), over the sum of all,
 *
 * with weights g raked until each fact's states come as often as the author says (iterative
 * proportional fitting: Deming and Stephan 1940; Csiszar 1975). What a case believes before a fact
 * is told, and how likely each answer to it is, are sums over J; once all is told they are what
 * the rules say of it. Mathematics: docs/mathematics.md, "Facts not yet told". */
#ifndef TT_COMPILE_FACTS_H
#define TT_COMPILE_FACTS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "compile/expr.h"
#include "compile/net.h"
#include "model/book.h"

struct program;

#define NO_VARIABLE UINT32_MAX

enum {
    FACTS_COMBINATIONS_MAX = 4096, /* of states that one sum goes over */
    /* of steps until each fact of a book was weighed once: many sums are as long as one may be */
    FACTS_STEPS_MAX = 1 << 24,
};

/* A fact that some cause's factors read. */
typedef struct fact_variable {
    uint32_t finding, states;
    const double *share;  /* [state] how often, sums to 1 */
    const double *weight; /* [state] g, sums to 1 */
    /* It applies only while another one is in one of these states; NO_VARIABLE: always, or by
     * something else. Then `share` is of the calls in which it applies. */
    uint32_t parent;
    state_mask parent_states;
} fact_variable;

/* One factor of a cause. */
typedef struct fact_term {
    const expr *when;          /* over findings; null: the cause's own only-when, and its kind's */
    double factor;             /* while `when` holds, else 1 */
    const uint32_t *variables; /* places in its block */
    uint32_t variable_count;
} fact_term;

/* Factors of one cause that share facts; those of another block share none with them. */
typedef struct fact_block {
    uint32_t cause;
    const uint32_t *variables; /* rising */
    const uint32_t *room;      /* [place] where its states begin among those of the block */
    const uint32_t *stride;    /* [place] in `table` */
    uint32_t variable_count, state_count;
    const fact_term *terms;
    uint32_t term_count;
    const uint32_t *others; /* findings that its terms read and that are no variables */
    uint32_t other_count;
    bool splits;         /* one of its terms is an only-when: it depends on the focus */
    const double *table; /* product of its terms for each combination while nothing is known of the
                            others and all pieces are in focus; null: too many */
} fact_block;

/* What is known, [finding]: the states it may be in, whether it is known, and soft answers as
 * weights (null: none). `in_focus` [piece]; null: all of them. */
typedef struct facts_told {
    const state_mask *possible;
    const bool *known;
    const double *const *weights;
    const bool *in_focus;
} facts_told;

typedef struct facts {
    const book *book;
    uint32_t finding_count;
    const fact_variable *variables; /* by finding */
    uint32_t variable_count;
    const uint32_t *variable_of; /* [finding] or NO_VARIABLE */
    const fact_block *blocks;    /* by cause */
    uint32_t block_count;
    const uint32_t *first_block; /* [cause + 1] */
    const uint32_t *first_of;    /* [variable + 1] in block_of */
    const uint32_t *block_of;    /* blocks that read the variable, rising */
    const bool *in_blocks;       /* [rule] its factors are terms here */
    const bool *split_in_blocks; /* [cause] its only-when is a term here */
    const uint32_t *span_begin,
        *span_end;                 /* [cause] those that are one cause at all pieces of a kind */
    const expr *const *applies;    /* [finding] its only-when, or null */
    const expr *const *cause_when; /* [cause] its only-when, or null */
    const state_mask *every;       /* [finding] all its states */
    facts_told site;               /* what the site's file says */
} facts;

/* The sums over what is not told. */
typedef struct facts_outlook {
    const facts *f;
    facts_told told;
    double *const *odds; /* [variable][state] g of what is left of it, sums to 1; null: nothing of
                            it is left but what was told, which its shares rule out */
    double *sum;         /* [block] mean of its factors */
    double *const *with; /* [block][room + state] the part of it with that state, and where the fact
                            applies */
    double *factor;      /* [cause] product over its blocks */
} facts_outlook;

/* Of a program of which everything stands but its evidence, which is to be built from `in`. */
/* Null if its rules read too many facts together. */
const facts *facts_build(arena *keep, arena *scratch, const struct program *p, const net_input *in,
                         faults *list);
/* Causes that read facts have rows of their own in tables that depend on these. */
void facts_tell_readers(arena *keep, const facts *f, net_input *in);
/* The same for other weights of the causes; `f` must outlive it. */
const facts *facts_with(arena *keep, arena *scratch, const facts *f, const double *cause_weights);

facts_outlook facts_look(arena *keep, const facts *f, const facts_told *told);

/* How often each state of a fact comes, as the author says; sums to 1. A gate question of which he
 * says nothing comes with its safe answers only. What is no fact and has no table is mostly as it
 * usually is. */
double *fact_shares(arena *keep, const struct program *p, const net_input *in, uint32_t question);

/* The net as it is with what is told: tables that depend on facts are means over their states, with
 * the odds that each cause gives them. `prior` [cause] is what J gives each cause (not normalised).
 * All else is shared with `n`. */
const net *facts_mix(arena *keep, const facts_outlook *o, const net *n, const double *prior);
component facts_mix_component(arena *keep, const facts_outlook *o, const net *n, const component *g,
                              const double *prior);
const net *facts_mix_site(arena *keep, arena *scratch, const facts *f, const net *n);

#endif
