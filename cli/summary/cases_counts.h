/* What a list of cases comes to: how many of each state, how often each cause, how long they took.
 */
#ifndef TT_CLI_CASES_COUNTS_H
#define TT_CLI_CASES_COUNTS_H

#include "summary/case_list.h"

/* Median and quartiles of minutes; between two of them, linearly: the share p of n values lies at
 * place 1 + p (n - 1). Hyndman, Fan: Sample quantiles in statistical packages, The American
 * Statistician 50(4), 1996, 361-365, definition 7. */
typedef struct minutes_spread {
    size_t count; /* of cases that have minutes; 0: the rest is NAN */
    double low, median, high;
} minutes_spread;

typedef struct cause_count {
    const char *name, *text; /* of the last case that has them; both "": not kept */
    size_t count, confirmed;
    minutes_spread minutes;
} cause_count;

typedef struct cases_counts {
    size_t all, states[TT_CASE_STATES];
    size_t done;         /* of the closed: rounds and records */
    cause_count *causes; /* of TT_CASE_CLOSED; the most frequent first, then by text */
    size_t cause_count;
    minutes_spread minutes; /* of TT_CASE_CLOSED */
    size_t left_out;        /* lines that are no records */
} cases_counts;

/* Points into the list. Freed by cases_counts_free. */
cases_counts cases_count(const case_list *list);
/* Brings causes that were counted elsewhere into their order. */
void cases_counts_sort(cases_counts *counts);
void cases_counts_free(cases_counts *counts);
const char *cause_count_words(const cause_count *cause);

#endif
