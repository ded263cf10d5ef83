/* What was learned, on its way to people, programs and files. */
#ifndef TT_CLI_LEARNED_H
#define TT_CLI_LEARNED_H

#include <stdint.h>
#include <stdio.h>

#include "books/read_book.h"
#include "host/exits.h"
#include "telltale.h"

/* What became of the cases in the folder. */
typedef struct cases_seen {
    uint32_t all, of_others; /* of other books */
    uint32_t open, not_gone, unconfirmed, not_listed, before, better, unknown, broken;
    uint32_t counted;
    char until[TT_MOMENT_SIZE]; /* RFC 3339, universal time: when the last one counted was
                                 * confirmed; "" if none
                                 */
} cases_seen;

/* Before and after: of the worked cases, and of a few made-up calls (always the same). */
typedef struct what_changes {
    uint32_t trials, passed[2];
    /* those that pass now and would not; broken_count of them, freed by the caller */
    const tt_trial *broken;
    uint32_t broken_count;
    uint64_t calls;
    tt_share leads[2];
    tt_mean minutes[2], questions[2];
} what_changes;

typedef struct learned {
    const char *title, *since; /* since: learned-until as it is, or "" */
    const cases_seen *seen;
    const tt_lesson *lesson;
    const what_changes *changes; /* null: nothing is proposed */
} learned;
void print_learned_words(FILE *out, const learned *all);
void print_learned_json(FILE *out, const learned *all);

#endif
