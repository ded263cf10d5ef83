/* The parts of `ask` before a case goes on and after it has ended. */
#ifndef TT_CLI_ASK_PARTS_H
#define TT_CLI_ASK_PARTS_H

#include "verb/conversation.h"

/* choose_book.c: the book named; else, on a terminal, the one chosen of those that come along; else
 * the usual one of them. Null: the person left, or there is none, which is said. */
const char *book_wanted(conversation *c);
extern const char usual_book_name[];

/* choose_case.c: the case named; else, for a person who has named nothing, the one chosen of those
 * that are open. Null: a new one. */
const char *case_wanted(conversation *c);

/* take_up.c: a case that is there, by its number or folder. */
void take_up(conversation *c, const char *named);

/* end_case.c: a case that ended so is over; the last page, and the status of the program. */
bool is_closed(const char *how);
exit_status end_case(conversation *c);

#endif
