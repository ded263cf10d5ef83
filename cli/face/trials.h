/* Worked cases, and the numbers that they hold: in words, and as a report for servers. */
#ifndef TT_CLI_TRIALS_H
#define TT_CLI_TRIALS_H

#include "host/screen.h"
#include "telltale.h"

void show_failed(const screen *s, const tt_trial *trial);
/* How many came out as expected. */
void show_trials(const screen *s, const tt_trials *trials);
/* How much of the book they touch, and what none does. */
void show_touched(const screen *s, const tt_trials *trials);
/* The numbers that no worked case holds. */
void show_holding(const screen *s, const tt_holding *all);

/* As JUnit XML on standard output: one test case for each worked case. */
void print_junit(const tt_book *book, const tt_trials *trials);

#endif
