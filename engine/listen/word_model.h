/* Which of several things is spoken of, by the words: naive Bayes over features. A class learns
 * from phrases; each feature counts by how much oftener it stands in the phrases of the class than
 * in those of all classes. Beside that it counts how much of a phrase was said, and of what was
 * said stands in it: "no foam" is all of one phrase, and part of another, "no foam on the roof". */
#ifndef TT_LISTEN_WORD_MODEL_H
#define TT_LISTEN_WORD_MODEL_H

#include "listen/meaning.h"

typedef struct word_model {
    uint32_t classes;
    const double *prior;          /* [class] log of its share */
    double *phrases;              /* [class] how many it learned from */
    struct feature_count *counts; /* by feature, then class */
    uint32_t count;
    struct cells *features; /* those counts, feature by feature */
    uint32_t feature_count;
    struct learned_phrase *learned;
    uint32_t learned_count;
    uint32_t *typical; /* of the counts those that their class is nearly always spoken of with */
    uint32_t typical_count;
    struct phrase_having *having; /* by feature, then phrase */
    uint32_t having_count;
} word_model;

typedef struct model_draft model_draft;
model_draft *model_draft_new(arena *keep, uint32_t classes);
/* A phrase of a class; `weight` 1 is one phrase of an author. */
void model_draft_learn(model_draft *d, uint32_t class, const features *f, double weight);
word_model model_draft_done(model_draft *d, const double *log_prior);

/* Has any phrase the feature, denied or not? */
bool word_model_knows(const word_model *m, feature_id id);
/* How many words were said that no phrase has. */
uint32_t word_model_strangers(const word_model *m, const features *f);
/* Evidence for each class in `score` [classes], in nats and without the prior: 0 says nothing.
 * `strangers`: words that were said and mean nothing in the book. */
void word_model_score(const word_model *m, arena *scratch, const features *f, uint32_t strangers,
                      double *score);

#endif
