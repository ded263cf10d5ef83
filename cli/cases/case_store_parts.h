/* What the files of a case store share: case_store.c opens, case_parts.c tells, case_reading.c
 * reads, case_keeping.c keeps; and what a depot that keeps its lines fills. */
#ifndef TT_CLI_CASE_STORE_PARTS_H
#define TT_CLI_CASE_STORE_PARTS_H

#include <sys/types.h>

#include "base/arena.h"
#include "cases/case_depot.h"
#include "cases/case_store.h"
#include "summary/case_lines.h"
#include "summary/record_line.h"

typedef struct case_tail {       /* where a file ends, as far as it was read or written */
    char before[LINE_HASH_SIZE]; /* hash of its last line, or "" */
    bool torn;                   /* which lacks its newline */
} case_tail;

typedef struct case_part { /* one writer's file */
    const char *name, *path;
    off_t read; /* so many bytes were taken; a line that is just being written is not among them */
    uint64_t lines;
    case_tail tail;
    char named[LINE_HASH_SIZE]; /* its end, as our records have named it last; or "" */
    const char **hashes;        /* of all its lines */
    uint32_t hash_count, hash_room;
} case_part;

typedef struct case_claim { /* a record was so when somebody else had read it: see case_ends.h */
    const char *writer, *hash;
    uint64_t number;
} case_claim;

struct case_store {
    arena *keep;
    const case_depot *depot;
    const char *root; /* of one that is not on the disk yet; else null */
    case_name name;
    char base[WRITER_SIZE];       /* what the writers of this machine and user begin with */
    char writer[WRITER_SIZE + 4]; /* our own, or "" */
    bool joined;                  /* what is kept goes behind what `own` says */
    case_tail own;
    const char *path;           /* a folder: of our own file */
    int fd;                     /* of it, or -1 */
    struct database_case *held; /* a database: see database_parts.h */

    case_part *parts;
    uint32_t part_count, part_room;
    case_claim *claims;
    uint32_t claim_count, claim_room;
    tt_record *records;
    uint32_t count, room;
    size_t bytes; /* of records that were read */

    arena *waiting; /* holds what is not kept yet */
    tt_record *unkept;
    uint32_t unkept_count, unkept_room;
    bool sync_failed; /* what the disk holds of our file can't be known any more: nothing is added
                         to it */
    const char *why;  /* in `waiting` */
};

/* Lines of one writer while they are taken. */
typedef struct case_taking {
    case_store *store;
    case_part *part;
    bool alive, aloud; /* alive: a last line without its end is just being written; aloud: lines
                          that can't be used are reported */
    unsigned long long left_out, loose; /* loose: they do not follow from the line before */
} case_taking;
/* A take_case_line, with a case_taking as context: behind the records that there are. */
bool case_take_line(void *context, const case_line *line);
void case_taking_done(const case_taking *t);

/* case_parts.c */
bool case_is_own(const case_store *s, const char *writer);
/* null: there is none */
case_part *case_part_named(const case_store *s, const char *name, size_t length);
case_part *case_part_add(case_store *s, const char *name, size_t length);

void case_drop_first(case_store *s, uint32_t count); /* of what waits: it is kept */

enum { MOST_WINDOWS = 99 };

#endif
