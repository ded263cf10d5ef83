/* Regular expressions of authors, matched against words of users: both are hostile input. PCRE2,
 * UTF + UCP, caseless, \C refused; limits on match effort, depth, heap, pattern length and nesting.
 */
#ifndef TT_BASE_PATTERN_H
#define TT_BASE_PATTERN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/str.h"

typedef struct pattern pattern;

enum {
    PATTERN_LENGTH_MAX = 1000, /* code points */
    PATTERN_NESTING_MAX = 32,
    PATTERN_MATCH_MAX = 20000,
    PATTERN_DEPTH_MAX = 2000,
    PATTERN_HEAP_MAX_KIB = 2048,
    PATTERN_SUBJECT_MAX = 1000, /* code points of a complaint; longer text is cut there */
};

/* Compiles into the arena. On failure returns null, with the reason (in `keep`) and the byte offset
 * of the fault. */
pattern *pattern_compile(arena *keep, str source, str *reason, size_t *offset);

typedef enum pattern_result { PATTERN_NO, PATTERN_YES, PATTERN_TOO_HARD } pattern_result;

/* Where it matched is given in bytes of `subject` if `from` and `to` are not null. `subject` is
 * NFC. */
pattern_result pattern_match(const pattern *p, arena *scratch, str subject, size_t *from,
                             size_t *to);

#endif
