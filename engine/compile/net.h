/* The evidence network: priors, findings, and for every component of findings a table P(atom |
 * cause). (An atom here is a set of cells with the same truth vector over the component's
 * symptoms.) Mathematics: docs/mathematics.md, sections "Priors" and "Components, atoms, fitting".
 * All chances an author gives are clipped to [1e-6, 1-1e-6]. */
#ifndef TT_COMPILE_NET_H
#define TT_COMPILE_NET_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/faults.h"
#include "base/str.h"
#include "compile/expr.h"

#define NO_STATE     UINT32_MAX
#define NO_COMPONENT UINT32_MAX

/* Beyond either no two faults at once are reckoned with: causes, of which there are a million pairs
 * then; steps to weigh all answers once for the pairs of which one component lists both. */
enum { NET_PAIRS_CAUSES_MAX = 1500, NET_PAIRS_STEPS_MAX = 20000000 };

enum {
    NET_CELLS_MAX = 4096,  /* of one component */
    NET_SYMPTOMS_MAX = 16, /* of one component */
    SOURCES_MAX = 3,       /* of one finding; the first of more */
};

typedef struct net_rate {
    uint32_t cause;
    double chance;
} net_rate;

typedef struct net_symptom {
    str name;
    span at;
    const expr *when; /* over findings only: no ATOM, no KNOWN */
    bool confirms;    /* one answer of one question, made to confirm one cause */
    double otherwise; /* chance to see it with some other listed cause */
    const net_rate *listed;
    uint32_t listed_count;
} net_symptom;

typedef struct net_finding {
    str name;
    uint32_t states; /* 1 … EXPR_STATES_MAX */
    uint32_t usual;  /* NO_STATE: none given */
    double right;    /* reliability r: how often people answer it right, (0, 1] */
    bool fact; /* a fact of the site or of today: in no table; tables depend on it if a symptom
                  names it beside a question */
    state_mask settling; /* answers that confirm a cause */
    double toward; /* how often one of those is told where it isn't so (at most as often as any
                      other slip) */
    /* with which it is answered: where one misleads, every look through it does */
    const uint32_t *sources;
    uint32_t source_count; /* 0: nobody says with what */
} net_finding;

/* What people read with, or their own senses. */
typedef struct net_source {
    double wrong; /* how often it misleads whoever reads it right */
    bool own;     /* each person has one */
} net_source;

typedef struct net_pair {
    uint32_t first, second; /* causes */
} net_pair;

typedef struct net_reader {
    uint32_t cause, fact;
} net_reader;

typedef struct net_input {
    const net_finding *findings;
    uint32_t finding_count;
    const net_source *sources;
    uint32_t source_count;
    const net_symptom *symptoms;
    uint32_t symptom_count;
    const str *cause_names;
    const double *weights; /* how often each cause occurs, relative; ≥ 0, not all 0 */
    uint32_t cause_count;
    double answers_count; /* power to which what the answers say counts, (0, 1]; 0: not said, 1 */
    double not_listed;    /* u = P(something not listed), [0, 1) */
    double two_faults;    /* d2, share of two-fault calls, [0, 1) */
    span at;              /* the section that says so, or nowhere */
    const net_pair *never_with;
    uint32_t never_with_count;
    const net_reader *readers; /* causes that a fact makes more or less likely */
    uint32_t reader_count;
} net_input;

/* Findings connected by standing in one symptom's condition. Cells count with the last finding
 * fastest. */
typedef struct component {
    const uint32_t *findings; /* rising */
    uint32_t finding_count;
    const uint32_t *stride; /* of each of its findings, in cells */
    uint32_t cell_count, atom_count;
    const uint32_t *cell_atom; /* [cell], atoms numbered in order of first appearance */
    const double *within;      /* [cell] P(cell | its atom) */
    const double *base;        /* [atom] q0 */
    uint32_t usual_atom;       /* v0 */
    const uint32_t *symptoms;  /* indices into net_input.symptoms, rising */
    uint32_t symptom_count;
    const uint32_t *listed; /* causes listed by any of its symptoms, rising */
    uint32_t listed_count;
    const double *table; /* [listed][atom] T_c; every other cause has `base` */
    const double *other; /* [atom] O, for something not listed */
    /* Where its symptoms name facts too: a table for each combination of their states, the last
     * fact fastest, and above the mean over them. Then readers of the facts are listed as well. */
    const uint32_t *facts; /* findings, rising */
    uint32_t fact_count, slice_count;
    const double *slices; /* [slice][row][atom]; rows: listed, base, other */
    const double *odds;   /* [row][slice] what the means are over */
} component;

typedef struct net {
    net_input in;        /* shallow copy; chances clipped */
    const double *share; /* [cause] pi_c, sums to 1 */
    const component *components;
    uint32_t component_count;
    const uint32_t *component_of; /* [finding] or NO_COMPONENT (no symptom names it) */
    const uint32_t *slot_of;      /* [finding] index within its component */
    uint64_t pair_steps;
} net;

/* Whether two faults at once are reckoned with. */
static inline bool net_weighs_pairs(const net *n)
{
    return n->in.two_faults > 0 && n->in.cause_count >= 2 &&
           n->in.cause_count <= NET_PAIRS_CAUSES_MAX && n->pair_steps <= NET_PAIRS_STEPS_MAX;
}

/* Builds it; `keep` and `scratch` must be two arenas. Faults go to `list` (may be null). Errors,
 * after which the result is null: sum of weights 0, component too big. Warnings: exclusive rates
 * whose sum is off, 'otherwise' above a half, contradictory numbers, unlisted compound symptoms off
 * by more than a factor 2. */
const net *net_build(arena *keep, arena *scratch, const net_input *in, faults *list);

/* The same net with other numbers: only the tables that they stand in are fitted anew, the rest is
 * shared with `n`, which must outlive it. It is what net_build would make of the changed input. */
typedef enum net_change_kind { NET_WEIGHT, NET_LISTED, NET_OTHERWISE } net_change_kind;
typedef struct net_change {
    net_change_kind kind;
    uint32_t at;   /* WEIGHT: cause; else symptom */
    uint32_t rate; /* LISTED: which of its causes */
    double value;  /* WEIGHT: above 0; else a chance */
} net_change;
const net *net_with(arena *keep, arena *scratch, const net *n, const net_change *changes,
                    uint32_t count);

/* The component's means with other odds [row][slice], which are kept. */
component component_mixed(arena *keep, const component *g, const double *odds);

/* Row of a cause in a component: its own if listed, else base. */
const double *component_row(const component *g, uint32_t cause);

/* FIT (exposed for tests): T over `count` atoms from q, with `symptoms` sets given as masks over
 * atoms: inside[s*count + a]. Closed form if the sets are disjoint and `single_finding`; else ridge
 * maximum entropy by damped Newton. */
void net_fit(arena *scratch, const double *q, uint32_t count, const bool *inside,
             const double *target, uint32_t symptoms, bool single_finding, double *out);

#endif
