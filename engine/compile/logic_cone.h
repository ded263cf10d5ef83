/* What lies beneath some atoms, tried out under answers that are partly chosen: for the search for
 * contradictions.
 *
 * A node's standing has four bits: it does hold, it does fail, it can still come to hold, it can
 * still come to fail. An answer not yet chosen leaves both open; a finding chosen as "not known"
 * can do neither. */
#ifndef TT_COMPILE_LOGIC_CONE_H
#define TT_COMPILE_LOGIC_CONE_H

#include "compile/logic_gates.h"

enum { HOLDS = 1, FAILS = 2, CAN_HOLD = 4, CAN_FAIL = 8 };

/* What is chosen for a finding: a state, or one of these. */
enum { CHOICE_NOT_KNOWN = EXPR_STATES_MAX, CHOICE_OPEN };

typedef struct cone {
    const logic *l;
    uint8_t *standing; /* [node] */
    uint8_t *chosen;   /* [finding] */
    uint32_t *gates;   /* beneath the atoms, rising */
    uint32_t gate_count;
    uint32_t *findings; /* that they ask, rising */
    uint32_t finding_count;
    uint32_t *mark;         /* [node] round in which it was met */
    uint32_t *finding_mark; /* [finding] */
    uint32_t *stack;
    uint32_t round;
    uint64_t work;  /* gates and inputs looked at so far */
    uint64_t limit; /* of work: past it, loops are left half evaluated */
} cone;

cone *cone_new(arena *scratch, const logic *l);

/* Looks beneath one or two atoms (the same twice is fine). Every finding is open again. */
void cone_of(cone *c, uint32_t a, uint32_t b);

void cone_choose(cone *c, uint32_t finding, uint32_t choice);

/* Brings the gates in line with what is chosen; false if the limit was passed, and the standings
 * are then too low. */
bool cone_evaluate(cone *c);

/* Calls visit for every open finding that some undecided gate between it and the atoms still waits
 * for. */
void cone_each_open(cone *c, uint32_t a, uint32_t b, void (*visit)(void *context, uint32_t finding),
                    void *context);

static inline uint8_t cone_atom(const cone *c, uint32_t atom)
{
    return c->standing[c->l->atom_node[atom]];
}

#endif
