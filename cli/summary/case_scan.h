/* A line of a case's file, read for a list of many cases: what stands around its data is taken
 * apart where it lies, and its data only when somebody wants it. A line that is not written just as
 * this program writes them goes the slow way, through record_of_line. Hashes are not followed here;
 * opening the case does that. */
#ifndef TT_CLI_CASE_SCAN_H
#define TT_CLI_CASE_SCAN_H

#include <stdbool.h>
#include <stddef.h>

#include "telltale.h"

typedef struct text_span {
    const char *from;
    size_t length;
} text_span;

typedef struct scanned_line {
    tt_record record; /* without its data */
    text_span data;   /* JSON, an object; it may yet turn out to be damaged */
    text_span seen;   /* JSON: how far its writer had read the others; length 0: it does not say */
} scanned_line;

/* `length` without the newline. False: it is no record of this case, or goes the slow way; the line
 * is as it was. True: it is taken apart, its texts ended by zeros in their places. */
bool line_scan(char *line, size_t length, const char *id, scanned_line *out);

#endif
