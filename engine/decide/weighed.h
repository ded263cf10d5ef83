/* One hypothesis weighed against another; nobody outside of decide includes this. */
#ifndef TT_DECIDE_WEIGHED_H
#define TT_DECIDE_WEIGHED_H

#include "session/session.h"

typedef struct weighed {
    tt_case *c;
    uint32_t rank, rival;  /* places in the view's causes */
    uint32_t mine, theirs; /* hypotheses: 0 something not listed, 1 + cause */
    double earlier;        /* decibels: of what was cured at this site before; */
    /* …with that, without rules and focus; with them; of fixes that were tried */
    double as_written, prior, fixes;
    const double *bars; /* [component] */
    double total;
    tt_why out;
} weighed;

/* why_cause.c: fills all of it from case, rank and rival. TT_NOT_NOW: there are no two. */
tt_status weigh_two(weighed *w);
void list_bars(weighed *w); /* into `out` */
/* Rules in force that make one of the two likelier or less, by name. */
const char *const *factor_rules(const weighed *w, uint32_t *count);
/* A question in words; of a difference that a comparison made, the reading that was compared. */
const char *asked_words(tt_case *c, uint32_t question);

/* why.c: [state] chances of a question's states under a hypothesis. */
const double *row_of(const prediction *p, uint32_t hypothesis);
/* A state of a question in words. */
const char *state_words(tt_case *c, uint32_t question, uint32_t state);

#endif
