/* Part of telltale.h, which includes it: rehearsal. Made-up calls, drawn from the book's own
 * numbers and played through the engine. */
#ifndef TELLTALE_REHEARSAL_H
#define TELLTALE_REHEARSAL_H

#ifdef __cplusplus
extern "C" {
#endif

typedef struct tt_rehearsal_options {
    uint64_t seed;
    uint32_t role;      /* who asks; TT_NONE: the lowest */
    double misread;     /* [0, 1]: so much more often than the book says an answer is wrong */
    double numbers_off; /* [0, 1): the equipment's chances differ from the author's numbers by up to
                           this share */
    bool sensitivity;   /* say which of the author's numbers move the minutes most; not with
                           numbers_off */
} tt_rehearsal_options;
typedef struct tt_rehearsal tt_rehearsal;
/* `book` must outlive it. Each thread plays a rehearsal of its own; call number n is the same in
 * all of them. TT_FAULTY: not such options. */
TT_PUBLIC tt_status tt_rehearsal_new(const tt_book *book, const tt_rehearsal_options *options,
                                     tt_rehearsal **out);
TT_PUBLIC void tt_rehearsal_free(tt_rehearsal *r);
/* Plays the calls first … first + count - 1. TT_NO_MEMORY: what it counts is not whole any more. */
TT_PUBLIC tt_status tt_rehearsal_play(tt_rehearsal *r, uint64_t first, uint64_t count);
/* How one call goes as the engine says, without being counted. Valid until the next call on the
 * rehearsal. */
typedef struct tt_made_call {
    bool judged;         /* false: it stopped for danger before there was advice */
    const char *leading; /* the cause that leads at the first fix, or when somebody is called; null:
                            something not listed */
    double chance;
    const char *end; /* "cured", "called", "stopped" */
    double minutes;
    const char *const *path;
    uint32_t path_count; /* questions and fixes in order, by name */
} tt_made_call;
TT_PUBLIC tt_status tt_rehearsal_call(tt_rehearsal *r, uint64_t number, tt_made_call *out);
/* Adds what `more` has played; both of one book with equal options. Sums are exact: the order and
 * the slices make no difference. */
TT_PUBLIC tt_status tt_rehearsal_add(tt_rehearsal *into, const tt_rehearsal *more);

/* All that was counted, as whole numbers to be kept and added later; valid until the rehearsal
 * changes or is looked at. */
TT_PUBLIC tt_status tt_rehearsal_words(tt_rehearsal *r, const uint64_t **words, uint32_t *count);
/* Adds what was kept of so many calls, by the same version of the library, of this book and with
 * equal options. TT_FAULTY: they are none of such a rehearsal, or were changed. */
TT_PUBLIC tt_status tt_rehearsal_add_words(tt_rehearsal *into, const uint64_t *words,
                                           uint32_t count, uint64_t calls);

/* `count` of `of`, with the 95 % confidence interval of Wilson (1927); share, low and high are 0 if
 * `of` is 0. */
typedef struct tt_share {
    uint64_t count, of;
    double share, low, high;
} tt_share;
/* Mean over `of` calls, with 1.96 standard errors; 0 if there are fewer than two. */
typedef struct tt_mean {
    uint64_t of;
    double mean, plus_minus;
} tt_mean;
typedef enum tt_call_kind { TT_ONE_CAUSE, TT_TWO_CAUSES, TT_NOT_LISTED } tt_call_kind;
/* Calls by what was wrong. The ranking is looked at when the first fix is begun, or the call ends
 * without one. */
typedef struct tt_rehearsed_kind {
    tt_share calls;
    tt_share leads, among_three; /* a cause that is there, at the first fix; of the calls that did
                                    not stop for danger before */
    tt_share cured;
    tt_mean questions, minutes;
} tt_rehearsed_kind;
/* Ways to play: as the engine says; with the quickest fixes first; asking in name order until the
 * engine would fix or call; asking everything before any fix; the same with every answer known
 * before, at no minutes; what is wrong known too, with the fixes that cost least for it. With the
 * same luck as the first; the second, third and fourth play only the calls whose number can be
 * divided by 5. */
typedef enum tt_way {
    TT_SAFEST_FIRST,
    TT_SOONEST,
    TT_IN_ORDER,
    TT_EVERYTHING,
    TT_ALL_KNOWN,
    TT_CLAIRVOYANT,
    TT_WAYS
} tt_way;
typedef struct tt_rehearsed_way {
    tt_share cured, called, stopped;
    tt_share leads, among_three;
    tt_mean questions, fixes, minutes; /* minutes with the call-out, if somebody had to come */
    tt_mean minutes_more;              /* than safest first, call by call */
    tt_mean needless[3];      /* fixes a call that could not help; low, medium, serious risk */
    tt_mean needless_more[3]; /* than safest first, call by call */
    tt_mean place_changes;    /* how often the next thing was at another place */
} tt_rehearsed_way;
/* Minutes over minutes, of the same calls but for those that stop for danger before there is
 * advice; 0 if there is none. */
typedef struct tt_ratio {
    uint64_t of;
    double ratio, plus_minus; /* 1.96 standard errors */
} tt_ratio;
/* What a program would show by luck alone if its every chance were exactly right: drawn 100 times
 * from the chances that were said. */
typedef struct tt_floor {
    double mean, high; /* 95 of 100 stay within `high` */
} tt_floor;
/* The fewest causes that hold 90 %, at the first fix. */
typedef struct tt_rehearsed_set {
    tt_share held;  /* calls in which some of what was wrong was among them */
    double said;    /* mean of the chance that it is */
    tt_floor floor; /* of the distance between the two */
    tt_mean causes; /* how many they are */
} tt_rehearsed_set;
/* The right cause leads at the first fix: as we ask, and with every answer known before. */
typedef struct tt_ceiling {
    tt_share ours, known;
    tt_mean missed; /* the latter less the former, call by call */
} tt_ceiling;
/* Calls that were handed over, and played on to the end with whoever was called. Minutes are of
 * this part of the calls. */
typedef struct tt_handed_over {
    tt_share calls;
    /* how they end: cured, nobody left to be called, stopped for danger */
    tt_share cured, nobody, stopped;
    tt_mean before, after, both; /* minutes worked by who asked, by who was called, by both */
    tt_mean waited;              /* minutes of waiting for whoever was called */
} tt_handed_over;
typedef struct tt_worked {
    const char *role;
    tt_share calls;  /* in which somebody of this role worked */
    tt_mean minutes; /* worked in these */
} tt_worked;
/* Calls by the chance of the leading cause at the first fix: low ≤ chance < high (the last: ≤). */
typedef struct tt_calibration {
    double low, high, said; /* said: mean chance */
    tt_share right;
} tt_calibration;
typedef struct tt_confused {
    const char *name, *text;               /* what was wrong; name null: something not listed */
    const char *blamed_name, *blamed_text; /* what led instead */
    tt_share calls;                        /* of those with the former */
    const char *question, *ask; /* tells them apart best, for this role; null: none does */
    double overlap; /* 1: no question tells them apart; 0: each does. NAN where something isn't
                       listed */
    bool one_fix;   /* some fix serves both */
} tt_confused;
/* A number of the author, and the minutes that a call would take more if the truth were 30 % above
 * or below it, while all is asked and tried by the book as it is. */
typedef struct tt_moving {
    const char *kind;    /* "how-often", "shown-by", "otherwise", "cures" */
    const char *cause;   /* its name, or "" */
    const char *of;      /* the symptom or the fix, or "" */
    const char *written; /* "often", "70 %" */
    const char *at;      /* "air.yaml:41" */
    tt_mean above, below;
} tt_moving;
typedef struct tt_rehearsed {
    uint64_t calls;
    const char *role;
    double call_minutes;             /* what a call-out counts as */
    tt_rehearsed_kind all, kinds[3]; /* by tt_call_kind */
    tt_rehearsed_way ways[TT_WAYS];  /* by tt_way */
    tt_calibration bins[10];
    /* expected: mean distance between said and right, weighted by calls */
    double calibration_error;
    tt_floor calibration_floor; /* what that would be by luck alone */
    tt_rehearsed_set set;
    tt_ceiling ceiling;
    tt_ratio over_clairvoyant, known_over_clairvoyant; /* minutes as we ask, and with all answers
                                                          known, over those of the clairvoyant */
    tt_handed_over over;
    const tt_worked *worked;
    uint32_t worked_count; /* in the order of the roles */
    tt_mean surprise; /* bits: minus log2 of the chance of what was wrong, at the first fix; calls
                         with one cause or not listed */
    /* a listed cause led; with 90 % or more */
    tt_share not_listed_blamed, not_listed_blamed_surely;
    const tt_moving *moving;
    uint32_t moving_count; /* those that move the minutes most, of those of which the calls can
                              tell; at most 10 */
    const tt_confused *confused;
    uint32_t confused_count; /* most calls first, then by names; at most 20 */
} tt_rehearsed;
/* Valid until the rehearsal changes. */
TT_PUBLIC tt_status tt_rehearsal_look(tt_rehearsal *r, const tt_rehearsed **out);

#ifdef __cplusplus
}
#endif

#endif
