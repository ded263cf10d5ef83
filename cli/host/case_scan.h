/* A line of a case's file, read for a list of many cases: what stands around its data is taken
 * apart where it lies, and its data only when somebody wants it. A line that is not written just as
 * this program writes them goes the slow way, through record_read. Hashes are not followed here;
 * opening the case does that. */
#ifndef TT_CLI_CASE_SCAN_H
#define TT_CLI_CASE_SCAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct text_span {
    const char *from;
    size_t length;
} text_span;

typedef struct scanned_line {
    text_span kind, writer, time;
    text_span data; /* JSON, an object; of a line that went the fast way it may yet turn out to be
                       damaged */
    text_span seen; /* JSON: how far its writer had read the others; empty if it does not say */
    uint64_t lamport, number;
    bool ends; /* it has its newline */
} scanned_line;

/* `length` without the newline. The spans point into the line. False: it is no record of this case,
 * or goes the slow way. */
bool line_scan(const char *line, size_t length, const char *uuid, scanned_line *out);
bool span_is(text_span span, const char *text);

/* Milliseconds since 1970 of an RFC 3339 time; false if it is none. */
bool moment_read(const char *text, size_t length, int64_t *out);

#endif
