/* The records of one case while it is looked over: what case_summary.c and case_words.c share. */
#ifndef TT_CLI_CASE_SIGHT_H
#define TT_CLI_CASE_SIGHT_H

#include "base/arena.h"
#include "summary/case_scan.h"
#include "summary/case_summary.h"

typedef struct sighted {
    text_span data, seen; /* of a line that went the quick way; else empty */
} sighted;

typedef struct case_sight {
    arena *keep;
    const char *uuid;
    tt_record *records;
    sighted *lines; /* [count] */
    uint32_t count, room, line_room;
    unsigned left_out;
} case_sight;

/* Whether all words are in the texts of the records but the book's and the site's. The first looks
 * at bytes alone, and may say yes of words that are not. */
bool words_may_hold(const case_bytes *files, size_t file_count, char *const *words,
                    size_t word_count);
bool sight_holds(case_sight *s, char *const *words, size_t word_count);
/* All of these texts, folded, one a line; freed by the caller. */
char *sight_words(case_sight *s);

/* Reads the data of a record that went the quick way, once. False: it is damaged. */
bool sight_read(void *sight, uint32_t source, tt_record *record);

#endif
