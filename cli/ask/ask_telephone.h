/* `ask --telephone`: for whoever has a caller on the line. */
#ifndef TT_CLI_ASK_TELEPHONE_H
#define TT_CLI_ASK_TELEPHONE_H

#include "ask/ask.h"

bool on_telephone(const ask *a);
/* What to read to the caller: the question in its words, and the answers to listen for. */
void show_read_aloud(ask *a, const tt_question *question);
/* Answers that were said without being asked, beside one to `asked` (or TT_NONE): says them back,
 * and takes them if they are right. False: there were none in the line, and nothing was done.
 * `*rest` (or null): what is left of it, freed by the caller. */
bool take_spoken(ask *a, const char *line, uint32_t asked, char **rest);
/* The same for a prompt that is no question; also jumps. */
bool take_aside(ask *a, const char *line);
/* A question that is named by its words comes next. False: none is. */
bool jump_to_spoken(ask *a, const char *line);
/* So many minutes at least are to be expected: the next question, and the fix that will help, each
 * by its chance. Questions behind the next, fixes that won't help, and whoever has to come are not
 * in it. */
double minutes_left(const tt_view *view);

#endif
