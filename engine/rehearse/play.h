/* One made-up call, played to its end in one way. */
#ifndef TT_REHEARSE_PLAY_H
#define TT_REHEARSE_PLAY_H

#include "rehearse/made_call.h"

/* Ways to play a call. All follow the engine in what to fix; they differ in what is asked. */
typedef enum way {
    WAY_TELLTALE,    /* as the engine says, safe fixes first */
    WAY_SOONEST,     /* as the engine says, the quickest fixes first */
    WAY_IN_ORDER,    /* questions in name order, until the engine would fix or call */
    WAY_EVERYTHING,  /* every question that applies, then fixes */
    WAY_ALL_KNOWN,   /* the same, but every answer is known before, at no minutes */
    WAY_CLAIRVOYANT, /* what is wrong is known: the fixes that cost least for it, or calling at once
                      */
    WAY_COUNT
} way;

enum { LEVELS_OFFERED = 3, NOT_LISTED = -1 };

/* How the ranking stood to the truth. */
typedef struct judgement {
    /* a cause that is there (or "something not listed", if that is the truth) */
    bool leads, among_three;
    double leading;     /* chance of the leading cause */
    double truth;       /* chance of what is wrong; of the likelier of two causes */
    int64_t blamed;     /* the leading cause, or NOT_LISTED */
    bool in_set;        /* some of what is wrong is in the smallest set that holds 90 % */
    double set_mass;    /* what that set holds; */
    uint32_t set_count; /* …and how many are in it */
} judgement;

typedef enum call_end { END_CURED, END_CALLED, END_STOPPED } call_end;

typedef struct played_step {
    bool fix; /* else a question */
    uint32_t subject;
    bool joined; /* done under the lockout of the fix before it, with one report for both */
} played_step;

/* What those did who were called, one after the other: each goes on with all that was told. */
typedef struct taken_over {
    uint32_t times; /* how often the call was handed over */
    call_end end;   /* of the last of them; CALLED: nobody is left to be called */
    double minutes; /* worked by all of them together, waiting aside */
    uint32_t looks; /* of the questions, further looks at what was answered */
    uint32_t questions, fixes, place_changes;
} taken_over;

typedef struct played {
    uint32_t looks; /* of the questions, further looks at what was answered; of these… */
    uint32_t clashes, false_clashes; /* …because two answers clash; …and neither was read amiss */
    call_end end;
    /* false: stopped for danger before any fix, so that there was no advice to judge */
    bool ranked;
    judgement first; /* when the first fix was begun, or the call ended without one */
    uint32_t questions, fixes;
    uint32_t place_changes; /* how often the next thing was at another place than the one before */
    uint32_t needless[LEVELS_OFFERED]; /* fixes that could not have helped, by risk level */
    const played_step *path;           /* what was asked and tried, in order */
    uint32_t path_count;
    double working;       /* minutes of questions and fixes */
    double minutes;       /* the same, and the call-out if somebody had to come */
    taken_over over;      /* WAY_TELLTALE alone is played on */
    const double *worked; /* [role] minutes, who asked first among them; null for other ways */
} played;

/* Plays on a fresh case. `call` is changed as fixes change the equipment. TT_NOT_NOW: the engine
 * goes round in circles. */
tt_status call_play(arena *scratch, tt_case *c, made_call *call, way how, played *out);

#endif
