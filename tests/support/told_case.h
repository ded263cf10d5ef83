/* A book from one text and a case of it, told step by step by names, as several people may: for
 * tests of what comes next. Whatever a call refuses fails the test, unless its status is asked for.
 */
#ifndef TT_SUPPORT_TOLD_CASE_H
#define TT_SUPPORT_TOLD_CASE_H

#include "telltale.h"

typedef struct told_case {
    tt_book *book;
    tt_case *c;
} told_case;

told_case told_new(const char *yaml, const tt_options *options);
void told_free(told_case *t);

uint32_t told_question(const told_case *t, const char *name);
uint32_t told_fix(const told_case *t, const char *name);

/* An answer by the name of its option, or a number; "unsure", "cannot". */
tt_reply told_reply(const told_case *t, const char *question, const char *said);
void told_answer(told_case *t, const char *question, const char *said);
tt_status told_tried(told_case *t, const char *fix, tt_outcome outcome);

const tt_view *told_look(told_case *t);
/* The view is of this step, made by this policy. */
void told_comes(told_case *t, tt_step step, tt_policy policy);
/* …which asks this. */
void told_asks(told_case *t, const char *question, tt_policy policy);
/* …which is about this fix. */
void told_offers(told_case *t, tt_step step, const char *fix);
void told_gate(told_case *t, tt_gate_state state, const char *question); /* null: about none */
double told_chance(told_case *t, const char *cause);

#endif
