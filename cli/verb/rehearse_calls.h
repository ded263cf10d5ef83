/* Made-up calls, played on all processors. */
#ifndef TT_CLI_REHEARSE_CALLS_H
#define TT_CLI_REHEARSE_CALLS_H

#include "host/exits.h"
#include "telltale.h"

typedef struct calls_plan {
    const tt_book *book;
    const tt_rehearsal_options *options;
    uint64_t first, last; /* numbers of calls, from 1 */
    unsigned threads;
} calls_plan;

/* What was counted in all of them; *out is freed by the caller with tt_rehearsal_free, and null
 * unless it is EXIT_DONE. Stopped from outside it says so, and the signal is noted (signals.h). */
exit_status calls_played(const calls_plan *plan, tt_rehearsal **out);

#endif
