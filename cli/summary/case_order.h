/* The orders in which a list of cases can be read. */
#ifndef TT_CLI_CASE_ORDER_H
#define TT_CLI_CASE_ORDER_H

#include "summary/case_list.h"

typedef enum case_order {
    ORDER_LISTED, /* ended ones first, so that those to work on stand at the end, where a terminal
                     stops */
    ORDER_BEGAN,
    ORDER_MOVED, /* who waits longest for the next word first */
    ORDER_SITE,
    ORDER_STATE,
    ORDER_UNTIL, /* that one waits for; those without come last */
    CASE_ORDERS
} case_order;
const char *case_order_name(case_order order); /* "moved" */

/* Those that are alike stay in the order in which they began. */
void case_list_sort(case_list *list, case_order order);

#endif
