/* How sections call their things, and names where they stand. */
#include "model/mentions.h"

#include <assert.h>

#include "base/grow.h"

static const struct {
    const char *key, *entry;
} sections[SECTION_COUNT] = {
    [SECTION_QUESTIONS] = {"questions", "question"},
    [SECTION_SYMPTOMS] = {"symptoms", "symptom"},
    [SECTION_CONCLUSIONS] = {"conclusions", "conclusion"},
    [SECTION_CAUSES] = {"causes", "cause"},
    [SECTION_FIXES] = {"fixes", "fix"},
    [SECTION_RULES] = {"rules", "rule"},
    [SECTION_CASES] = {"cases", "case"},
    [SECTION_EMERGENCIES] = {"emergencies", "emergency"},
    [SECTION_CONCEPTS] = {"words-for", "concept"},
    [SECTION_PLACES] = {"places", "place"},
    [SECTION_PROCEDURES] = {"procedures", "procedure"},
    [SECTION_PROTECTION] = {"protection", "protection"},
    [SECTION_HARMS] = {"harms", "harm"},
    [SECTION_INSTRUMENTS] = {"instruments", "instrument"},
};

static const char *const words[NAMED_COUNT - SECTION_COUNT] = {
    [NAMED_ROLE - SECTION_COUNT] = "role",
    [NAMED_KIND - SECTION_COUNT] = "kind of equipment",
    [NAMED_PIECE - SECTION_COUNT] = "piece of equipment",
    [NAMED_ANSWER - SECTION_COUNT] = "answer",
    [NAMED_MADE - SECTION_COUNT] = "symptom",
};

const char *section_entry(section s)
{
    assert(s < SECTION_COUNT);
    return sections[s].entry;
}

const char *section_key(section s)
{
    assert(s < SECTION_COUNT);
    return sections[s].key;
}

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
