/* How much the engine has done, in steps that are the same on every machine: each piece of code
 * without a branch (a basic block) counts one. What grows with the square of its input is seen on a
 * slow machine as on a fast one, under load as without.
 *
 * Only the parts of the engine count that tests/CMakeLists.txt compiles so for this test
 * (telltale_count_work); libraries of others never do. */
#ifndef TT_SUPPORT_WORK_H
#define TT_SUPPORT_WORK_H

#include <stdint.h>

/* Steps since the program began. */
uint64_t work_done(void);

#endif
