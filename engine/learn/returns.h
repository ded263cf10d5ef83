/* How often causes come back, learned from the troubles of sites. At a site they come anew, each
 * cause by its share of a rate that is the site's own; and after a cure that doesn't hold the same
 * comes again (or what brings it on), half of it within RETURNS_HALF_DAYS, unless it comes anew
 * before and is cured with that. Which of these a trouble is is not seen: the chances are found by
 * expectation and maximisation (Dempster, Laird and Rubin 1977; for events that bring on events
 * Veen and Schoenberg 2008), and how sure they are from the information that was observed (Louis
 * 1982). */
#ifndef TT_LEARN_RETURNS_H
#define TT_LEARN_RETURNS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

/* A trouble may be what a cure before it came to. */
typedef struct learn_link {
    uint32_t cure; /* of its site */
    double part;   /* of what comes back, what would look like this trouble: 0 to 1 */
    double days;   /* ≥ 0, since the cure */
} learn_link;

typedef struct learn_trouble {
    double share;   /* of new troubles, those of this cause, as the author has it; 1: nobody knows
                       which it was */
    uint32_t entry; /* of that cause; NO_ID: nobody knows */
    const learn_link *links;
    uint32_t link_count;
} learn_trouble;

typedef struct learn_cure {
    uint32_t number; /* that says how often it comes back */
    /* it could be seen to come back, until it was cured anew or nothing more is known */
    double days;
    double back; /* while fitting: that it came back, on the mean */
} learn_cure;

typedef struct learn_site {
    double days;                   /* from its first trouble to its last */
    const learn_trouble *troubles; /* behind the first, by time */
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
    double mean, worth;   /* worth: as many cures of which one knows would be as sure */
    double back;          /* of the cures, those that came back within what is known, on the mean */
    double wanted, known; /* while fitting */
} learn_returning;

/* share[entry]: of the author, of troubles that come anew; with those that come anew it is learned
 * on the way, the author's counting as LEARN_SHARES_COUNT. They sum to 1. */
void learn_returns_fit(arena *scratch, learn_returning *all, uint32_t count, learn_site *sites,
                       const double *share, uint32_t entries);

#endif
