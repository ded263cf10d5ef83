/* Records of ours that wait to be kept, and what becomes of those that can't be. */
#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/value.h"
#include "cases/case_depot.h"
#include "cases/case_store_parts.h"
#include "host/memory.h"

size_t case_store_unkept(const case_store *s)
{
    return s->unkept_count;
}

static void wait_to_be_kept(case_store *s, const tt_record *record)
{
    arena *keep = s->waiting;
    GROW(keep, s->unkept, s->unkept_count, s->unkept_room);
    tt_record *copy = &s->unkept[s->unkept_count++];
    *copy = *record;
    copy->writer = s->writer;
    copy->time = arena_copy(keep, record->time);
    copy->kind = arena_copy(keep, record->kind);
    tt_value *trees = ARENA_ARRAY(keep, tt_value, 2);
    trees[0] = value_copy(keep, record->data);
    copy->data = &trees[0];
    if (record->seen == NULL) return;
    trees[1] = value_copy(keep, record->seen);
    copy->seen = &trees[1];
}

void case_drop_first(case_store *s, uint32_t count)
{
    memmove(s->unkept, s->unkept + count, (s->unkept_count - count) * sizeof *s->unkept);
    s->unkept_count -= count;
    if (s->unkept_count > 0) return;
    arena_free(s->waiting);
    s->waiting = host_arena();
    s->unkept = NULL;
    s->unkept_room = 0;
    s->why = NULL;
}

bool case_store_keep(case_store *s, const tt_record *records, size_t count, const char **why)
{
    assert(case_store_is_joined(s));
    for (size_t i = 0; i < count; i++) {
        assert(records[i].data != NULL && records[i].number > 0);
        wait_to_be_kept(s, &records[i]);
    }
    bool kept = s->unkept_count == 0 || s->depot->keep(s);
    *why = kept ? "" : s->why;
    return kept;
}
