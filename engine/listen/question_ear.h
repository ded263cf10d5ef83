/* What a question is called, and what its answers are called, as far as its texts tell. Of a
 * question about each piece of a kind there is one. */
#ifndef TT_LISTEN_QUESTION_EAR_H
#define TT_LISTEN_QUESTION_EAR_H

#include "listen/word_model.h"

typedef struct name_word {      /* of a question's name: "foam-air" has two */
    const feature_id *features; /* any of them says it */
    uint32_t count;
    double weight; /* the rarer in names, the more it tells */
} name_word;

typedef struct question_ear {
    uint32_t question;  /* the first piece's */
    word_model answers; /* CHOICE: class i is answer i */
    name_word *name;
    uint32_t name_count;
    const feature_id *asked; /* features of the text of the question, each once */
    uint32_t asked_count;
} question_ear;

typedef struct question_ears {
    const question_ear *items;
    uint32_t count;
    const uint32_t *of;   /* [question] its ear; of quantities and comparisons NO_ID */
    const uint32_t *with; /* [feature] how many of them are spoken of with it */
    uint32_t feature_count;
} question_ears;

/* Learns all words of all questions, then what they tell. */
question_ears question_ears_new(meaning *m, arena *keep, arena *scratch);

/* How much of a question's name was said, 0 to 1. */
double question_named(const question_ear *e, const features *f);
/* How much was said that stands in its name or, for less, in its text: the rarer, the more. */
double question_spoken_of(const question_ears *all, uint32_t ear, const features *f);
bool question_name_has(const question_ear *e, feature_id id);
/* In its name or in its text. */
bool question_speaks_with(const question_ear *e, feature_id id);
/* Of the words that mean something in the book: how many this question is spoken of with; how many
 * of those are of an answer alone, and stand neither in its name nor in its text; and without what
 * stands in the names and texts of very many others, how many tell which question it is, and how
 * many tell an answer. */
typedef struct question_words {
    uint32_t all, known, answering, naming, telling;
} question_words;
question_words question_words_in(const question_ears *all, uint32_t ear, const features *f);

#endif
