/* What was counted over many calls. All sums are of whole numbers (calls, seconds, 2^-20ths of a
 * chance), so that tallies add up to the same whatever the order and the slices in which calls were
 * played. */
#ifndef TT_REHEARSE_TALLY_H
#define TT_REHEARSE_TALLY_H

#include "rehearse/play.h"

enum { KIND_ONE, KIND_TWO, KIND_NOT_LISTED, KIND_COUNT };
enum { BINS = 10 };

/* Sum and sum of squares of a whole number over calls; may be negative. */
typedef struct moments {
    int64_t sum;
    uint64_t squares;
} moments;

typedef struct kind_tally {
    uint64_t calls, ranked;      /* ranked: not stopped before there was any advice */
    uint64_t leads, among_three; /* of the ranked: at the first fix, or the end without one */
    uint64_t leads_last, among_three_last;
    uint64_t cured;
    moments questions, seconds;
} kind_tally;

typedef struct way_tally {
    uint64_t calls;
    uint64_t ends[3]; /* by call_end */
    uint64_t ranked;
    uint64_t leads, among_three;
    moments questions, fixes, seconds;
    moments seconds_more; /* than the first way, call by call */
    moments needless[LEVELS_OFFERED], needless_more[LEVELS_OFFERED];
} way_tally;

typedef struct bin_tally {
    uint64_t calls, right;
    uint64_t said; /* sum of the leading cause's chance, in 2^-20ths */
} bin_tally;

/* What is wrong was `cause`, what was blamed `blamed`; the number of causes stands for something
 * not listed. Calls with one fault or none listed. */
typedef struct mistaken {
    uint32_t cause, blamed;
    uint64_t count;
} mistaken;

typedef struct tally {
    uint32_t cause_count;
    uint64_t calls;
    kind_tally kinds[KIND_COUNT];
    way_tally ways[WAY_COUNT];
    bin_tally bins[BINS];
    uint64_t blamed_surely; /* not listed, and a listed cause led with 90 % or more */
    uint64_t surprise_calls;
    moments surprise;   /* -log2 of the chance of what was wrong, in 1/1024 bits; one fault, or not
                           listed */
    uint64_t *calls_of; /* [cause, then not listed] with this alone */
    mistaken *mistakes; /* rising */
    uint32_t mistake_count, mistake_room;
} tally;

tally *tally_new(arena *keep, uint32_t cause_count);
/* `truth`: the call as it was drawn. `ways[w]` null: not played that way. */
void tally_call(tally *t, arena *keep, const made_call *truth, const played *const *ways);
void kind_add(kind_tally *into, const kind_tally *more);
void tally_add(tally *into, arena *keep, const tally *more);

#endif
