/* What was counted over many calls. All sums are of whole numbers (calls, seconds, 2^-20ths of a
 * chance), so that tallies add up to the same whatever the order and the slices in which calls were
 * played. */
#ifndef TT_REHEARSE_TALLY_H
#define TT_REHEARSE_TALLY_H

#include "rehearse/sensitivity.h"

enum { KIND_ONE, KIND_TWO, KIND_NOT_LISTED, KIND_COUNT };
enum {
    BINS = 10,
    PERFECT = 100
}; /* PERFECT: programs whose every chance is right, drawn beside ours */

/* Sum and sum of squares of a whole number over calls; may be negative. */
typedef struct moments {
    int64_t sum;
    uint64_t squares;
} moments;

typedef struct kind_tally {
    uint64_t calls, ranked;      /* ranked: not stopped before there was any advice */
    uint64_t leads, among_three; /* of the ranked: at the first fix, or the end without one */
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
    moments place_changes;
    moments needless[LEVELS_OFFERED], needless_more[LEVELS_OFFERED];
} way_tally;

typedef struct bin_tally {
    uint64_t calls, right;
    uint64_t said; /* sum of the leading cause's chance, in 2^-20ths */
} bin_tally;

/* Minutes of two ways over the same calls, but for those that stopped for danger before there was
 * advice: these are alike for everybody. */
typedef struct pair_tally {
    uint64_t calls;
    moments ours, theirs; /* seconds */
    uint64_t product;     /* sum of ours × theirs */
} pair_tally;

/* Of the calls in which all answers were known before, beside ours. */
typedef struct ceiling_tally {
    uint64_t calls;        /* in which both had advice to give */
    uint64_t ours, theirs; /* the right cause leads at the first fix */
    uint64_t only_ours, only_theirs;
} ceiling_tally;

/* Calls handed over, and played on to the end. */
typedef struct over_tally {
    uint64_t calls, cured, nobody, stopped;
    moments before, after, both, waited; /* seconds */
} over_tally;

typedef struct role_tally {
    uint64_t calls; /* in which somebody of this role worked */
    moments seconds;
} role_tally;

/* The smallest set of causes that holds 90 %. */
typedef struct set_tally {
    uint64_t calls, held;
    uint64_t said;  /* sum of what the sets hold, in 2^-20ths */
    moments causes; /* how many are in it */
} set_tally;

/* What a program would have shown whose every chance is right: the leading cause is there, or one
 * of the set, as often as ours said. */
typedef struct perfect_tally {
    uint64_t right[BINS], held;
} perfect_tally;

/* What is wrong was `cause`, what was blamed `blamed`; the number of causes stands for something
 * not listed. Calls with one fault or none listed. */
typedef struct mistaken {
    uint32_t cause, blamed;
    uint64_t count;
} mistaken;

/* Every member is of 64 bits, so that counts add up and are kept word by word. */
typedef struct counts {
    uint64_t calls;
    kind_tally kinds[KIND_COUNT];
    way_tally ways[WAY_COUNT];
    bin_tally bins[BINS];
    perfect_tally perfect[PERFECT];
    set_tally sets;
    pair_tally over_clairvoyant, known_over_clairvoyant; /* the first way, and all answers known */
    ceiling_tally ceiling;
    over_tally over;
    uint64_t blamed_surely; /* not listed, and a listed cause led with 90 % or more */
    uint64_t surprise_calls;
    moments surprise; /* -log2 of the chance of what was wrong, in 1/1024 bits; one fault, or not
                         listed */
} counts;

typedef struct tally {
    uint32_t cause_count, role_count;
    uint32_t moved_count; /* 0: nobody wants to know */
    uint64_t seed;
    counts n;
    role_tally *roles;  /* [role] */
    moments *moved;     /* [number * DIRECTIONS + direction] minutes more, in 1/16 seconds */
    uint64_t *calls_of; /* [cause, then not listed] with this alone */
    mistaken *mistakes; /* rising */
    uint32_t mistake_count, mistake_room;
} tally;

tally *tally_new(arena *keep, uint32_t cause_count, uint32_t role_count, uint64_t seed);
/* `truth`: the call as it was drawn. `ways[w]` null: not played that way. */
void tally_call(tally *t, arena *keep, const made_call *truth, const played *const *ways);
/* From here on it is counted what each of so many numbers would do. */
void tally_take_numbers(tally *t, arena *keep, uint32_t numbers);
void tally_numbers(tally *t, const sensitivity *s, const made_call *truth, const played *own);
/* Adds two things that are made of 64-bit counts and nothing else. */
void add_words(void *into, const void *more, size_t size);
void tally_add_mistake(tally *t, arena *keep, mistaken m);
void tally_add(tally *into, arena *keep, const tally *more);

#endif
