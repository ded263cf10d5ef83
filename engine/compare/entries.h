/* What two editions of a book's files differ in: entries, each with the bytes that it takes. */
#ifndef TT_COMPARE_ENTRIES_H
#define TT_COMPARE_ENTRIES_H

#include "load/nodes.h"
#include "telltale.h"

typedef struct entry {
    str section, name; /* name: empty where the section is one */
    str head;          /* the file's own for-each, or empty */
    uint32_t file;
    uint32_t start, end; /* whole lines; or from the key to the value's end */
    uint32_t indent;
    span key; /* where it stands between braces; else nowhere */
    const node *value;
} entry;

typedef struct entry_list {
    const sources *files;
    entry *items; /* by section and name */
    uint32_t count, room;
} entry_list;

entry_list entries_of(arena *keep, arena *scratch, const sources *files);
str entry_bytes(const entry_list *of, const entry *e);

/* One entry that is different: before or after is null if it isn't there. */
typedef struct edit {
    const entry *before, *after;
    const char *name; /* "symptoms foam-runny" */
    uint32_t group;   /* edits that can only be made together have the same */
} edit;

edit *entry_edits(arena *keep, const entry_list *before, const entry_list *after, uint32_t *count,
                  uint32_t *groups);

/* The files of `before` with the edits of the groups that are `made`. */
const tt_source *edited_files(arena *keep, const entry_list *before, const entry_list *after,
                              const edit *edits, uint32_t count, const bool *made,
                              uint32_t *file_count);

#endif
