/* A case of the store as the guided case, sheets and learning see it: its records in order, with data as jansson has it. */
#ifndef TT_CLI_CASE_FILE_H
#define TT_CLI_CASE_FILE_H

#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "host/case_store.h"
#include "host/exits.h"

typedef struct case_record {
    const char *kind, *writer, *time;
    json_t *data;
    uint64_t lamport, number; /* place among all records, and among this writer's */
    const json_t *seen;       /* how far its writer had read the others: {writer: number}; null: all that came before */
    json_t *whole;            /* holds data and seen, or the line that they are from */
} case_record;

typedef struct case_file case_file;

/* These say what went wrong. */
exit_status case_file_new(const char *root, case_file **out);
/* To look at only: makes no file and takes no lock; nothing can be added. Also reports, on standard
 * error, lines that can't be used: those stay where they are. */
exit_status case_file_read(const char *root, const char *named, case_file **out);
/* From now on it can be added to: as this machine's and user's writer, or, if that one is in use in
 * another window, as a further one. Reads again what there is. */
exit_status case_file_join(case_file *file);
/* The one after the other. */
exit_status case_file_open(const char *root, const char *named, case_file **out);
void case_file_close(case_file *file);
bool case_file_is_open(const case_file *file); /* it can be added to */

/* Takes over `data`. The record is the last one from then on. */
exit_status case_file_add(case_file *file, const char *kind, json_t *data);
/* How far the others have been read: {writer: number}. The caller's. */
json_t *case_file_seen(const case_file *file);
/* Whether others have added something since it was read. */
bool case_file_has_news(const case_file *file);
/* Reads what the others have: all records may have other places now. */
exit_status case_file_again(case_file *file);

const char *case_file_number(const case_file *file);
const char *case_file_folder(const case_file *file);
const char *case_file_writer(const case_file *file); /* as whom records are added */
size_t case_file_count(const case_file *file);       /* of records, in order */
const case_record *case_file_record(const case_file *file, size_t index);
/* Whether the writer of `later` knew of `earlier`. */
bool case_record_saw(const case_record *later, const case_record *earlier);

size_t case_file_writers(const case_file *file);
case_writer case_file_writer_at(const case_file *file, size_t index);

#endif
