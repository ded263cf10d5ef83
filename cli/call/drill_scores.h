/* How the drills on this machine came out: a file of the learner's own, which nobody else is shown.
 */
#ifndef TT_CLI_DRILL_SCORES_H
#define TT_CLI_DRILL_SCORES_H

#include "base/arena.h"
#include "books/read_book.h"

typedef struct drill_score {
    uint64_t seed;
    const char *role;
    double minutes, engine_minutes;
    bool cured;
    uint32_t missed; /* dangers */
} drill_score;

/* What all of this book came to, the new one among them. */
typedef struct drill_tally {
    uint32_t drills, cured, missed;
    double ratio; /* mean of minutes over the engine's */
    bool kept;    /* the new one is on the disk */
} drill_tally;

/* Adds it, where scores are kept; says what was in the way. `kept`: else it is only counted. */
drill_tally drill_scored(arena *keep, const opened_book *book, const drill_score *score, bool kept);

#endif
