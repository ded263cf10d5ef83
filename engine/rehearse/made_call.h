/* A made-up call: what is wrong, what there is to be seen, and what the person on the spot says. */
#ifndef TT_REHEARSE_MADE_CALL_H
#define TT_REHEARSE_MADE_CALL_H

#include "rehearse/world.h"
#include "session/session.h"
#include "telltale.h"

/* What does not change from call to call. */
typedef struct made_from {
    const program *prog;
    uint64_t seed;
    double misread; /* so much more often than the author says an answer is wrong */
} made_from;

typedef struct made_call {
    const made_from *from;
    const world *in;
    uint64_t number;
    const double *factor; /* [cause] of the rules that its facts put in force, as it was drawn */
    uint32_t hypothesis;  /* of the world's belief; 0: something not listed */
    uint32_t size, causes[2]; /* what is wrong; size 0: something not listed, or all of it cured */
    uint32_t gone[2], gone_count; /* what the last fix removed, until call_settle */
    uint32_t person;              /* who looks */
    uint32_t changes;             /* how often the signs were drawn anew */
    /* [question] a fact, or a quantity that facts alone decide: no fault shows in it */
    bool *fixed;
    uint32_t *state; /* [question] what is true */
} made_call;

/* Facts first, then what is wrong (by the prior with the factors that they bring), then what it
 * shows. `site`: a case without answers; it is left with the facts. Everything but the program
 * lives in `keep`. */
tt_status call_draw(arena *keep, arena *scratch, const made_from *from, const world *in,
                    uint64_t number, tt_case *site, made_call *out);

/* A copy with states of its own. */
made_call call_copy(arena *keep, const made_call *call);

bool call_has(const made_call *call, uint32_t cause);

/* What the person takes for true when asked the question for the n-th time, from 0: now and then
 * another state than what is. */
uint32_t call_seen(const made_call *call, uint32_t question, uint32_t time);

/* The same at a further look, perhaps with another instrument. */
tt_reply call_look(const made_call *call, uint32_t question, uint32_t time, bool another);

/* What the person says. A reading of which no number is plausible comes as "not sure". */
tt_reply call_reply(const made_call *call, uint32_t question, uint32_t time);

/* The complaint: one of the symptoms that people put in words and that seem to be there, or
 * TT_NONE. It is never about a piece of equipment if what is wrong with its kind is at others.
 * `askable[question]`: what the person can see; `resting_on_one`: only complaints that are one
 * answer. */
uint32_t call_complaint(const made_call *call, arena *scratch, const bool *askable,
                        bool resting_on_one);

/* Carries out a fix: removes what it cures and says what the person reports (docs/mathematics.md,
 * outcomes of fixes). */
tt_outcome call_fix(made_call *call, uint32_t fix);
/* Two under one lockout, with one report; `with` may be NO_ID. */
tt_outcome call_fixes(made_call *call, uint32_t fix, uint32_t with);
/* After it: what was cured no longer shows. Findings that are kept (facts, and answers that still
 * stand, since the engine goes on with them) stay as they are, and so does all that doesn't depend
 * on what was cured. */
void call_settle(made_call *call, arena *scratch, const bool *keeps);

/* A number inside a reading's state, in the unit of people at the site, within what is usual if it
 * can be, else within what is plausible. False: there is none. */
bool number_in_state(const program *p, uint32_t question, uint32_t state, dice *d, double *number);

#endif
