/* Part of telltale.h, which includes it: a made-up call for somebody who learns. The call is drawn
 * from the book's own numbers, as a rehearsal's are; the learner chooses what to look at and what
 * to try, and another's answers come. What the engine would have done stands beside it afterwards.
 */
#ifndef TELLTALE_DRILL_H
#define TELLTALE_DRILL_H

#ifdef __cplusplus
extern "C" {
#endif

typedef struct tt_drill tt_drill;
typedef struct tt_drill_options {
    uint64_t seed;        /* the same seed is the same call */
    uint32_t role;        /* the learner's; TT_NONE: the lowest */
    const char *language; /* BCP 47; null: the book's */
} tt_drill_options;
/* `book` must outlive it. TT_FAULTY: no such role. */
TT_PUBLIC tt_status tt_drill_new(const tt_book *book, const tt_drill_options *options,
                                 tt_drill **out);
TT_PUBLIC void tt_drill_free(tt_drill *d);

/* How it stands; texts live until the next call on the drill. */
typedef enum tt_drill_end { TT_DRILL_GOES_ON, TT_DRILL_CURED, TT_DRILL_CALLED } tt_drill_end;
typedef struct tt_drill_stand {
    const char *complaint; /* what the caller says; "": only that something is wrong */
    const uint32_t *looks;
    uint32_t look_count; /* questions that may be looked at now, by place */
    const uint32_t *fixes;
    uint32_t fix_count; /* fixes of this role that were not tried, by name */
    double minutes;     /* so far */
    tt_drill_end end;
} tt_drill_stand;
TT_PUBLIC tt_status tt_drill_look_at(tt_drill *d, tt_drill_stand *out);
/* What questions and fixes say. */
TT_PUBLIC tt_case *tt_drill_case(tt_drill *d);

/* Looks at it: what the other says is seen there, in words. TT_NOT_NOW: it is none of `looks`. */
TT_PUBLIC tt_status tt_drill_ask(tt_drill *d, uint32_t question, const char **seen);
/* Tries it. *held: it was not done, since danger was not ruled out on this call, or a caution holds
 * it; that is told afterwards. *outcome TT_COULD_NOT: it changes a setting step by step, and what
 * that is set by can't be read on this call, or there is no step left. TT_NOT_NOW: it is none of
 * `fixes`.
 */
TT_PUBLIC tt_status tt_drill_try(tt_drill *d, uint32_t fix, bool *held, tt_outcome *outcome);
/* Calls somebody: the end. */
TT_PUBLIC tt_status tt_drill_call(tt_drill *d);

/* ---- afterwards ---- */
typedef struct tt_drill_step {
    bool fix, held;                      /* else a look */
    bool gate;                           /* it rules danger out, which has no decibels */
    const char *text, *result, *because; /* result: what was seen; of a fix "" */
    tt_outcome outcome;                  /* of a fix that was not held */
    double minutes;
    /* how much it spoke for what is wrong, 10 log10 of odds after over odds before */
    double decibels;
    bool same;           /* the engine would have done it too; else: */
    const char *instead; /* what it would have done; "": call somebody */
    bool instead_fix, instead_gate;
    /* of a look: what it would have shown on this very call */
    double instead_minutes, instead_decibels;
} tt_drill_step;
typedef enum tt_drill_miss {
    TT_DRILL_NEVER_ASKED,  /* nobody asked about danger on this call */
    TT_DRILL_TRIED_BEFORE, /* something was to be tried before danger was ruled out */
    TT_DRILL_TRIED_IN_IT,  /* …while the other had said that there is danger */
    TT_DRILL_MISSES
} tt_drill_miss;
typedef struct tt_drill_danger {
    tt_drill_miss kind;
    /* what was to be tried, or ""; the question, and what the answer was */
    const char *fix, *ask, *answer;
} tt_drill_danger;
typedef struct tt_drill_cause {
    const char *text, *means; /* text "": something not listed */
} tt_drill_cause;
typedef struct tt_drill_review {
    const tt_drill_step *steps;
    uint32_t step_count;
    const tt_drill_cause *causes;
    uint32_t cause_count;
    const tt_drill_danger *dangers;
    uint32_t danger_count;
    double minutes, engine_minutes; /* each with the call-out, if somebody had to come; */
    double call_minutes;            /* …which counts as so many */
    tt_drill_end end;
    const char *engine_end; /* "cured", "called", "stopped" */
    const char *const *engine_path;
    uint32_t engine_path_count; /* in words */
} tt_drill_review;
TT_PUBLIC tt_status tt_drill_review_of(tt_drill *d, tt_drill_review *out);

#ifdef __cplusplus
}
#endif

#endif
