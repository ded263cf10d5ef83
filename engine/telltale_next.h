/* Part of telltale.h, which includes it: what comes next in a case. */
#ifndef TELLTALE_NEXT_H
#define TELLTALE_NEXT_H

/* To ask `next.question`, to try `fix`, to call somebody, to stop, the end, to put back what `fix`
 * has changed; which piece of `kind` the complaint `symptom` is about; which of the answers to
 * `next.question`, or of the reports on `fix`, is right; what is wrong; the end of a round or a
 * record. */
typedef enum tt_step {
    TT_ASK,
    TT_FIX,
    TT_CALL,
    TT_STOP,
    TT_CLOSED,
    TT_PUT_BACK,
    TT_PIECE,
    TT_SETTLE,
    TT_COMPLAINT,
    TT_WALKED
} tt_step;
/* Which row of the table of decisions made the step (docs/decision.md). */
typedef enum tt_policy {
    TT_BY_GATE,
    TT_BY_EARLY,
    TT_BY_PIECE,
    TT_BY_UNSETTLED,
    TT_BY_WALK,
    TT_BY_PUT_BACK,
    TT_BY_ADJUSTING,
    TT_BY_LOOK_AGAIN,
    TT_BY_READING,
    TT_BY_COMPLAINT,
    TT_BY_CLASH,
    TT_BY_BALANCED,
    TT_BY_CLOSE
} tt_policy;
typedef struct tt_next {
    uint32_t question; /* TT_NONE: none left */
    double bits, minutes, saves_minutes;
    const char *reason; /* in words */
    bool first; /* it rules out danger, or is an early fact: to be asked before the complaint and
                   anything else */
    uint32_t quantity; /* the quantity it is one of the readings for, whose worth `bits` tells; else
                          TT_NONE */
    bool for_callee;   /* somebody is called next whatever the answer: it is asked for them */
    tt_again again;    /* it was answered, and is worth a second look (tt_answer_again): */
    const char *with;  /* with what, or "" */
    uint32_t clash;    /* the question whose answer does not fit what was answered; or TT_NONE */
} tt_next;

#endif
