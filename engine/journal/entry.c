/* The entries of a journal looked at one by one. */
#include <assert.h>
#include <string.h>

#include "journal/parts.h"

static const tt_value no_data = {.kind = TT_VALUE_MAP};

/* What was handed in whole needs nothing; what was not is read once, for then it has some data. */
static void load(const journal *j, journal_entry *e)
{
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
