/* What a book's causes are said by answers, and by the same answers without one or two of them:
 * most of it holds whichever are left out. */
#ifndef TT_BELIEVE_DOUBTING_H
#define TT_BELIEVE_DOUBTING_H

#include "believe/belief.h"
#include "believe/joined.h"

/* ln of what one group says: of the other hypothesis and of the causes it lists, beside what it
 * says of all others. */
typedef struct group_says {
    double base, other;
    const double *listed;
} group_says;

/* One of the groups that list a cause, and the cause's place among those that it lists. */
typedef struct listing {
    uint32_t group, place;
} listing;

/* A hypothesis and log_weight of it, with all answers. */
typedef struct weighed {
    double weight;
    uint32_t hypothesis;
} weighed;

typedef struct doubting {
    const belief *b;
    arena *scratch;
    const double **weights;
    looks *looks;
    evidence left;
    double *says;                       /* [1 + cause] ln P(answers left | hypothesis) */
    joining whole;                      /* of all answers */
    const group_says *of_whole;         /* [group] what it says */
    bool *untouched;                    /* [group] all of its answers are there */
    uint32_t *group_of;                 /* [component] 1 + the group that has it; 0: none */
    uint32_t touched[2], touched_count; /* groups, one twice if two answers of it are left out */
    double *sums;                       /* [1 + cause] what the groups that list it say */
    listing *listings;                  /* of all causes, cause by cause, groups rising */
    uint32_t *listings_from;            /* [cause], and the end */
    weighed *by_weight;                 /* hypotheses with a cause, the heaviest first */
    bool *moved;                        /* [1 + cause] a group that is touched lists it */
    uint32_t *seen, seen_count;         /* findings that were answered */
    double *
        *like; /* [1 + cause] ln of the likeliest answer to each of `seen`; null: not needed yet */
} doubting;

typedef struct touched_says {
    group_says says[2];
    bool there[2];
} touched_says;

doubting doubting_of(const belief *single, arena *scratch, const evidence *seen);
/* What each group says of all answers: the rest needs it, but doubting_weigh_left. */
void doubting_whole(doubting *d);
/* An answer of this finding is left out, or there again. Its weights are the caller's to change. */
void doubting_touch(doubting *d, uint32_t finding, bool there);
/* `says`, of the answers left. */
void doubting_weigh(doubting *d);
void doubting_weigh_left(doubting *d); /* the same, all anew */

/* The same for single causes: what the groups say that are touched (false: what is left has to be
 * joined anew), what those say that list a cause, and what is said of all of them; *other: of the
 * other hypothesis, without what is said of all. */
bool doubting_touched(doubting *d, touched_says *t);
double doubting_sum(const doubting *d, const touched_says *t, uint32_t cause);
double doubting_base(const doubting *d, const touched_says *t, double *other);

bool doubting_is_seen(const belief *b, const evidence *seen, uint32_t finding);

#endif
