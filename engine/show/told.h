/* What the engine is asked about a case. Memory that ends there leaves by the arena's way out, as
 * everywhere: it is never taken for nothing to be shown. */
#ifndef TT_SHOW_TOLD_H
#define TT_SHOW_TOLD_H

#include <assert.h>

#include "base/arena.h"
#include "telltale.h"

static inline bool is_told(arena *keep, tt_status status)
{
    if (status == TT_NO_MEMORY) arena_leave(keep);
    return status == TT_OK;
}

/* What can always be told of a case. */
static inline void tell_of(arena *keep, tt_status status)
{
    const bool right = is_told(keep, status);
    assert(right);
    (void)right;
}

#endif
