/* Cases carried from one depot to another: a folder, a database, in any direction. What is there
 * already stays, nothing comes twice, and a case that was never anywhere else is the same
 * afterwards, byte for byte. */
#ifndef TT_CLI_CASE_COPY_H
#define TT_CLI_CASE_COPY_H

#include <stddef.h>

#include "base/arena.h"
#include "base/str.h"
#include "host/exits.h"

typedef struct case_copied {
    size_t made, added_to, same; /* cases */
} case_copied;

/* All cases under `from`. Says what went wrong, and goes no further then. */
exit_status cases_copy(const char *from, const char *to, case_copied *out);
/* One, and whether the other depot has all of it afterwards. `to_place`: null, if there is none
 * yet. */
exit_status case_copy(arena *keep, const char *place, const char *to, const char *to_place,
                      const char *id, case_copied *out);

/* What `there` lacks of a writer's lines, to be put behind it: the rest, if it is the beginning of
 * them; else each line that it does not have. */
str lines_missing(arena *keep, str there, str lines);

#endif
