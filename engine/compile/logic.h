/* The rules as a network of atoms, ready for forward chaining. An atom is a proposition with any
 * number of bodies; it holds when any body holds. Symptom shown: one body. Rule in force: one body,
 * its `when`. Value of a conclusion: one body per rule that sets it. Compiled: gates in topological
 * order of strongly connected components; a loop through "not", "not known" or a count that can
 * fall is refused (stratification: Apt, Blair, Walker 1988, "Towards a theory of declarative
 * knowledge"). */
#ifndef TT_COMPILE_LOGIC_H
#define TT_COMPILE_LOGIC_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/faults.h"
#include "base/str.h"
#include "compile/expr.h"

typedef struct logic_atom {
    str name; /* as an explanation says it: "rule dry-air", "wet-line is yes" */
    span at;
} logic_atom;

typedef struct logic_body {
    uint32_t atom;
    const expr *when;
    span at;
} logic_body;

/* Atoms of which at most one may hold: the values of one conclusion. */
typedef struct logic_group {
    str name;
    const uint32_t *atoms;
    uint32_t count;
} logic_group;

typedef struct logic_finding {
    str name;
    uint32_t states;
    const str *state_names; /* for explanations */
} logic_finding;

typedef struct logic_input {
    const logic_finding *findings;
    uint32_t finding_count;
    const logic_atom *atoms;
    uint32_t atom_count;
    const logic_body *bodies;
    uint32_t body_count;
    const logic_group *groups;
    uint32_t group_count;
} logic_input;

typedef struct logic logic;

/* Faults (errors; result null): a loop through negation, told with the whole path; two rules that
 * set different values and can both hold, told with answers that make both hold and the chain from
 * them. Search for those answers is bounded; when the bound is reached, a warning. The arrays that
 * `in` points to are kept, not copied; the answers looked through are single states and, where a
 * condition asks `known`, none. */
const logic *logic_build(arena *keep, arena *scratch, const logic_input *in, faults *list);

const logic_input *logic_source(const logic *l);

#endif
