/* What a listener holds; for the room only. */
#ifndef TT_LISTEN_LISTENER_H
#define TT_LISTEN_LISTENER_H

#include "listen/danger_rules.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "listen/question_ear.h"
#include "listen/said_number.h"

/* Words of the book that tell of danger: of an emergency, or of an answer to a gate question. */
typedef struct danger_phrase {
    str plain; /* or: */
    const pattern *pattern;
    uint32_t emergency, question, answer; /* NO_ID: not of such */
} danger_phrase;

struct listener {
    const book *book;
    word_set language;               /* words that everybody uses */
    word_set vocabulary;             /* every word of the book's texts */
    phrasebook danger, manner, gate; /* gate: gate_words.h */
    phrasebook replies, outcomes;    /* outcomes: outcome_words.h */
    meaning complaint_meaning;       /* apart: a word that only questions use is a stranger among
                                        complaints */
    meaning meaning;
    phrasebook numbers;
    question_ears questions;
    const uint32_t *complaints; /* symptoms */
    uint32_t complaint_count;
    word_model complaint_words;   /* class i is complaints[i] */
    const danger_phrase *own;     /* in the order of the book */
    uint32_t own_count, of_gates; /* the first ones, which are answers to gate questions */
};

/* The words of a text, as far as it has an author: patterns have none. */
void vocabulary_add_text(word_set *s, arena *scratch, const texts *t);
void vocabulary_add_book(word_set *s, arena *scratch, const book *b);

void gate_words_add(phrasebook *p, arena *scratch);
void outcome_words_add(phrasebook *p, arena *scratch);

/* Words of an utterance between two pauses or joining words. A number is never cut. */
enum { MOST_CLAUSES = 12 };
typedef struct clause {
    uint32_t first, end;
} clause;
uint32_t clauses_cut(const listener *l, arena *keep, const said *s, clause *out);

/* The complaints in some clauses. */
complaints_heard complaints_in(const listener *l, arena *keep, const said *s, const clause *clauses,
                               uint32_t clause_count);

/* Complaints in two steps: first all words of all texts, then what they tell. */
void complaints_learn_words(listener *l, arena *scratch);
void complaints_learn(listener *l, arena *keep, arena *scratch);

/* Where a phrase of plain words stands in an utterance, word by word, endings of plurals and slips
 * forgiven: its first word, or UINT32_MAX. */
uint32_t phrase_place(const listener *l, arena *scratch, const said *s, str plain, uint32_t *end);

#endif
