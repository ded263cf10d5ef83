/* The steps of net_build, shared by the files that hold them; nobody else includes this. */
#ifndef TT_COMPILE_NET_PARTS_H
#define TT_COMPILE_NET_PARTS_H

#include "compile/net.h"

#define CHANCE_LEAST 1e-6
#define CHANCE_MOST  (1 - 1e-6)

/* A component while it is built. What only the lints need lives in scratch, and so does this. */
typedef struct draft {
    const net *n;
    component *made;
    uint32_t *state;      /* [finding of the net] the cell at hand, for expr_holds */
    const uint32_t *only; /* [symptom] slot of the one finding that it names, or NO_SLOT */
    const bool *inside;   /* [symptom][atom] */
    const double *target; /* [row][symptom] as the author wrote it, NAN: not listed. Row
                             `listed_count`: otherwise */
    double *fitted;       /* [row][symptom] what FIT made of it, before smoothing */
} draft;
#define NO_SLOT UINT32_MAX

/* net_groups.c: findings that stand in one symptom's condition, and the symptoms over them. */
typedef struct net_group {
    const uint32_t *findings, *symptoms; /* rising */
    uint32_t finding_count, symptom_count;
    const uint32_t *facts; /* that the symptoms name, rising */
    uint32_t fact_count;
} net_group;
/* net_slices.c */
/* NET_CELLS_MAX + 1 if more */
uint32_t net_group_slices(const net_input *in, const net_group *from);
/* A component whose symptoms name facts; lints go to `list`. */
void component_build_sliced(arena *keep, arena *scratch, const net *n, const net_group *from,
                            uint32_t *state, component *out, faults *list);
const net_group *net_groups(arena *scratch, const net_input *in, uint32_t *count);

/* net_component.c. Scratch is the caller's to give back. */
draft *component_build(arena *keep, arena *scratch, const net *n, const net_group *from,
                       uint32_t *state, component *out);
/* product of states, NET_CELLS_MAX + 1 if more */
uint64_t net_group_cells(const net_input *in, const net_group *from);

/* What it shows with something not listed. */
const double *component_other(arena *keep, const net *n, const component *g);

/* net.c */
double clip_chance(double chance);

/* net_limits.c */
void lint_no_weight(faults *list, const net_input *in);
void lint_pairs(faults *list, const net *n);
void lint_too_big(faults *list, arena *scratch, const net_input *in, const net_group *from);
/* Adds item `index` of a list of `count` names: "'a', 'b' and 'c'". */
void add_name(text_builder *b, str name, uint32_t index, uint32_t count);

/* net_lint.c */
void lint_component(faults *list, arena *scratch, const draft *d);

/* net_confirms.c: of a net that is built. */
void lint_confirming(faults *list, arena *scratch, const net *n);

/* net_fit.c: every entry at least CHANCE_LEAST, then sum 1. */
void floor_and_normalise(double *p, uint32_t count);

/* Chance that a set of atoms (inside[count]) has under p. */
double chance_inside(const double *p, const bool *inside, uint32_t count);

#endif
