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
} tt_walked;
/* Of a case of another kind: nothing. Valid until the case changes. */
TT_PUBLIC tt_status tt_walk_look(tt_case *c, const tt_walked **out, uint32_t *count);
/* The same of one question, in any case. */
TT_PUBLIC tt_status tt_good_look(tt_case *c, uint32_t question, tt_walked *out);
/* A number in the unit in which people at the site read this question. TT_FAULTY: no such unit for
 * it. */
TT_PUBLIC tt_status tt_reading_number(tt_case *c, uint32_t question, double number,
                                      const char *unit, double *out);

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
/* By time. They live until another case is added. */
TT_PUBLIC const tt_past_reading *tt_past_readings(const tt_past *p, uint32_t *count);
TT_PUBLIC const tt_past_case *tt_past_cases(const tt_past *p, uint32_t *count);
/* Of which rounds the last was so long ago that they are due, at `now` (RFC 3339). */
TT_PUBLIC tt_every tt_past_due(const tt_past *p, const char *now);

#ifdef __cplusplus
}
#endif

#endif
