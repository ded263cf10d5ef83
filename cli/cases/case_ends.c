#include "cases/case_ends.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/value.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

/* ---- written ---- */

const tt_value *case_ends_named(arena *keep, case_store *s)
{
    value_builder b = value_map(keep);
    uint32_t count = 0;
    for (uint32_t i = 0; i < s->part_count; i++) {
        case_part *part = &s->parts[i];
        if (case_is_own(s, part->name) || *part->tail.before == 0) continue;
        if (strcmp(part->named, part->tail.before) == 0) continue;
        memcpy(part->named, part->tail.before, LINE_HASH_SIZE);
        value_put(&b, part->name, value_of_str(keep, str_copy(keep, str_of(part->named))));
        count++;
    }
    if (count == 0) return NULL;
    tt_value *ends = ARENA_NEW(keep, tt_value);
    *ends = value_done(&b);
    return ends;
}

/* ---- read ---- */

static void take_claims(case_taking *t, const tt_value *ends, const tt_record *record)
{
    case_store *s = t->store;
    for (uint32_t i = 0; i < ends->count; i++) {
        uint64_t number;
        const bool said = record->seen != NULL && ends->items[i].kind == TT_VALUE_TEXT &&
                          value_counter(record->seen, ends->keys[i], &number);
        if (!said) continue;
        GROW(s->keep, s->claims, s->claim_count, s->claim_room);
        s->claims[s->claim_count++] = (case_claim){.writer = arena_copy(s->keep, ends->keys[i]),
                                                   .hash = arena_copy(s->keep, ends->items[i].text),
                                                   .number = number};
    }
}

void case_ends_take(case_taking *t, const case_line *line, const char *hash,
                    const tt_record *record)
{
    case_part *part = t->part;
    arena *keep = t->store->keep;
    GROW(keep, part->hashes, part->hash_count, part->hash_room);
    part->hashes[part->hash_count++] = arena_copy(keep, hash);
    if (record == NULL || record->seen == NULL || record->seen->count == 0) return;
    tt_document *d = NULL;
    if (tt_document_read(line->bytes, line->length, LONGEST_LINE, &d) == TT_NO_MEMORY)
        memory_ended();
    const tt_value *ends = value_get(tt_document_value(d), "ends");
    if (ends != NULL && ends->kind == TT_VALUE_MAP) take_claims(t, ends, record);
    tt_document_free(d);
}

/* ---- compared ---- */

static bool has_line(const case_part *part, const char *hash)
{
    for (uint32_t i = part->hash_count; i-- > 0;)
        if (strcmp(part->hashes[i], hash) == 0) return true;
    return false;
}

static bool has_arrived(const case_store *s, const case_claim *c)
{
    for (uint32_t i = 0; i < s->count; i++)
        if (s->records[i].number == c->number && strcmp(s->records[i].writer, c->writer) == 0)
            return true;
    return false;
}

void case_ends_check(const case_store *s)
{
    for (uint32_t i = 0; i < s->claim_count; i++) {
        const case_claim *c = &s->claims[i];
        const case_part *part = case_part_named(s, c->writer, strlen(c->writer));
        if (part == NULL || has_line(part, c->hash) || !has_arrived(s, c)) continue;
        complain("%s, record %llu is not as somebody else has read it: it was changed since",
                 part->path, (unsigned long long)c->number);
        return; /* what follows from it would be said again and again */
    }
}
