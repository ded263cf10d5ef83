/* WebAssembly of the machines that there are has no way back over several calls. Memory that ends
 * stops the module, and the page begins anew from what was kept. */
#ifndef TT_STAND_IN_SETJMP_H
#define TT_STAND_IN_SETJMP_H

typedef int jmp_buf[1];
#define setjmp(place)         ((void)(place), 0)
#define longjmp(place, value) __builtin_trap()

#endif
