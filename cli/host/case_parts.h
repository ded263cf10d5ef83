/* The writers' files of one case, read together: what case_file.c and case_parts.c share. */
#ifndef TT_CLI_CASE_PARTS_H
#define TT_CLI_CASE_PARTS_H

#include <sys/types.h>

#include "host/case_file.h"
#include "host/case_record.h"

typedef struct case_part { /* one writer's file */
    char *name, *path;
    bool alive;
    off_t read; /* so many bytes were taken; a line that is just being written is not among them */
} case_part;

typedef struct case_tail { /* where our own file ends */
    char before[LINE_HASH_SIZE]; /* hash of its last line, or "" */
    bool torn;                   /* which lacks its newline */
    uint64_t lines;
} case_tail;

struct case_file {
    char *folder, *path; /* path: of our own file; null: only looked at */
    char uuid[CASE_UUID_SIZE], number[CASE_NUMBER_SIZE];
    char base[WRITER_SIZE];       /* what the writers of this machine and user begin with */
    char writer[WRITER_SIZE + 4]; /* our own, or "" */
    int fd;                       /* of our own file, or -1 */
    case_tail own;
    uint64_t lamport; /* the highest there is */
    case_record *records;
    size_t count;
    size_t bytes; /* of records that were read */
    case_part *parts;
    size_t part_count;
};

/* Reads all files afresh and puts their records in order; each record counts once, also if a copy of
 * a file lies there. `aloud`: lines that can't be used are reported. */
exit_status case_parts_read(case_file *file, bool aloud);
void case_parts_forget(case_file *file);

#endif
