/* What is to be changed in a book's files, by bytes: nothing but that changes, so comments and
 * layout stay as they are. */
#ifndef TT_REVISE_EDIT_LIST_H
#define TT_REVISE_EDIT_LIST_H

#include "base/arena.h"
#include "base/source.h"
#include "load/nodes.h"
#include "telltale.h"

typedef struct edit_list {
    arena *keep;
    const tt_source *sources; /* by name, as spans count them */
    uint32_t source_count;
    tt_edit *items;
    uint32_t count, room;
} edit_list;

/* What stands there is replaced; `text` is not copied. */
void edit_at(edit_list *e, span at, const char *text);
/* A key that was left out, on a line of its own below that of the entry `after` (which no comment
 * of its own can be parted from then), or before the first. */
void edit_add_key(edit_list *e, const node *body, const char *after, const char *key,
                  const char *text);
/* By file and place, which is the order that all else wants them in. */
void edit_sort(edit_list *e);

/* The sources with these edits, which come by file and place and don't overlap. */
const tt_source *edited_sources(arena *keep, const tt_source *sources, uint32_t count,
                                const tt_edit *edits, uint32_t edit_count);

#endif
