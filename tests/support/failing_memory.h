/* Memory that ends when the test says so, and that counts what was not given back. */
#ifndef TT_SUPPORT_FAILING_MEMORY_H
#define TT_SUPPORT_FAILING_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

typedef struct failing_memory {
    size_t fail_at;    /* the taking that fails, from 1; 0: none */
    bool from_then_on; /* ... and all after it */
    size_t takings, failures, live;
} failing_memory;

/* The source stays valid as long as `m`. */
memory_source failing_memory_source(failing_memory *m);

#endif
