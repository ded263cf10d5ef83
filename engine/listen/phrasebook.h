/* Words and phrases, each with what it stands for (64 tags), and the reading of an utterance as a
 * row of them: the longest phrase first, slips of the pen forgiven where a word is none that people
 * use. */
#ifndef TT_LISTEN_PHRASEBOOK_H
#define TT_LISTEN_PHRASEBOOK_H

#include "listen/said.h"
#include "listen/word_set.h"

typedef struct phrasebook {
    arena *keep;
    word_set words;
    const word_set *known[2]; /* words that are no slip of another one: of the language, of the
                                 book; may be null */
    /* what of a word is compared: the word without its ending; null: all of it */
    str (*form)(str word);
} phrasebook;

phrasebook phrasebook_new(arena *keep, const word_set *language, const word_set *book);
/* A phrase of plain words; said twice, its tags are joined. `tags` 0 hides the single words in it:
 * "hand valve". */
void phrasebook_add(phrasebook *p, str plain_phrase, uint64_t tags);
/* What it stands for, to be set by the caller; 0 if it is new. */
uint64_t *phrasebook_slot(phrasebook *p, str plain_phrase);
/* Where a slip of the pen can have meant two words, rather one whose tags are wanted. */
void phrasebook_prefer(phrasebook *p, bool (*wanted)(uint64_t tags));
/* Several, separated by "|". */
void phrasebook_add_all(phrasebook *p, arena *scratch, const char *phrases, uint64_t tags);

/* A word or phrase of an utterance. */
typedef struct phrase_item {
    uint32_t first, end; /* words of the utterance */
    uint64_t tags;       /* 0: means nothing here, or is not in the book */
    bool found;          /* is it in the book? */
    bool slip;           /* a slip was forgiven in it, or another form of a word */
} phrase_item;

typedef struct phrase_items {
    const phrase_item *items;
    uint32_t count;
} phrase_items;

phrase_items phrasebook_read(const phrasebook *p, arena *keep, arena *scratch, const said *s);

#endif
