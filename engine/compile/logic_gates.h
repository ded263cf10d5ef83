/* A compiled logic seen from inside: what logic_build lays out and forward chaining runs.
 *
 * A node is a leaf (a question to one finding) or a gate (so many of its inputs must hold). Leaves
 * come first, then the gates in topological order: whatever a gate needs from outside its own loop
 * has a smaller number. Negation is pushed down to single inputs, where a negated threshold becomes
 * a threshold over negated inputs; Kleene's three values survive that unchanged, and a loop without
 * negated inputs is then monotone. */
#ifndef TT_COMPILE_LOGIC_GATES_H
#define TT_COMPILE_LOGIC_GATES_H

#include "compile/logic.h"

#define NO_LOOP UINT32_MAX
#define NO_ATOM UINT32_MAX
#define NO_BODY UINT32_MAX

/* Truth of a node, one byte; the numbers are those of `truth` in the working memory. */
enum { NODE_FALSE, NODE_TRUE, NODE_UNKNOWN };

/* Input of a gate: node × 2, plus 1 if it counts when the node is false. */
typedef uint32_t literal;
static inline uint32_t literal_node(literal x)
{
    return x >> 1;
}
static inline bool literal_negated(literal x)
{
    return (x & 1) != 0;
}
static inline literal literal_of(uint32_t node, bool negated)
{
    return node << 1 | (negated ? 1u : 0u);
}

typedef struct logic_leaf {
    uint32_t finding;
    bool asks_known; /* is it known at all; otherwise: is its state in the mask */
    state_mask mask;
} logic_leaf;

/* True once `least` inputs are, false once `fails` inputs are; inputs end where those of the next
 * gate begin. */
typedef struct logic_gate {
    uint32_t first;
    uint32_t least, fails;
    uint32_t loop; /* that it is part of, or NO_LOOP */
} logic_gate;

/* Nodes [first, end) that need each other; `slot` numbers the gates of all loops through. */
typedef struct logic_loop {
    uint32_t first, end, slot;
} logic_loop;

struct logic {
    logic_input source;
    uint32_t leaf_count, node_count;
    const logic_leaf *leaves;   /* by finding */
    const uint32_t *leaf_first; /* [finding + 1] */
    const logic_gate *gates;    /* [node - leaf_count], one more at the end */
    const literal *inputs;
    const uint32_t *fan_first; /* [node + 1] */
    const literal *fan;        /* gates it is an input of; negated: it counts there when false */
    const logic_loop *loops;
    uint32_t loop_count, loop_gates, largest_loop;
    const uint32_t *atom_node;  /* [atom] */
    const uint32_t *node_atom;  /* [node], NO_ATOM for what has no name */
    const uint32_t *body_first; /* [atom + 1] */
    const uint32_t *bodies;     /* by atom, rising; of several, input i of its gate is body i */
};

static inline const logic_gate *logic_gate_at(const logic *l, uint32_t node)
{
    return &l->gates[node - l->leaf_count];
}

static inline state_mask states_mask(uint32_t states)
{
    return states >= EXPR_STATES_MAX ? ~(state_mask)0 : ((state_mask)1 << states) - 1;
}

#endif
