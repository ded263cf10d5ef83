/* One made-up call, played to its end in one way. */
#ifndef TT_REHEARSE_PLAY_H
#define TT_REHEARSE_PLAY_H

#include "rehearse/made_call.h"

/* Ways to play a call. All follow the engine in what to fix; they differ in what is asked. */
typedef enum way {
    WAY_TELLTALE,   /* as the engine says, safe fixes first */
    WAY_SOONEST,    /* as the engine says, the quickest fixes first */
    WAY_IN_ORDER,   /* questions in name order, until the engine would fix or call */
    WAY_EVERYTHING, /* every question that applies, then fixes */
    WAY_COUNT
} way;

enum { LEVELS_OFFERED = 3, NOT_LISTED = -1 };

/* How the ranking stood to the truth. */
typedef struct judgement {
    bool leads,
        among_three; /* a cause that is there (or "something not listed", if that is the truth) */
    double leading;  /* chance of the leading cause */
    double truth;    /* chance of what is wrong; of the likelier of two causes */
    int64_t blamed;  /* the leading cause, or NOT_LISTED */
} judgement;

typedef enum call_end { END_CURED, END_CALLED, END_STOPPED } call_end;

typedef struct played_step {
    bool fix;         /* else a question */
    uint32_t subject;
} played_step;

typedef struct played {
    call_end end;
    bool
        ranked; /* false: stopped for danger before any fix, so that there was no advice to judge */
    judgement first; /* when the first fix was begun, or the call ended without one */
    judgement last;  /* when the fix that cured was begun, or the call ended */
    uint32_t questions, fixes;
    uint32_t needless[LEVELS_OFFERED]; /* fixes that could not have helped, by risk level */
    const played_step *path; /* what was asked and tried, in order */
    uint32_t path_count;
    double minutes; /* of questions and fixes; the call-out too if somebody had to come */
} played;

/* Plays on a fresh case. `call` is changed as fixes change the equipment. TT_NOT_NOW: the engine
 * goes round in circles. */
tt_status call_play(arena *scratch, tt_case *c, made_call *call, way how, played *out);

#endif
