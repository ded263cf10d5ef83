/* What the files of a case store share: case_store.c opens, case_reading.c reads, case_keeping.c
 * keeps. */
#ifndef TT_CLI_CASE_STORE_PARTS_H
#define TT_CLI_CASE_STORE_PARTS_H

#include <sys/types.h>

#include "base/arena.h"
#include "cases/case_folder.h"
#include "cases/case_store.h"
#include "cases/record_line.h"

typedef struct case_tail {       /* where a file ends, as far as it was read or written */
    char before[LINE_HASH_SIZE]; /* hash of its last line, or "" */
    bool torn;                   /* which lacks its newline */
} case_tail;

typedef struct case_part { /* one writer's file */
    const char *name, *path;
    off_t read; /* so many bytes were taken; a line that is just being written is not among them */
    uint64_t lines;
    case_tail tail;
} case_part;

struct case_store {
    arena *keep;
    const char *root; /* of one that is not on the disk yet; else null */
    case_name name;
    char base[WRITER_SIZE];       /* what the writers of this machine and user begin with */
    char writer[WRITER_SIZE + 4]; /* our own, or "" */
    const char *path;             /* of our own file */
    int fd;                       /* of it, or -1 */
    case_tail own;

    case_part *parts;
    uint32_t part_count, part_room;
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

/* Reads what was not read yet of all files but our own (of that too if it `takes_own`), behind the
 * records that there are. `aloud`: lines that can't be used are reported. */
exit_status case_parts_read(case_store *s, bool takes_own, bool aloud);

/* Our own file in the case's folder, new or as it is, with the lock on it. 0, or errno; EBUSY: too
 * many windows have theirs. */
int case_open_own(case_store *s);

#endif
