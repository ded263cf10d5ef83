/* What a listener holds; for the room only. */
#ifndef TT_LISTEN_LISTENER_H
#define TT_LISTEN_LISTENER_H

#include "listen/danger_rules.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "listen/word_model.h"

/* Words of the book that tell of danger: of an emergency, or of an answer to a gate question. */
typedef struct danger_phrase {
    str plain; /* or: */
    const pattern *pattern;
    uint32_t emergency, question, answer; /* NO_ID: not of such */
} danger_phrase;

struct listener {
    const book *book;
    word_set language;   /* words that everybody uses */
    word_set vocabulary; /* every word of the book's texts */
    phrasebook danger, manner;
    meaning meaning;
    const uint32_t *complaints; /* symptoms */
    uint32_t complaint_count;
    word_model complaint_words; /* class i is complaints[i] */
    const danger_phrase *own;   /* in the order of the book */
    uint32_t own_count;
};

/* The words of a text, as far as it has an author: patterns have none. */
void vocabulary_add_text(word_set *s, arena *scratch, const texts *t);
void vocabulary_add_book(word_set *s, arena *scratch, const book *b);

/* Complaints in two steps: first all words of all texts, then what they tell. */
void complaints_learn_words(listener *l, arena *scratch);
void complaints_learn(listener *l, arena *keep, arena *scratch);

/* Where a phrase of plain words stands in an utterance, word by word, endings of plurals and slips
 * forgiven: its first word, or UINT32_MAX. */
uint32_t phrase_place(const listener *l, arena *scratch, const said *s, str plain, uint32_t *end);

#endif
