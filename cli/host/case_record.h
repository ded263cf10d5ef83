/* One line of a case's file, as the list of cases and the guided case read it. */
#ifndef TT_CLI_CASE_RECORD_H
#define TT_CLI_CASE_RECORD_H

#include "host/case_file.h"
#include "host/record_line.h"

/* Counters beyond are refused: up to here JSON's numbers are exact everywhere. */
#define HIGHEST_COUNTER ((uint64_t)1 << 53)

/* Why a line is no record that this program knows, or null and `out`. Takes over nothing;
 * out->whole is decref'd by the caller. `before` is the hash of the line before: one that differs
 * is no reason, but *follows is false. */
const char *record_read(const char *line, size_t length, const char *uuid, const char *before,
                        case_record *out, bool *follows);

#endif
