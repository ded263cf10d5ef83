/* The records of one case on their way to a summary: what case_summary.c and its neighbours share.
 */
#ifndef TT_CLI_CASE_TELLING_H
#define TT_CLI_CASE_TELLING_H

#include "host/case_scan.h"
#include "host/case_summary.h"

/* One record: of a line that went the slow way, `whole` holds what the spans point into. */
typedef struct seen_record {
    scanned_line line;
    json_t *whole;
} seen_record;

typedef struct telling {
    case_summary *out;
    seen_record *records;
    size_t count;
    size_t *steps; /* records of steps that were not taken back */
    size_t step_count;
    const seen_record *confirmed; /* with which somebody named a cause; null: nobody did since the
                                     trouble was gone */
    int64_t began;                /* milliseconds since 1970, or 0 */
} telling;

/* Adds the file's records; lines that are none are counted in out->left_out. */
void telling_take_lines(telling *t, const case_bytes *file);
/* As case_file.h orders them, each once. */
void telling_put_in_order(telling *t);
/* The data of a record, released by the caller; null if the line turns out to be damaged. */
json_t *telling_data(telling *t, const seen_record *record);
void telling_end(telling *t);
/* Whether the writer of `later` knew of `earlier`, as case_record_saw has it. */
bool record_saw(const seen_record *later, const seen_record *earlier);

/* Whether all words are in the texts of the records but the book's and the site's. The first
 * looks at bytes alone, and may say yes of words that are not. */
bool words_may_hold(const case_bytes *files, size_t file_count, char *const *words,
                    size_t word_count);
bool telling_holds(telling *t, char *const *words, size_t word_count);

#endif
