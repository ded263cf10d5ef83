/* A case on the disk: JSON Lines, one file for each writer, only ever added to. A record is written
 * in one piece and is on the disk before case_file_add returns. The state of a case is what all its
 * writers' records give, replayed in order. */
#ifndef TT_CLI_CASE_FILE_H
#define TT_CLI_CASE_FILE_H

#include <jansson.h>
#include <stddef.h>
#include <stdint.h>

#include "case_number.h"
#include "exits.h"

typedef struct case_record {
    const char *kind, *writer, *time;
    json_t *data;
    uint64_t lamport, number; /* place among all records, and among this writer's */
    json_t *whole;            /* holds the rest */
} case_record;

typedef struct case_file case_file;

/* These say what went wrong. */
exit_status case_file_new(const char *root, case_file **out);
/* Also reports, on standard error, lines that can't be used: those stay where they are. EXIT_BUSY
 * if somebody has the case open as this writer. */
exit_status case_file_open(const char *root, const char *named, case_file **out);
/* The same to look at only: makes no file, takes no lock, and nothing can be added. */
exit_status case_file_read(const char *root, const char *named, case_file **out);
void case_file_close(case_file *file);

/* Takes over `data`. */
exit_status case_file_add(case_file *file, const char *kind, json_t *data);

const char *case_file_number(const case_file *file);
const char *case_file_folder(const case_file *file);
size_t case_file_count(const case_file *file); /* of records read by case_file_open, in order */
const case_record *case_file_record(const case_file *file, size_t index);

#endif
