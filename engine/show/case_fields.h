/* A case in a list, and what a list comes to, for programs: version 1 of `cases --json`. */
#ifndef TT_SHOW_CASE_FIELDS_H
#define TT_SHOW_CASE_FIELDS_H

#include "say/catalogue.h"
#include "show/fields.h"

/* Who called: told only where somebody asks for it. Each may be "". */
typedef struct shown_contact {
    const char *caller, *call_back, *ticket;
} shown_contact;

/* A case among others: what its records mean, and what the host knows of it. */
typedef struct listed_case {
    const char *number, *id, *folder;
    const char *go_on; /* the command; null: it has ended */
    uint32_t left_out; /* lines of its files that are no records */
    const tt_case_summary *says;
    const shown_contact *contact; /* or null */
} listed_case;

typedef struct shown_spread {
    uint64_t count;
    double low, median, high; /* NAN where nothing was counted */
} shown_spread;
typedef struct shown_cause_count {
    const char *name, *text;
    uint64_t count, confirmed;
    shown_spread minutes;
} shown_cause_count;
typedef struct shown_month {
    const char *month, *site, *name, *text;
    uint64_t count, confirmed;
} shown_month;
typedef struct shown_counts {
    uint32_t version;
    uint64_t cases, states[TT_CASE_STATES];
    const shown_cause_count *causes;
    uint32_t causes_count;
    shown_spread minutes;
    const shown_month *months;
    uint32_t months_count;
    uint64_t left_out, failed;
} shown_counts;

/* All lives in `keep`, texts as long as those of the case. */
tt_value listed_case_value(arena *keep, const listed_case *c);
tt_value counts_value(arena *keep, const shown_counts *counts); /* the version is filled in */
/* Of a line, which is the one or the other. */
tt_value cases_schema(arena *keep);

/* "closed, the trouble is gone". */
const char *case_state_words(tongue in, tt_case_state state);
/* What an open case's `stands` says, in words; "": nothing. */
const char *stands_words(tongue in, const tt_case_summary *says);

#endif
