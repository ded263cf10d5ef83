/* From records to their meaning, and to the record that comes next. */
#include "journal/journal.h"

#include <assert.h>

#include "journal/parts.h"

journal *journal_read(arena *keep, const tt_record *records, uint32_t count,
                      const tt_record_reader *reader)
{
    journal *j = ARENA_NEW(keep, journal);
    j->keep = keep;
    j->reader = reader;
    journal_order(j, records, count);
    journal_skip(j);
    journal_people(j);
    journal_stand(j);
    return j;
}

/* ---- the next record ---- */

static const tt_value *seen_now(arena *keep, const journal *j, uint32_t own)
{
    value_builder seen = value_map(keep);
    for (uint32_t w = 0; w < j->writer_count; w++) {
        const journal_writer *writer = &j->writers[w];
        assert(writer->count > 0);
        uint32_t last = j->by_writer[writer->first + writer->count - 1];
        if (w != own) value_put_number(&seen, writer->name, (double)j->entries[last].record.number);
    }
    return value_keep(&seen);
}

/* Hosts may say more of where and by whom a case is worked on than the table knows. */
static bool has_its_fields(record_kind kind, const tt_value *data)
{
    bool known = kind != RECORD_UNKNOWN && value_is(data, TT_VALUE_MAP),
         open = (record_does(kind) & PLACES) != 0;
    for (uint32_t i = 0; known && i < data->count && !open; i++)
        known = record_has_field(kind, data->keys[i]);
    return known;
}

tt_record journal_next(arena *keep, const journal *j, const char *writer, const char *kind,
                       const char *time, const tt_value *data)
{
    uint32_t own = writer_named(j, writer);
    tt_record next = {
        .writer = writer, .number = 1, .lamport = 1, .time = time, .kind = kind, .data = data};
    assert(has_its_fields(record_kind_of(kind), data));
    if (own != NO_ENTRY) {
        const journal_writer *w = &j->writers[own];
        next.number = j->entries[j->by_writer[w->first + w->count - 1]].record.number + 1;
    }
    if (j->count > 0) next.lamport = j->entries[j->count - 1].record.lamport + 1;
    next.seen = seen_now(keep, j, own);
    return next;
}

/* ---- which book and site ---- */

const char *journal_last_revision(const journal *j)
{
    for (uint32_t i = j->count; i-- > 0;)
        if (entry_does(j, i, PLACES) && value_text(entry_data(j, i), "revision") != NULL)
            return entry_text(j, i, "revision");
    return "";
}

const tt_value *journal_last_site(const journal *j)
{
    for (uint32_t i = j->count; i-- > 0;) {
        const tt_value *site =
            entry_does(j, i, PLACES) ? value_get(entry_data(j, i), "site") : NULL;
        if (site != NULL) return value_is(site, TT_VALUE_MAP) ? site : NULL;
    }
    return NULL;
}
