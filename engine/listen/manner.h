/* The words of manner_words.h as a phrasebook. */
#ifndef TT_LISTEN_MANNER_H
#define TT_LISTEN_MANNER_H

#include "listen/phrasebook.h"

typedef enum manner {
    MANNER_YES = 1 << 0,
    MANNER_NO = 1 << 1,
    MANNER_FINE = 1 << 2,
    MANNER_UNSURE = 1 << 3,
    MANNER_CANNOT = 1 << 4,
    MANNER_USUAL = 1 << 5,
    MANNER_DENIES = 1 << 6,
    MANNER_JOINS = 1 << 7,
    MANNER_EMPTY = 1 << 8,
    MANNER_BROKEN = 1 << 9,
    MANNER_WORKS = 1 << 10,
    MANNER_DONT_KNOW = 1 << 11,
    MANNER_DONE = 1 << 12,
    MANNER_HEDGES = 1 << 13,   /* at the danger question: no plain no */
    MANNER_SUPPOSES = 1 << 21, /* UNSURE, and an answer stands beside it: "all of them, I think" */
    MANNER_HOW_MANY = 1 << 22, /* EMPTY mostly: "all of them" */
    /* Of a whole reply only: */
    MANNER_OFFER = 1 << 14, /* agreed */
    MANNER_GONE = 1 << 15,  /* it helped */
    MANNER_SAME = 1 << 16,  /* it did not */
    MANNER_WORSE = 1 << 17,
    MANNER_BETTER = 1 << 18,
    MANNER_COULD_NOT = 1 << 19,
    MANNER_BEGINS = 1 << 20, /* let us begin, go on */
} manner;

void manner_words_add(phrasebook *p, arena *scratch);
void reply_words_add(phrasebook *p, arena *scratch);
/* All that a whole phrase can be: manner_of("not sure") is MANNER_UNSURE; 0 if it is none. */
uint64_t manner_of(const phrasebook *p, arena *scratch, str plain_phrase);

#endif
