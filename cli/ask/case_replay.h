/* What the records of a case say, and a case to look at: its book and site opened as it was
 * last worked on, its records replayed; nothing is written and nobody is asked. */
#ifndef TT_CLI_CASE_REPLAY_H
#define TT_CLI_CASE_REPLAY_H

#include "ask/ask.h"

/* ---- the records, before they mean anything to a book ---- */

const json_t *case_beginning(const case_file *file);   /* data of its first record; or null */
const char *case_last_revision(const case_file *file); /* of the book last worked with; or "" */
const json_t *
case_last_site(const case_file *file); /* {"path", "revision", "text"}; null: the book's own */
bool case_is_closed(const case_file *file); /* closed, and not opened again since */
/* What was said of the cause since the trouble was gone, the data of its record `confirm`; null: nothing, the
 * case went on after it, or two who did not know of each other named different causes. */
const json_t *case_confirmed(const case_file *file);
/* The folder of its book: `named`, or what the case says. Null after saying that there is
 * neither. */
const char *case_book(const case_file *file, const char *named);

/* Begins the engine's case with the book that is open, as the case's beginning or else the
 * command line says. */
exit_status case_begin_again(ask *a);

/* ---- looking ---- */

/* Opens the case `named` (its number or folder) in the folder that `line` or the surroundings name,
 * and replays it with its book (`book`: another one, or null). `line` gives the role and
 * the language if it has them. `after` (or null) sees each record when it was replayed. Zeroes *a
 * first; ended by case_look_end whatever this returned. Says what went wrong. */
exit_status case_look(ask *a, const command_line *line, const char *named, const char *book,
                      record_seen *after, void *context);
/* Frees all that *a holds. */
void case_look_end(ask *a);

#endif
