/* Words by which a text tells of what can hurt, in English and Spanish: "ladder" of height, "live"
 * of electricity. */
#ifndef TT_MODEL_HAZARD_WORDS_H
#define TT_MODEL_HAZARD_WORDS_H

#include "model/book.h"

/* As whole words, whatever their case; SIZE_MAX: nowhere. */
size_t word_at(str text, const char *word);
/* "Nobody climbs", "never touch a live wire", "leave the wiring to": the sentence says what is not
 * done. */
bool is_forbidden(str text, size_t at);

/* Which of the words have a letter as their first and as their second, a bit each: made once for
 * many texts, as most words are in none of them. */
typedef struct hazard_ear {
    uint64_t first[32], second[32];
} hazard_ear;
hazard_ear hazard_ear_ready(void);

/* The first such word whose hazards are none of those named; null: none. What a piece of equipment
 * is called is no more than its name, and what a sentence forbids is not done. */
const char *hazard_word(const hazard_ear *e, const book *b, const texts *t, const bool *named);
/* The hazard that it tells of first. */
hazard hazard_of_word(const char *word);

#endif
