/* From records to their meaning, and the entries looked at one by one. */
#include "journal/journal.h"

#include <assert.h>
#include <string.h>

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

/* ---- one entry ---- */

static const tt_value no_data = {.kind = TT_VALUE_MAP};

/* What was handed in whole needs nothing; what was not is read once. */
static void load(const journal *j, journal_entry *e)
{
    if (e->loaded) return;
    e->loaded = true;
    bool whole = e->record.data != NULL;
    if (!whole && j->reader != NULL)
        whole = j->reader->read(j->reader->context, e->source, &e->record);
    if (whole && value_is(e->record.data, TT_VALUE_MAP)) return;
    e->record.data = &no_data;
    if (!whole) e->skipped = TT_SKIP_DAMAGED;
}

const tt_value *entry_data(const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    load(j, &j->entries[entry]);
    return j->entries[entry].record.data;
}

const char *entry_text(const journal *j, uint32_t entry, const char *key)
{
    const char *text = value_text(entry_data(j, entry), key);
    return text != NULL ? text : "";
}

bool entry_says(const journal *j, uint32_t entry, const char *key, const char *text)
{
    return strcmp(entry_text(j, entry, key), text) == 0;
}

bool entry_does(const journal *j, uint32_t entry, unsigned what)
{
    assert(entry < j->count);
    return (record_does(j->entries[entry].kind) & what) == what;
}

bool entry_counts(const journal *j, uint32_t entry)
{
    return entry_does(j, entry, STEP) && j->entries[entry].skipped == TT_SKIP_NOT;
}

bool entry_comes(const journal *j, uint32_t entry)
{
    if (entry_does(j, entry, COMES)) return true;
    return j->entries[entry].kind == RECORD_SITTING && !entry_says(j, entry, "why", "pause");
}

bool entry_moves(const journal *j, uint32_t entry)
{
    if (j->entries[entry].skipped != TT_SKIP_NOT) return false;
    if ((record_does(j->entries[entry].kind) & (STEP | MOVES)) != 0) return true;
    return j->entries[entry].kind == RECORD_SITTING && entry_says(j, entry, "why", "reopened");
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
