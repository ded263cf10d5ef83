/* How a conversation ended, as TT_TURN_END tells it. */
#ifndef TT_CLI_ENDED_H
#define TT_CLI_ENDED_H

#include <stdbool.h>

#include "host/exits.h"

/* The case is over. */
bool is_closed(const char *how);
exit_status status_of_end(const char *how);

#endif
