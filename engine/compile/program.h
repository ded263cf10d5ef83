/* Book → program: what runs. Question q is finding q. Readings become the intervals that conditions
 * cut. */
#ifndef TT_COMPILE_PROGRAM_H
#define TT_COMPILE_PROGRAM_H

#include "base/arena.h"
#include "base/faults.h"
#include "compile/facts.h"
#include "compile/logic.h"
#include "compile/net.h"
#include "model/book.h"

/* States of a reading: state i lies between cut i-1 and cut i. A cut belongs to the state above it,
 * unless `above` is set ("at most 20" keeps 20 in the state below). */
typedef struct cut {
    double at;
    bool above;
} cut;

typedef struct state_table {
    const cut *cuts; /* rising; states = cut_count + 1 */
    uint32_t cut_count;
} state_table;

typedef struct program {
    const book *book;
    const state_table *tables; /* [question]; no cuts for choices */
    const net *evidence;
    const facts *facts; /* what is not told of the site and of today */
    const logic *rules;
    /* Atoms of the logic, or NO_ID: */
    const uint32_t *symptom_atom;           /* [symptom] */
    const uint32_t *rule_atom;              /* [rule] */
    const uint32_t *ask_atom;               /* [question] its only-when, NO_ID: always */
    const uint32_t *fix_atom;               /* [fix] its only-when, NO_ID: always */
    const uint32_t *cause_atom;             /* [cause] its only-when, NO_ID: always */
    const uint32_t *const *conclusion_atom; /* [conclusion][answer] */
    const net_rate *const *cures;           /* [fix], as choose wants them */
    const bool *is_evidence;                /* [question] has a component */
} program;

/* Null if there were errors. */
const program *program_build(arena *keep, arena *scratch, const book *b, faults *list);

/* State of a reading; states of a choice are its answers in name order. */
uint32_t program_state_of(const program *p, uint32_t question, double number);
/* The same for a number reckoned from others as large as `magnitude`: one that differs from a cut
 * by rounding lies on it. */
uint32_t program_state_near(const program *p, uint32_t question, double number, double magnitude);
uint32_t program_states(const program *p, uint32_t question);

#endif
