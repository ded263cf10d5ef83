/* Conditions as the engine runs them: over states of findings and over atoms (named propositions
 * that are derived: a symptom shown, a value of a conclusion, a rule in force, a question that
 * applies). */
#ifndef TT_COMPILE_EXPR_H
#define TT_COMPILE_EXPR_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/source.h"

enum { EXPR_STATES_MAX = 64 }; /* states of one finding: they fit a mask */

typedef uint64_t state_mask;

/* Kleene's three values. */
typedef enum truth { TRUTH_FALSE, TRUTH_TRUE, TRUTH_UNKNOWN } truth;

typedef enum expr_kind {
    EXPR_IS,       /* finding's state is in mask */
    EXPR_KNOWN,    /* finding has one certain state */
    EXPR_ATOM,     /* derived proposition */
    EXPR_ALL,      /* all parts (none: true) */
    EXPR_ANY,      /* any part (none: false) */
    EXPR_NOT,      /* parts[0] does not hold */
    EXPR_AT_LEAST, /* at least `number` of the parts */
} expr_kind;

typedef struct expr expr;
/* Small: "of every" makes one for each piece at the site. */
struct expr {
    expr_kind kind;
    uint32_t count; /* of parts; none of a finding or an atom */
    union {
        uint32_t subject; /* finding (IS, KNOWN) or atom (ATOM) */
        uint32_t number;  /* AT_LEAST */
    };
    span at; /* where the author wrote it */
    union {
        state_mask mask;          /* IS */
        const expr *const *parts; /* of which there are `count` */
    };
};

const expr *expr_is(arena *keep, uint32_t finding, state_mask mask, span at);
const expr *expr_known(arena *keep, uint32_t finding, span at);
const expr *expr_atom(arena *keep, uint32_t atom, span at);
const expr *expr_many(arena *keep, expr_kind all_or_any, const expr *const *parts, uint32_t count,
                      span at);
/* Of any of the three, whose parts stand in `keep` already. */
const expr *expr_of_kept(arena *keep, expr_kind kind, uint32_t number, const expr *const *parts,
                         uint32_t count, span at);
const expr *expr_at_least(arena *keep, uint32_t number, const expr *const *parts, uint32_t count,
                          span at);
const expr *expr_not(arena *keep, const expr *part, span at);

/* Does it hold when every finding's state is certain? Only IS, ALL, ANY, NOT, AT_LEAST may occur.
 */
bool expr_holds(const expr *e, const uint32_t *state_of_finding);

/* Calls visit for every finding named (IS, KNOWN), in order, repeats included. */
void expr_each_finding(const expr *e, void (*visit)(void *context, uint32_t finding),
                       void *context);

#endif
