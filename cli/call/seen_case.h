/* A case to be looked at: what its records mean, its book and site as it was last worked with, and
 * its records played. Nothing is written and nobody is asked. */
#ifndef TT_CLI_SEEN_CASE_H
#define TT_CLI_SEEN_CASE_H

#include "books/read_book.h"
#include "cases/case_depot.h"
#include "cases/case_store.h"

typedef struct seen_case {
    case_store *store;
    tt_journal *journal;
    tt_case_summary says;
    tt_case_places places;
    opened_book book;
    tt_talk *talk; /* with whom the case is now, or was last */
} seen_case;

/* Reads the records of the case `named` (its number or folder, or a file that it comes in). Zeroes
 * *c first; ended by seen_case_end whatever this returned. These say what went wrong. */
exit_status seen_case_read(seen_case *c, const char *root, const char *named);
/* It is there and sound, for all anybody knows: reading it failed. */
bool is_out_of_reach(exit_status read);
/* So many folders or cases of all could not be read: said, and EXIT_IO, if there are any. */
exit_status all_were_read(size_t failed);
/* Opens its book (`named`: another one, or null). */
exit_status seen_case_open(seen_case *c, const char *named);
/* Plays the records with the book that is open. `language`: or null, as the case began. */
exit_status seen_case_play(seen_case *c, const char *language);
/* Plays them for what they say of the cause alone: there is no turn to be shown. */
exit_status seen_case_evidence(seen_case *c);
void seen_case_end(seen_case *c);

/* Was it about the example? Those of version 1 that name no site were, and say nothing of practice.
 */
bool is_practice_case(const tt_case_places *places);

const char *seen_case_text(const tt_value *map, const char *key); /* "" if there is none */

#endif
