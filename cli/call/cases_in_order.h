/* Every case under a root, read and shown one after another, as they began. Several threads read
 * ahead of whoever looks: reading takes most of the time, and only looking needs an order. */
#ifndef TT_CLI_CASES_IN_ORDER_H
#define TT_CLI_CASES_IN_ORDER_H

#include <stddef.h>

#include "call/seen_case.h"

typedef struct read_case {
    const char *folder, *uuid;
    exit_status read; /* what was wrong has been said */
    seen_case *c;     /* ended when look returns, whatever `read` says */
} read_case;
typedef void look_at_case(void *context, const read_case *one);

/* How many folders or cases were out of reach: each was said. */
size_t cases_in_order(const char *root, look_at_case *look, void *context);

#endif
