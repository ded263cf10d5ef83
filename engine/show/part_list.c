/* Parts of what is told. */
#include "show/part_list.h"

#include "base/grow.h"

tt_turn_part *part_begin(part_list *parts, tt_part_kind kind, const char *title)
{
    assert(kind < TT_PART_KINDS && title != NULL);
    GROW(parts->keep, parts->items, parts->count, parts->room);
    parts->items[parts->count] = (tt_turn_part){.kind = kind, .title = title};
    return &parts->items[parts->count++];
}

/* Items are few: each one more makes the list anew. */
void part_add(arena *keep, tt_turn_part *part, const char *text)
{
    assert(text != NULL);
    const char **more = ARENA_ARRAY(keep, const char *, part->item_count + 1);
    for (uint32_t i = 0; i < part->item_count; i++) more[i] = part->items[i];
    more[part->item_count++] = text;
    part->items = more;
}

void part_line(part_list *parts, tt_part_kind kind, const char *text)
{
    part_add(parts->keep, part_begin(parts, kind, ""), text);
}
