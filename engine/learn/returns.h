/* How often causes come back, learned from the troubles of sites. At a site they come anew, each
 * cause by its share of a rate that is the site's own; and after a cure that doesn't hold the same
 * comes again (or what brings it on), half of it within RETURNS_HALF_DAYS, unless it comes anew
 * before and is cured with that. Which of these a trouble is is not seen, nor, of some, which cause
 * it was: these may be what came of a cure, or have cured it anew, and what comes behind them may
 * have come of them. The chances are found by expectation and maximisation (Dempster, Laird and
 * Rubin 1977; for events that bring on events Veen and Schoenberg 2008), and how sure they are from
 * the information that was observed (Louis 1982) and from how far they follow the author's (Huber
 * 1967). */
#ifndef TT_LEARN_RETURNS_H
#define TT_LEARN_RETURNS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

/* Of what comes back after a cure, what has done so in some days, and what has not. */
typedef struct learn_past {
    double gone, left;
} learn_past;

/* A trouble may be what a cure before it came to. */
typedef struct learn_link {
    uint32_t cure; /* of its site */
    double part;   /* of what comes back, what would look like this trouble: 0 to 1 */
    double days;   /* ≥ 0, since the cure */
    /* While fitting: of these days; and that it is. */
    learn_past past;
    double again;
} learn_link;

/* Or what came of a trouble of which nobody knows what it was, and that may have been this cause.
 */
typedef struct learn_maybe {
    uint32_t trouble;       /* of its site, before */
    uint32_t link;          /* of that trouble, to a cure of this cause; NO_ID: none stood */
    double same;            /* of what comes back after that cure, the part that is this cause */
    uint32_t number, entry; /* of this cause, and its share of new troubles */
    double share;
    double part, days; /* as in a link */
    learn_past past;
} learn_maybe;

typedef struct learn_trouble {
    double share;   /* of new troubles, those of this cause, as the author has it; 1: nobody knows
                       which it was */
    uint32_t entry; /* of that cause; NO_ID: nobody knows */
    learn_link *links;
    uint32_t link_count;
    learn_maybe *maybes; /* cause by cause, the last first; none if nobody knows what it was */
    uint32_t maybe_count;
    double anew; /* while fitting: that it came anew */
} learn_trouble;

typedef struct learn_cure {
    uint32_t number; /* that says how often it comes back */
    /* it could be seen to come back, until it was cured anew or nothing more is known */
    double days;
    double share;   /* of new troubles, those of its cause, as the author has it */
    uint32_t entry; /* of that cause */
    /* While fitting, on the mean: that it came back; that a trouble of which nobody knows what it
     * was was the same anew, and cured it anew; and that after this it would have come back. */
    double back, over, over_later;
    double noted;    /* of what comes back, what had done so when that was noted last */
    learn_past past; /* of its days */
} learn_cure;

typedef struct learn_site {
    double days;             /* from its first trouble to its last */
    learn_trouble *troubles; /* behind the first, by time */
    uint32_t trouble_count;
    learn_cure *cures;
    uint32_t cure_count;
    double anew, rate; /* while fitting: troubles that came anew, on the mean; those a day */
    struct learn_site *next;
} learn_site;

typedef struct learn_returning {
    double written, strength; /* the author's chance, and as how many cures it counts */
    double surely;  /* cures of which somebody said that it came back before their case ended */
    uint32_t cures; /* all that are known */
    /* Once it is fitted: */
    double mean, worth; /* worth: as many cures of which one knows would be as sure */
    double back;        /* of the cures, those that came back within what is known, on the mean */
    double wanted;      /* while fitting, and: */
    double follows;     /* by how much it would move if the author's moved by 1 */
} learn_returning;

/* share[entry]: of the author, of troubles that come anew; with those that come anew it is learned
 * on the way, the author's counting as LEARN_SHARES_COUNT. They sum to 1. */
void learn_returns_fit(arena *scratch, learn_returning *all, uint32_t count, learn_site *sites,
                       const double *share, uint32_t entries);

#endif
