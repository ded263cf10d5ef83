/* What a case's records mean, as the columns of its row, and back. */
#ifndef TT_CLI_SUMMARY_ROW_H
#define TT_CLI_SUMMARY_ROW_H

#include "base/arena.h"
#include "summary/case_summary.h"

/* Which way of working it out: to be raised when engine/journal says otherwise of the same records.
 */
enum { SUMMARY_MEANING = 2 };

#define SUMMARY_TEXT_COLUMN(name) "\"" #name "\", "
#define SUMMARY_COLUMNS \
    TT_SUMMARY_TEXTS(SUMMARY_TEXT_COLUMN) \
    "records, meaning, state, kind, every, last_moment, ended_at, until_at, minutes, confirmed, " \
    "disputed, danger, held, stands_is, answers, tried, " \
    "left_out, site_words, to_words, cause_words, words, site_path"

/* A JSON object with these names. */
const char *summary_row_text(arena *keep, const case_summary *s, const case_findable *by,
                             size_t records);
/* From such an object, with "id" and "number" too. False: it is none. Its texts are the summary's
 * own. */
bool summary_row_read(const char *json, size_t length, case_summary *out);

#endif
