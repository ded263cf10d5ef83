/* A case in a few words, made from its files alone: its book may be gone, or be on another machine.
 * What the records mean is the engine's business; here they are only read, and of their data no
 * more than it asks for. */
#ifndef TT_CLI_CASE_SUMMARY_H
#define TT_CLI_CASE_SUMMARY_H

#include <stdbool.h>

#include "telltale.h"

typedef struct case_summary {
    /* number: filled in by who knows the other cases */
    char uuid[TT_CASE_ID_SIZE], number[TT_CASE_NUMBER_SIZE];
    char *folder;
    tt_case_summary says;
    void *texts;       /* holds those of `says` */
    unsigned left_out; /* lines that are no records */
    bool has_text;     /* the words looked for are in it; if not, nothing else is known */
} case_summary;

/* A file of a case, all of it; a zero follows it. Reading writes into it. */
typedef struct case_bytes {
    char *bytes;
    size_t length;
} case_bytes;

/* `words`: folded words to look for in all texts of the records but the book's and the site's; may
 * be none. Zeroes *out first. */
void case_summarize(const char *uuid, const case_bytes *files, size_t file_count,
                    char *const *words, size_t word_count, case_summary *out);
/* By what a case is found again without being read; freed by the caller. */
typedef struct case_findable {
    char *words;     /* all texts of its records but the book's and the site's, folded */
    char *site_path; /* of the site's file; "": none */
} case_findable;
void case_summarize_whole(const char *uuid, const case_bytes *files, size_t file_count,
                          case_summary *out, case_findable *by);
/* From here on the texts of `says` are its own, whatever they pointed to. */
void case_summary_keep(case_summary *summary);
void case_summary_free(case_summary *summary);

bool case_is_open(const case_summary *s); /* not closed in any way, and there is something of it */

#endif
