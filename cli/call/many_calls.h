/* `ask --json --many`: one program holds many calls in one process, each known by a key. */
#ifndef TT_CLI_MANY_CALLS_H
#define TT_CLI_MANY_CALLS_H

#include "host/command_line.h"
#include "host/exits.h"

exit_status many_calls(const command_line *line);

#endif
