/* One line of a writer's file: how a record is written, and how it is read again. */
#ifndef TT_CLI_RECORD_LINE_H
#define TT_CLI_RECORD_LINE_H

#include <stddef.h>

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

enum { LINE_HASH_SIZE = 65, RECORD_VERSION = 1, LONGEST_LINE = 4 << 20 };

void line_hash(const char *line, size_t length, char hash[LINE_HASH_SIZE]);

/* Without its newline. `before`: hash of the line before, or "". */
str record_line(arena *keep, const char *case_id, const char *before, const tt_record *record,
                const tt_value *ends); /* see case_ends.h; null: it names none */

/* Why a line is no record that this program knows, or null and *out, which lives in `keep`.
 * *follows: the line before has the hash that this one names; it is a record all the same if it
 * doesn't. */
const char *record_of_line(arena *keep, const char *line, size_t length, const char *case_id,
                           const char *before, tt_record *out, bool *follows);

#endif
