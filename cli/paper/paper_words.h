/* Texts on a paper, by whose they are, and the beginning of a table. */
#ifndef TT_CLI_PAPER_WORDS_H
#define TT_CLI_PAPER_WORDS_H

#include <stdint.h>

#include "base/arena.h"
#include "paper/paper.h"
#include "say/catalogue.h"

piece_of_text our_text(const char *text);
piece_of_text our_words(tongue in, text_id id);
piece_of_text rule_text(const char *text);
piece_of_text figure(const char *text);
const char *texts_joined(arena *keep, const char *const *texts, uint32_t count); /* "one, two" */
/* The readings that answer a gate question as safe, in words: an end that is not safe itself is
 * left out. */
const char *safe_range(arena *keep, tongue in, tt_case *c, uint32_t question, const tt_question *q);
/* One of the facts of a paper, where there is anything to say. */
void paper_fact(const paper *p, text_id name, piece_of_text value);
/* A list of a book's texts under a line that says what they are; nothing where there are none. */
void paper_list(const paper *p, text_id lead, const char *const *texts, uint32_t count,
                bool numbered);
text_table table_of(arena *keep, tongue in, const text_id *columns, size_t count);
/* The language of a book's texts for a paper: null where it is ours, too. */
const char *paper_language(tongue in, const char *tag);

#endif
