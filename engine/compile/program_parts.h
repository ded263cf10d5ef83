/* The steps of program_build, shared by the files that hold them; nobody else includes this. */
#ifndef TT_COMPILE_PROGRAM_PARTS_H
#define TT_COMPILE_PROGRAM_PARTS_H

#include "compile/program.h"

/* readings.c: every bound that a condition names cuts the reading there. */
const state_table *program_cut_readings(arena *keep, arena *scratch, const book *b, faults *list);

/* states.c */
/* Whether two cuts are one but for rounding, whatever side they are on; and their order. */
bool cut_same_place(const cut *a, const cut *b);
int cut_by_place(const void *a, const void *b);
/* States of a reading that lie inside a condition's interval. */
state_mask program_range_mask(const program *p, const cond *c);
/* The state in words: "below 20 psi". */
str program_state_words(arena *keep, const program *p, uint32_t question, uint32_t state);

/* A symptom may rest on rules that rest on rules: this many parts of conditions in all. */
enum { EXPANDED_PARTS_MAX = 4096 };

/* conditions.c: conditions over questions and atoms; expanded, they follow symptoms and conclusions
 * down to the findings beneath (null: more parts than are allowed). */
const expr *program_condition(arena *keep, const program *p, const cond *c);
typedef struct expander expander;
/* What is expanded stands in `keep`, a symptom or conclusion once, however often it is met. */
expander *program_expander(arena *keep, const program *p);
const expr *program_expanded(expander *x, const cond *c);
/* How many are kept: while it stays, all that was expanded last may be given back. */
uint32_t program_expansions(const expander *x);
void program_each_condition(const book *b, void (*visit)(void *context, const cond *c),
                            void *context);

/* atoms.c */
void program_name_atoms(arena *keep, program *p);
const logic_input *program_logic(arena *keep, const program *p);

/* evidence.c */
/* Null: a symptom can't be expanded. */
net_input *program_evidence(arena *keep, const program *p, faults *list);
void program_mark_use(arena *keep, program *p, const net_input *in);

#endif
