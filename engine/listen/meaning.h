/* What words mean in a book: each word is itself, without its ending, and the concepts of
 * `words-for` that it is a word for. An utterance becomes a row of such features, those after a
 * "no" or "not" denied. */
#ifndef TT_LISTEN_MEANING_H
#define TT_LISTEN_MEANING_H

#include "listen/manner.h"
#include "model/book.h"

/* Concepts come first, in the order of the book; then words without their endings. */
typedef uint32_t feature_id;
#define FEATURE_DENIAL UINT32_MAX /* something is denied */

typedef struct feature {
    feature_id id;
    bool denied;
    float weight;        /* a word of a concept counts less than the concept */
    uint32_t first, end; /* words of the utterance */
} feature;

typedef struct features {
    const feature *items;
    uint32_t count;
    uint32_t strangers; /* words that say something elsewhere, and nothing in the book */
    bool fine;          /* "looks good": all is well, and nothing was denied */
} features;

typedef struct meaning {
    arena *keep;
    const book *book;
    const phrasebook *manner;
    phrasebook words;
    struct meaning_of **of; /* what a phrase stands for: by its tag, from 1 */
    uint32_t of_count, of_room;
} meaning;

meaning meaning_new(arena *keep, arena *scratch, const book *b, const phrasebook *manner,
                    const word_set *language);
/* A text that people may quote: its words are known from then on. Before the first reading.
 * `scratch` is another arena than `keep`. */
void meaning_learn(meaning *m, arena *scratch, str text);

/* More than any feature's id so far. */
uint32_t meaning_features(const meaning *m);

/* The features of the words from `first` to `end`. */
features meaning_read(const meaning *m, arena *keep, const said *s, uint32_t first, uint32_t end);
/* Is this word one that the book or its concepts know, a slip forgiven? */
bool meaning_knows(const meaning *m, arena *scratch, const said *s, uint32_t word);

#endif
