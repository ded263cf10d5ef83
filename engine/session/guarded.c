/* The one place with a guard: work that runs out of memory comes back here. */
#include "base/guard.h"

#include <assert.h>

#include "session/session.h"

enum { ARENAS_MAX = 7 };

tt_status guarded(arena *const *arenas, uint32_t count, tt_status (*work)(void *context),
                  void *context)
{
    assert(work != NULL);
    guard way_out;
    guard *before[ARENAS_MAX] = {NULL};
    assert(count <= ARENAS_MAX);
    for (uint32_t i = 0; i < count; i++) before[i] = arena_guard(arenas[i], &way_out);
    tt_status status = TT_NO_MEMORY;
    if (setjmp(way_out.place) == 0) {
        tt_status done = work(context);
        for (uint32_t i = 0; i < count; i++) arena_guard(arenas[i], before[i]);
        return done;
    }
    for (uint32_t i = 0; i < count; i++) arena_guard(arenas[i], before[i]);
    return status;
}

tt_status guarded_case(tt_case *c, tt_status (*work)(void *context), void *context)
{
    arena *all[] = {c->keep, c->derived, c->scratch};
    return guarded(all, 3, work, context);
}
