/* What the policies share: the case as it stands, and what the predicate that held has found. */
#ifndef TT_DECIDE_SITUATION_H
#define TT_DECIDE_SITUATION_H

#include "decide/policies.h"
#include "session/session.h"

typedef struct situation {
    tt_case *c;
    const options *o;
    tt_view *view;
    uint32_t question, fix; /* found by the predicate: what its step is about */
    text_id reason;         /* …and why */
    uint32_t other;         /* the answer that its own doesn't fit */
    tt_again again;
    bool weighed; /* `balanced` is made: it costs most, and only the last policies need it */
    choice balanced;
} situation;

#define DECLARE_POLICY(name, when, holds, make, when_text, then_text) \
    bool holds(situation *s); \
    void make(situation *s);
POLICY_TABLE(DECLARE_POLICY)
#undef DECLARE_POLICY

/* asking.c */
void ask_step(situation *s, uint32_t question, text_id reason); /* the step is to ask it */
/* itself, or the fact that decides whether it applies; NO_ID: neither can be asked */
uint32_t ask_or_what_it_needs(situation *s, uint32_t question);

/* calling.c */
/* The step is to call whoever is likely to be of use; somebody from outside, if those whom the book
 * knows are not. */
void call_step(situation *s);
void call_for(situation *s, uint32_t fix); /* …who may do the work of this fix */
/* Who may do the most promising fix that this role may not; else the next role. NULL: there is none
 */
const char *role_in_danger(situation *s);

/* policy_gate.c */
tt_gate gate_now(situation *s);

/* balanced.c */
const choice *balanced_choice(situation *s); /* made once */

/* policy_balanced.c */
uint32_t option_beneath_complaint(situation *s); /* or NO_ID */

#endif
