/* A book from one text, and a case in which questions are answered by their names: for tests
 * that look at nothing but what people see. Whatever does not work fails the test. */
#ifndef TT_SUPPORT_ASKED_BOOK_H
#define TT_SUPPORT_ASKED_BOOK_H

#include "believe/belief.h"
#include "telltale.h"

typedef struct asked_book {
    tt_book *book;
    tt_case *c;
} asked_book;

asked_book asked_new(const char *yaml);
void asked_free(asked_book *a);

/* `option`: a name, as in an answers file; "unsure" takes no side. */
void asked_answer(asked_book *a, const char *question, const char *option);
/* A likely answer to a question of yes or no. */
void asked_likely(asked_book *a, const char *question, double no, double yes);
/* All answers taken back. */
void asked_again(asked_book *a);

const tt_view *asked_look(asked_book *a);
/* As shown; a null name: something not listed. */
double asked_chance(asked_book *a, const char *cause);
/* Sum over all causes whose names hold these letters. */
double asked_chance_of_all(asked_book *a, const char *part_of_name);

/* The network that the book became, for what no screen shows; lives as long as the book. */
const net *asked_net(const asked_book *a);
uint32_t asked_cause(const asked_book *a, const char *name);

#endif
