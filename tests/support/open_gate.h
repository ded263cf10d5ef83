/* Past the danger gate, for tests that are about what comes behind it. */
#ifndef TT_SUPPORT_OPEN_GATE_H
#define TT_SUPPORT_OPEN_GATE_H

#include "telltale.h"

/* An answer that lets the case go on. */
tt_reply safe_answer(const tt_question *gate);

/* Answers what the gate asks until it is open: gate questions as safe, facts before them as unsure.
 * The test fails if it stays shut. */
void open_gate(tt_case *c);

#endif
