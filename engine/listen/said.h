/* What somebody typed or spoke, taken apart into words, each with its place, so that what is
 * understood can be shown in their own words. */
#ifndef TT_LISTEN_SAID_H
#define TT_LISTEN_SAID_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

typedef struct said_word {
    str plain;         /* as unicode_plain gives it: "wont" */
    uint32_t from, to; /* bytes of the utterance */
    bool number;       /* begins with a digit: no slip is looked for in it */
    bool pause;        /* a comma, a dash or a bracket stands before it */
    bool stop; /* a full stop, a semicolon, a question mark or a line's end stands before it */
} said_word;

typedef struct said {
    str text; /* without control characters; places are bytes of it */
    const said_word *words;
    uint32_t count;
    bool cut;           /* more words come, which are not read */
    uint32_t *patience; /* what patterns may still cost in it: one for all its parts */
} said;

enum { SAID_WORDS_MAX = 400 };

said said_read(arena *keep, str utterance);

/* Part of it, as if it were all; places stay those of the whole. */
said said_within(const said *s, uint32_t first, uint32_t end);
/* The words from `first` (inclusive) to `end` (exclusive) as they were said; empty if there are
 * none. */
str said_part(const said *s, uint32_t first, uint32_t end);

#endif
