/* What may be answered, as schemas: of each question of a book, in its own words and units. */
#ifndef TT_REVISE_ANSWER_SCHEMA_H
#define TT_REVISE_ANSWER_SCHEMA_H

#include "revise/name_lists.h"
#include "show/json.h"

typedef struct schema_making {
    arena *keep, *scratch;
    const name_lists *names;
    const book *own, *all; /* all: with everything that is written for each piece */
} schema_making;

/* docs/book.schema.json, as it was when the program was built. */
str language_schema(void);

tt_value schema_reference(const schema_making *m, const char *front, str base);
tt_value schema_words(const schema_making *m, const char *one, const char *other);
tt_value schema_site_answer(const schema_making *m, str base);
tt_value schema_chance(const schema_making *m, const tt_value *general);
tt_value schema_units(const schema_making *m, const tt_value *general);
/* "answer-to-X", "reply-to-X", "value-of-X" of each question and conclusion. */
void schema_answers(const schema_making *m, value_builder *definitions);
/* Each question of the book: `general`, and its own answers where they are named. */
void schema_own_answers(const schema_making *m, const tt_value *general, value_builder *properties);

#endif
