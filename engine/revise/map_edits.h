/* Entries of a map that are taken out or put in, whatever way it is written. */
#ifndef TT_REVISE_MAP_EDITS_H
#define TT_REVISE_MAP_EDITS_H

#include "revise/edit_list.h"

typedef struct added_entry {
    const char *key, *value;
} added_entry;

/* taken[i]: that entry, whose value is one word, goes; what stands behind it on its line, a
 * comment, stays. One entry at least must be left or come. */
void edit_map(edit_list *e, const node *map, const bool *taken, const added_entry *added,
              uint32_t added_count);

#endif
