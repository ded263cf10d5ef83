/* INT, TERM and HUP: what ends a program from outside. They end this one at once, but for two short
 * stretches: while something is written that has to be whole, they wait; and where lines are
 * awaited (line_input.h), the first of them is only noted, so that what was said is kept and how to
 * go on is told; main.c passes it on at the end. The second always ends the program. */
#ifndef TT_CLI_SIGNALS_H
#define TT_CLI_SIGNALS_H

#include <signal.h>

/* From here on the next of them is noted. One that was ignored when the program began stays so. */
void signals_note(void);
/* Which one came, or 0. */
int signals_noted(void);
/* The one that came ends the program as if nobody had caught it; returns if none came. */
void signals_pass_on(void);

/* From here on a fault of the program itself (a failed assertion, memory misused) says so, and to
 * whom it is told, before it ends the program as ever. */
void signals_own_faults(void);

/* Between the two they wait. *before: the mask to go back to. */
void signals_hold(sigset_t *before);
void signals_let_go(const sigset_t *before);

#endif
