/* The one way out when memory ends. A public function writes
 *
 *     guard way_out;
 *     if (setjmp(way_out.place)) { ...arenas are freed here...; return TT_NO_MEMORY; }
 *
 * and hands the guard to its arenas. Only this header sees <setjmp.h>. */
#ifndef TT_BASE_GUARD_H
#define TT_BASE_GUARD_H

#include <setjmp.h>

typedef struct guard {
    jmp_buf place;
} guard;

_Noreturn void guard_leave(guard *g);

#endif
