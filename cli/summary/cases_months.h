/* Which causes came in which month at which site: what comes back is seen there. */
#ifndef TT_CLI_CASES_MONTHS_H
#define TT_CLI_CASES_MONTHS_H

#include "summary/case_list.h"

typedef struct month_count {
    char month[8];                  /* "2026-11", as the day was written where the case began */
    const char *site, *name, *text; /* "" where the cases don't say */
    size_t count, confirmed;
} month_count;
typedef struct month_counts {
    month_count *items; /* by month, then site, then the most frequent first */
    size_t count;
} month_counts;

/* Of the cases whose trouble is gone. Points into the list; `items` is freed by the caller. */
month_counts cases_by_month(const case_list *list);

#endif
