/* Part of telltale.h, which includes it: the job around a fault. What is looked at on a round or
 * when what is good is recorded, what a site's cases say of its readings, and how these have moved.
 */
#ifndef TELLTALE_ROUNDS_H
#define TELLTALE_ROUNDS_H

#ifdef __cplusplus
extern "C" {
#endif

/* What a round or a record asks, in the order of the way. Left out is what this person may not look
 * at, and what does not apply here. */
typedef struct tt_walked {
    uint32_t question;
    const char *name, *ask, *text; /* text: what was said of it, in words; "" if nothing was yet */
    const char *value; /* the same, as in a file of answers; "" where that is not one of a site */
    bool is_number;
    double number;      /* in the unit in which people at the site read it */
    bool told;          /* it is known: not "not sure", not "can't look" */
    bool unusual;       /* …and not what the author calls usual */
    uint32_t good;      /* the fact of the site that holds its good value, or that it is itself; or
                           TT_NONE */
    bool has_good;      /* the site says it: */
    double good_number; /* in the same unit */
    const char *good_text, *good_day; /* "30 psi"; "2026-05-03"; each may be "" */
    const char *usual_text; /* what the author calls usual of it, or of the reading that it is good
                               for: "20 psi – 40 psi"; or "" */
    double usual_low, usual_high; /* in the same unit; of no number: NaN */
} tt_walked;
/* Of a case of another kind: nothing. Valid until the case changes. */
TT_PUBLIC tt_status tt_walk_look(tt_case *c, const tt_walked **out, uint32_t *count);
/* The same of one question, in any case. */
TT_PUBLIC tt_status tt_good_look(tt_case *c, uint32_t question, tt_walked *out);
/* A number in the unit in which people at the site read this question. TT_FAULTY: no such unit for
 * it. */
TT_PUBLIC tt_status tt_reading_number(tt_case *c, uint32_t question, double number,
                                      const char *unit, double *out);

/* ---- what a book marks with `over-time` ---- */
typedef struct tt_untold {
    uint32_t question;
    const char *name, *ask;
    bool of_site; /* the site's file may say it */
} tt_untold;
typedef struct tt_reckoned {
    uint32_t question;
    const char *name, *text,
        *unit;         /* text: "Product that a car gets"; unit: of people at the site, or "" */
    bool known, read;  /* read: some reading of this case is in it, not the site's file alone */
    double number;     /* known: in that unit */
    const char *words; /* "0.43 fl oz"; "" */
    const char *why;   /* all is told, and yet it has no value; "" */
    const tt_untold *missing; /* not known: what nobody told; any of them may be enough */
    uint32_t missing_count;
} tt_reckoned;
/* From what the case was told; valid until it changes. */
TT_PUBLIC tt_status tt_over_time_look(tt_case *c, const tt_reckoned **out, uint32_t *count);

/* ---- good values, written into the file of a site ---- */
typedef struct tt_good {
    const char *fact;             /* "foam-air-set of top" */
    const char *value;            /* as in an answers file, "30 psi" */
    const char *day, *role, *how; /* "2026-05-03"; each may be "" */
} tt_good;
/* The text of the file with them in it, and nothing else changed: comments and layout stay. The
 * caller frees it with free(). TT_FAULTY: it is no site file in which they have a place. */
TT_PUBLIC tt_status tt_site_with_good(const char *text, size_t length, const tt_good *good,
                                      uint32_t count, char **out);

/* ---- how a reading moves ---- */
typedef struct tt_dated {
    double days, number; /* since any moment, the same for all; all in one unit */
} tt_dated;
typedef enum tt_trend { TT_STEADY, TT_RISING, TT_FALLING, TT_JUMP, TT_TRENDS } tt_trend;
TT_PUBLIC const char *tt_trend_name(tt_trend trend); /* "rising" */
typedef struct tt_drift {
    double scatter; /* of one reading at this site: a standard deviation */
    bool beyond;    /* the last one is further from its good value than three of them */
    bool known;     /* …and how it came there can be told: */
    tt_trend trend;
    double per_week; /* RISING, FALLING: how much */
    uint32_t jump;   /* JUMP: the first reading after it */
} tt_drift;
/* In the order of their days; the first may be the good value itself, on the day it was found. */
TT_PUBLIC tt_drift tt_drift_judge(const tt_dated *readings, uint32_t count, double good);
/* How a reading has moved over the cases of this site, as it counts now: what the author wrote with
 * `trend` holds by it. It is forgotten with the answer that it was judged by. */
TT_PUBLIC tt_status tt_trend_told(tt_case *c, uint32_t reading, tt_trend trend);

/* ---- what was cured here before ---- */
typedef struct tt_cure {
    const char *cause; /* that was confirmed; or "": what the fix cures */
    const char *fix;   /* that ended it; or "" */
    double days;       /* ago */
    bool came_back;    /* it was back once before this was its end */
} tt_cure;
typedef struct tt_cured {
    const tt_cure *cures; /* the longest ago first */
    uint32_t count;
    uint32_t calls; /* troubles of this site, the open ones too, in so many days up to now */
    double days;
} tt_cured;
/* What was cured at this site may be back, or what brings it on may be there still: those causes
 * are likelier from here on. Names of another book mean nothing. */
TT_PUBLIC tt_status tt_cured_before(tt_case *c, const tt_cured *past);

/* ---- what the cases of a site say ---- */
typedef struct tt_past tt_past;
typedef struct tt_past_reading {
    const char *question, *time; /* its name; RFC 3339 */
    double number;
    const char *unit; /* as it was told; "": the one that people at the site read */
    uint32_t of;      /* the case, in tt_past_cases */
    const char *fix;  /* it was read after this fix; or "" */
} tt_past_reading;
typedef struct tt_past_case {
    const char *number;
    tt_case_summary says;
    const char *fix, *fix_text; /* what helped; each may be "" */
    const char *came_back;      /* when the trouble came back after it, RFC 3339; or "" */
} tt_past_case;
TT_PUBLIC tt_status tt_past_new(tt_past **out);
TT_PUBLIC void tt_past_free(tt_past *p);
/* A case of this site, with its records in any order. Copied. Made-up calls are left out. */
TT_PUBLIC tt_status tt_past_add(tt_past *p, const char *number, const tt_record *records,
                                size_t count);
/* What a fix or a record changed is where a trend begins again. */
TT_PUBLIC bool tt_past_begins_anew(const tt_past *p, const tt_past_reading *r);
/* By time. They live until another case is added. */
TT_PUBLIC const tt_past_reading *tt_past_readings(const tt_past *p, uint32_t *count);
TT_PUBLIC const tt_past_case *tt_past_cases(const tt_past *p, uint32_t *count);
/* Of which rounds the last was so long ago that they are due, at `now` (RFC 3339). */
TT_PUBLIC tt_every tt_past_due(const tt_past *p, const char *now);

/* ---- a site over time: its cases as one story ---- */
typedef enum tt_mark_kind {
    TT_MARK_SET, /* it was told while what is good was recorded */
    TT_MARK_FIX, /* something was done in a case in which it was read */
    TT_MARKS
} tt_mark_kind;
TT_PUBLIC const char *tt_mark_name(tt_mark_kind kind); /* "set" */
typedef struct tt_mark {
    tt_mark_kind kind;
    const char *time, *text; /* RFC 3339; of a fix what was done, of a set point its value */
    double days;
    const char *number, *who; /* of the case, and whose it was: a post; each may be "" */
} tt_mark;
typedef struct tt_point {
    const char *time, *words; /* RFC 3339; "44 psi" */
    double days, number;      /* days since 1970 */
    bool beyond;              /* its good value, by more than readings scatter here */
    bool after_fix;
    const char *of; /* number of the case */
} tt_point;
typedef struct tt_series {
    const char *name, *text, *unit; /* of a question: what it asks */
    bool reckoned;                  /* not read: worked out from readings and facts of the site */
    const tt_point *points;
    uint32_t point_count; /* by time */
    const tt_mark *marks;
    uint32_t mark_count; /* by time */
    bool may_have_good;  /* the book has a place for its good value */
    bool has_good;
    double good;
    const char *good_words, *good_day; /* "30 psi", "2026-05-03"; each may be "" */
    tt_trend trend;
    bool trend_known, beyond;                 /* of the last point; beyond: its good value */
    const char *per_week;                     /* "2 psi"; RISING, FALLING; else "" */
    const char *jumped_after, *jumped_before; /* days; JUMP; else "" */
    const char *why;                          /* no value though all is told; else "" */
    const tt_untold *missing;                 /* of a number that has no point: what nobody told */
    uint32_t missing_count;
} tt_series;
typedef struct tt_returned {
    const char *name, *text;  /* the complaint */
    uint32_t times;           /* cases with it */
    const char *first, *last; /* when they began, RFC 3339 */
    double days; /* from the last cure to the next time; NAN: never cured before it came */
    const char *fix, *fix_text; /* what had helped before it came the last time; or "" */
    bool said;                  /* somebody said "it helped, and came back" */
} tt_returned;
typedef struct tt_gap {
    const char *from, *to; /* the first day without a round and the last, "2026-05-03" */
    uint32_t days;
} tt_gap;
typedef struct tt_gap_month {
    const char *month, *which; /* "2026-05", "03, 10–12, 31": days of it */
    uint32_t days;
} tt_gap_month;
typedef struct tt_site_story {
    const char *language; /* BCP 47: what it is told in */
    /* titles; days of the first case and of the last: "" if there is none */
    const char *book, *site, *from, *to;
    const tt_series *series;
    uint32_t series_count; /* readings with a good value or a round first, then what is reckoned */
    const tt_past_case *cases;
    uint32_t case_count; /* by when they began */
    const tt_returned *returned;
    uint32_t returned_count; /* most often first */
    uint32_t rounds, days_without;
    const tt_gap *gaps; /* days on which nobody went a round, from the first one to now */
    uint32_t gap_count;
    const tt_gap_month *gap_months; /* the same days, month by month */
    uint32_t gap_month_count;
} tt_site_story;
typedef struct tt_story tt_story;
/* `past` and `book` must outlive it; the book was loaded for this site. `now`: RFC 3339. */
TT_PUBLIC tt_status tt_story_new(const tt_book *book, const tt_past *past, const char *now,
                                 const char *language, tt_story **out);
TT_PUBLIC void tt_story_free(tt_story *s);
TT_PUBLIC const tt_site_story *tt_story_look(const tt_story *s);

#ifdef __cplusplus
}
#endif

#endif
