/* The time of day: the only place that asks for it. */
#ifndef TT_CLI_CLOCK_H
#define TT_CLI_CLOCK_H

#include "telltale.h"

/* RFC 3339, as the clock on the wall here shows it. */
void clock_now(char now[TT_MOMENT_SIZE]);
int64_t clock_milliseconds(void); /* since 1970 */

#endif
