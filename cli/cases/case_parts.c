/* Of a case that is open: what it is called, where it is, and its writers. */
#include <string.h>

#include "base/grow.h"
#include "cases/case_store_parts.h"
#include "host/memory.h"

const char *case_store_id(const case_store *s)
{
    return s->name.id;
}

const char *case_store_number(const case_store *s)
{
    return s->name.number;
}

const char *case_store_folder(const case_store *s)
{
    return s->name.folder;
}

const char *case_store_writer(const case_store *s)
{
    return s->writer;
}

bool case_store_is_on_disk(const case_store *s)
{
    return s->root == NULL;
}

bool case_store_is_a_file(const case_store *s)
{
    return s->depot == NULL;
}

/* One that is not on the disk yet has a writer all the same: nobody else can know of it. */
bool case_store_is_joined(const case_store *s)
{
    return *s->writer != 0;
}

bool case_is_own(const case_store *s, const char *name)
{
    return s->joined && strcmp(name, s->writer) == 0;
}

case_part *case_part_named(const case_store *s, const char *name, size_t length)
{
    for (uint32_t i = 0; i < s->part_count; i++)
        if (strlen(s->parts[i].name) == length && strncmp(s->parts[i].name, name, length) == 0)
            return &s->parts[i];
    return NULL;
}

case_part *case_part_add(case_store *s, const char *name, size_t length)
{
    GROW(s->keep, s->parts, s->part_count, s->part_room);
    case_part *part = &s->parts[s->part_count++];
    *part = (case_part){
        .name = arena_text(s->keep, "%.*s", (int)length, name),
        .path = arena_text(s->keep, "%s/%.*s.jsonl", s->name.folder, (int)length, name)};
    return part;
}
