/* What `cases` shows: some of the cases that fit, in an order, and what all that fit come to. A
 * folder is read for it; a database answers each part by a query. */
#ifndef TT_CLI_CASE_OVERVIEW_H
#define TT_CLI_CASE_OVERVIEW_H

#include "base/arena.h"
#include "summary/case_order.h"
#include "summary/cases_counts.h"
#include "summary/cases_months.h"

typedef struct case_wish {
    case_query query;
    case_order order;
    size_t limit;               /* the last of the list; SIZE_MAX: all of it */
    bool lists, counts, months; /* what is wanted */
} case_wish;

typedef struct case_overview {
    case_list list;  /* all that were read */
    case_list shown; /* those to be listed, in order; points into `list` */
    cases_counts counts;
    month_counts months;
    arena *keep; /* holds texts of what was counted elsewhere */
} case_overview;

/* Says what went wrong; `may_be_missing` as for case_list_read. Freed in any case. */
exit_status case_overview_read(const char *root, bool may_be_missing, const case_wish *wish,
                               case_overview *out);
void case_overview_free(case_overview *o);

/* The last of a list that is in order. */
case_list last_of_list(const case_list *list, size_t limit);

#endif
