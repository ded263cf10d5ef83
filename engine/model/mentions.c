/* Names where they stand. */
#include "model/mentions.h"

#include <assert.h>

#include "base/grow.h"

static const char *const words[NAMED_COUNT - SECTION_COUNT] = {
    [NAMED_ROLE - SECTION_COUNT] = "role",
    [NAMED_KIND - SECTION_COUNT] = "kind of equipment",
    [NAMED_PIECE - SECTION_COUNT] = "piece of equipment",
    [NAMED_ANSWER - SECTION_COUNT] = "answer",
    [NAMED_MADE - SECTION_COUNT] = "symptom",
};

const char *named_words(uint32_t named)
{
    assert(named < NAMED_COUNT);
    return named < SECTION_COUNT ? section_entry((section)named) : words[named - SECTION_COUNT];
}

void mention_add(mention_list *list, mention m)
{
    if (list == NULL || m.at.file == NO_FILE) return;
    assert(m.named < NAMED_COUNT && m.name.n > 0);
    GROW(list->keep, list->items, list->count, list->room);
    list->items[list->count++] = m;
}
