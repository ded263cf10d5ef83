/* The days that --since and --until name. */
#ifndef TT_CLI_DAYS_BETWEEN_H
#define TT_CLI_DAYS_BETWEEN_H

#include <stdint.h>

#include "host/command_line.h"

/* Milliseconds since 1970, both in; what is left out is open. Says what is wrong. */
exit_status days_between(const command_line *line, int64_t *first, int64_t *last);

#endif
