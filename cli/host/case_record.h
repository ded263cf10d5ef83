/* One line of a case's file: how it is made and how it is read. */
#ifndef TT_CLI_CASE_RECORD_H
#define TT_CLI_CASE_RECORD_H

#include "host/case_file.h"

/* Counters beyond are refused: up to here JSON's numbers are exact everywhere. */
#define HIGHEST_COUNTER ((uint64_t)1 << 53)

enum { LINE_HASH_SIZE = 65, WRITER_SIZE = 13, RECORD_VERSION = 1, LONGEST_LINE = 4 << 20 };

void line_hash(const char *line, size_t length, char hash[LINE_HASH_SIZE]);
/* Twelve digits that stand for this user on this machine. */
void writer_of_this_machine(char writer[WRITER_SIZE]);

typedef struct line_head {
    const char *uuid, *writer, *before; /* hash of the line before, or "" */
    uint64_t number, lamport;
    json_t *seen; /* how far the other writers have been read */
} line_head;
/* The line with its newline, freed by the caller. Takes over `data` and head->seen. */
char *record_line(const line_head *head, const char *kind, json_t *data);

/* Why a line is no record that this program knows, or null and `out`. Takes over nothing;
 * out->whole is decref'd by the caller. `before` is the hash of the line before: one that differs
 * is no reason, but *follows is false. */
const char *record_read(const char *line, size_t length, const char *uuid, const char *before,
                        case_record *out, bool *follows);

#endif
