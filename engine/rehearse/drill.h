/* Inside of a drill: what is kept of it, and how what was told can be told again to a fresh case.
 */
#ifndef TT_REHEARSE_DRILL_H
#define TT_REHEARSE_DRILL_H

#include "rehearse/made_call.h"

/* Told to the case, in order. */
typedef enum told_kind { TOLD_COMPLAINT, TOLD_ANSWER, TOLD_TRIED, TOLD_PUT_BACK } told_kind;
typedef struct told_event {
    told_kind kind;
    uint32_t subject;
    tt_reply reply;
    tt_outcome outcome;
} told_event;

/* What the engine would do as things stand. */
typedef struct advice {
    bool fix, calls;
    uint32_t subject; /* question or fix; TT_NONE: it calls, or is done */
} advice;

struct tt_drill {
    const tt_book *book;
    uint32_t role;
    const char *language;
    arena *keep, *of_call, *scratch, *shown;
    made_from from;
    world in;
    made_call call;
    tt_case *c, *other;   /* the learner's; another at work, freed wherever the work ends */
    tt_rehearsal *engine; /* likewise */
    const tt_view *v;     /* of the learner's case, as it was looked at last */
    uint32_t *times;      /* [question] told so often */
    bool *read;           /* [question] its minutes are counted, until it may have changed */
    bool *tried;          /* [fix] */
    told_event *told;
    uint32_t told_count, told_room;
    tt_drill_step *steps;
    uint32_t step_count, step_room;
    tt_drill_danger *dangers;
    uint32_t danger_count, danger_room;
    tt_drill_cause causes[2];
    uint32_t cause_count, wrong[2];
    const char *complaint;
    double minutes;
    tt_drill_end end;
    tt_drill_review review;
};

/* ---- drill_worth.c ---- */
advice drill_advice(const tt_drill *d);
/* Decibels for what is wrong, as this view has it. */
double drill_odds(const tt_drill *d, const tt_view *v);
/* What looking at it would be worth now, on this very call. */
tt_status drill_worth(tt_drill *d, uint32_t question, double *decibels);

#endif
