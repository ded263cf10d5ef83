/* Where something goes that is not shown: into a file of its own, or into what is no file and only
 * passes it on. */
#ifndef TT_CLI_INTO_H
#define TT_CLI_INTO_H

#include <stdbool.h>
#include <stddef.h>

#include "host/exits.h"

/* Whether a file with these bytes is one of ours, so that a newer one may take its place. */
typedef bool is_ours(const char *bytes, size_t length);

/* A file is there whole or not at all, for its owner only; what was there before keeps its rights,
 * and a link goes on pointing where it did. One that is neither empty nor ours stays, unless
 * `overwrite`. A device, a pipe (whose reader is waited for) and an open descriptor ("/dev/fd/3")
 * get the bytes as they come. Says what went wrong. */
exit_status put_into(const char *path, const char *bytes, size_t length, is_ours *ours,
                     bool overwrite);

#endif
