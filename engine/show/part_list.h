/* Parts of what is told, gathered one by one: titles with their items. */
#ifndef TT_SHOW_PART_LIST_H
#define TT_SHOW_PART_LIST_H

#include "base/arena.h"
#include "say/catalogue.h"
#include "telltale.h"

typedef struct part_list {
    arena *keep;
    tongue in; /* our words in it */
    tt_turn_part *items;
    uint32_t count, room;
} part_list;

/* A part without items yet: the place is good until the next part. */
tt_turn_part *part_begin(part_list *parts, tt_part_kind kind, const char *title);
void part_add(arena *keep, tt_turn_part *part, const char *text);
void part_line(part_list *parts, tt_part_kind kind, const char *text); /* one item, without title */

#endif
