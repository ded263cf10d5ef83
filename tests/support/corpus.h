/* Corpora of utterances: tests/corpus, its README says what stands in them. */
#ifndef TT_SUPPORT_CORPUS_H
#define TT_SUPPORT_CORPUS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

enum { CORPUS_FIELDS = 6 };

typedef struct corpus_line {
    bool seen;                 /* false: held back, nobody looks at it */
    str fields[CORPUS_FIELDS]; /* as in the file, the half among them */
    uint32_t field_count;
} corpus_line;

typedef struct corpus {
    const corpus_line *lines;
    uint32_t count;
} corpus;

corpus corpus_read(arena *keep, const char *file);

/* The next alternative of "a|b+c"; then of each the next part. *at begins at 0; false at the end.
 */
bool corpus_next(str list, char between, size_t *at, str *part);
/* Is the word one of the alternatives? */
bool corpus_allows(str expect, const char *word);

#endif
