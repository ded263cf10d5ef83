/* Regular expressions of authors, matched against words of users: both are hostile input. PCRE2,
 * UTF + UCP, caseless, \C refused; limits on match effort, depth, heap, pattern length and nesting,
 * and on what all matches of one utterance may cost together.
 */
#ifndef TT_BASE_PATTERN_H
#define TT_BASE_PATTERN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

typedef struct pattern pattern;

enum {
    PATTERN_LENGTH_MAX = 1000, /* code points */
    PATTERN_NESTING_MAX = 32,
    PATTERN_MATCH_MAX = 20000,  /* items tried: the library's own limit is one for each place where
                                   a match may begin, and so a thousand times as much */
    PATTERN_MATCH_COSTS = 50,   /* of these, what a match takes that tries none */
    PATTERN_PATIENCE = 4000000, /* of these, for one utterance and all patterns of a book */
    PATTERN_DEPTH_MAX = 2000,
    PATTERN_HEAP_MAX_KIB = 2048,
    PATTERN_SUBJECT_MAX = 1000, /* code points of a complaint; longer text is cut there */
};

/* Compiles into the arena, and adds to *filled the bytes that it takes there. On failure returns
 * null, with the reason (in `keep`) and the byte offset of the fault. */
pattern *pattern_compile(arena *keep, str source, size_t *filled, str *reason, size_t *offset);

typedef enum pattern_result { PATTERN_NO, PATTERN_YES, PATTERN_TOO_HARD } pattern_result;

/* Where it matched is given in bytes of `subject` if `from` and `to` are not null. `subject` is
 * NFC. What it costs is taken from *patience, which goes down to 0: then all is too hard. */
pattern_result pattern_match(const pattern *p, arena *scratch, str subject, uint32_t *patience,
                             size_t *from, size_t *to);

#endif
