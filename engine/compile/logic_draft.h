/* Between the rules as written and the laid-out logic: gates in the order they were met. Only
 * logic*.c see this. */
#ifndef TT_COMPILE_LOGIC_DRAFT_H
#define TT_COMPILE_LOGIC_DRAFT_H

#include "compile/logic_gates.h"

/* id × 4, plus 2 for a leaf, plus 1 if negated. */
typedef uint32_t draft_literal;
static inline uint32_t draft_id(draft_literal x)
{
    return x >> 2;
}
static inline bool draft_is_leaf(draft_literal x)
{
    return (x & 2) != 0;
}
static inline bool draft_negated(draft_literal x)
{
    return (x & 1) != 0;
}
static inline draft_literal draft_of(uint32_t id, bool leaf, bool negated)
{
    return id << 2 | (leaf ? 2u : 0u) | (negated ? 1u : 0u);
}

typedef struct draft_gate {
    uint32_t first, count, least;
} draft_gate;

/* Gates [0, atom_count) are the atoms. */
typedef struct draft {
    const logic_input *in;
    const draft_gate *gates;
    uint32_t gate_count;
    const draft_literal *inputs;
    uint32_t input_count;
    const logic_leaf *leaves;
    uint32_t leaf_count;
    const uint32_t *body_first, *bodies; /* as in the logic; in its keeping arena */
} draft;

/* Every gate once, however often it was written. */
draft draft_make(arena *keep, arena *scratch, const logic_input *in);

/* Strongly connected components, each after those it needs. */
typedef struct components {
    const uint32_t *order; /* gates */
    const uint32_t *first; /* [component + 1] in order */
    const uint32_t *of;    /* [gate] */
    uint32_t count;
} components;

components components_find(arena *scratch, const draft *d);

/* Does the component need itself? */
bool component_is_loop(const components *c, const draft *d, uint32_t component);

/* Reports every loop through a negation; true if there was one. */
bool loops_refused(arena *scratch, const draft *d, const components *c, faults *list);

/* Reports every pair of a group's atoms that can hold at once; true if there was one. */
bool conflicts_refused(arena *scratch, const logic *l, faults *list);

#endif
