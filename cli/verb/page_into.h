/* A page of ours, written where --into says, or shown. */
#ifndef TT_CLI_PAGE_INTO_H
#define TT_CLI_PAGE_INTO_H

#include <stdio.h>

#include "host/command_line.h"

/* Writes the page. What it returns is the end of it if it is not EXIT_DONE. */
typedef exit_status page_writer(FILE *out, const void *context);

/* Into the file of --into, whole or not at all; another page of ours may stand there, and with
 * --overwrite anything. Without --into, or with
 * -, on standard output. */
exit_status page_put(const command_line *line, page_writer *write, const void *context);
/* The same for a path of one's own. */
exit_status page_put_at(const char *path, bool overwrite, page_writer *write, const void *context);

#endif
