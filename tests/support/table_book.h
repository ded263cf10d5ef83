/* A table of examples as a book. Each column is a question, each class a cause; names are made
 * of the table's words.
 *
 * The exact way to say a naive Bayes in rules:
 *   not-listed: 0 %, two-faults: 0 %      the classes are all there is, and exclude each other
 *   read-right: 100 %                     an answer is the value itself
 *   how-often: 20                         rows of the class; shares are relative
 *   one symptom for each answer, shown-by: {class: 3 of 22} for every class
 * Every class stands with every answer, so that a question's chances come to 1 and nothing is left
 * for `otherwise`, or `usual`, to fill. A question that was not answered counts for nothing.
 * A chance of 0 is the one thing that can't be said so: the engine holds it at one in a million,
 * since no word of an author is beyond being outweighed. What must be exactly 0 is said by facts
 * and rules: BOOK_OF_FACTS. */
#ifndef TT_SUPPORT_TABLE_BOOK_H
#define TT_SUPPORT_TABLE_BOOK_H

#include "table_twin.h"
#include "telltale.h"

typedef enum book_form {
    BOOK_OF_SYMPTOMS, /* as above */
    BOOK_OF_FACTS, /* each column a fact of today with its shares; rules make classes less likely,
                      or rule them out */
} book_form;

str table_book_text(arena *keep, const table_counts *k, book_form form);

typedef struct table_book {
    const example_table *of;
    tt_book *rules;           /* freed by table_book_free */
    const uint32_t *question; /* [column] */
    const char *const *cause; /* [class] its name */
} table_book;
/* The table needs a row of every class. */
table_book table_book_new(arena *keep, const table_counts *k, book_form form);
/* Of symptoms, with answers that count to this power. */
table_book table_book_counting(arena *keep, const table_counts *k, double power);
void table_book_free(table_book *b);

/* A case in which nothing is answered yet; answers: [column], VALUE_MISSING for not answered; may
 * be null. Freed by tt_case_free. */
tt_case *table_case(const table_book *b, const uint32_t *answers);
void table_answer(const table_book *b, tt_case *c, uint32_t column, uint32_t value);

/* Chance of each class as the case stands, and which one leads. */
void table_chances(const table_book *b, tt_case *c, double *out);
uint32_t table_leader(const table_book *b, tt_case *c);

/* The question the engine would ask next, as a column; UINT32_MAX: none. */
uint32_t table_next(const table_book *b, tt_case *c, double *bits);

/* Bits of one column as the engine has it, given the answers: a case in which nobody can answer any
 * of the other open questions. */
double table_bits(const table_book *b, const uint32_t *answers, uint32_t column);

#endif
