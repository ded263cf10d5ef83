/* The journal's public face: a journal that owns its memory. */
#include <assert.h>

#include "base/guard.h"
#include "journal/parts.h"
#include "journal/summary.h"

struct tt_journal {
    arena *keep;
    tt_record_reader reader;
    const journal *meaning;
};

tt_status tt_journal_new(const tt_record *records, size_t count, const tt_record_reader *reader,
                         tt_journal **out)
{
    guard way_out;
    *out = NULL;
    if (count >= NO_ENTRY) return TT_NO_MEMORY;
    arena *keep = arena_new(NULL, &way_out);
    if (keep == NULL) return TT_NO_MEMORY;
    if (setjmp(way_out.place)) {
        arena_free(keep);
        return TT_NO_MEMORY;
    }
    tt_journal *made = ARENA_NEW(keep, tt_journal);
    made->keep = keep;
    if (reader != NULL) made->reader = *reader;
    made->meaning =
        journal_read(keep, records, (uint32_t)count, reader != NULL ? &made->reader : NULL);
    arena_guard(keep, NULL);
    *out = made;
    return TT_OK;
}

void tt_journal_free(tt_journal *j)
{
    if (j != NULL) arena_free(j->keep);
}

uint32_t tt_journal_count(const tt_journal *j)
{
    return j->meaning->count;
}

/* Data is read when it is asked for, so memory may end in all of these. */
typedef struct asked {
    const journal *of;
    uint32_t entry;
    tt_case_summary summary;
    tt_confirmation cause;
    tt_helped helped;
    tt_case_places places;
    const tt_holder *holders;
    uint32_t holder_count;
} asked;

static tt_status guarded_look(tt_journal *j, void (*look)(asked *a), asked *a)
{
    guard way_out;
    arena_guard(j->keep, &way_out);
    tt_status status = TT_NO_MEMORY;
    if (setjmp(way_out.place) == 0) {
        look(a);
        arena_guard(j->keep, NULL);
        return TT_OK;
    }
    arena_guard(j->keep, NULL);
    return status;
}

static void summarize(asked *a)
{
    a->summary = journal_summary(a->of);
}

tt_status tt_journal_summary(tt_journal *j, tt_case_summary *out)
{
    asked a = {.of = j->meaning};
    tt_status status = guarded_look(j, summarize, &a);
    if (status == TT_OK) *out = a.summary;
    return status;
}

static void read_data(asked *a)
{
    entry_data(a->of, a->entry);
}

tt_status tt_journal_entry(tt_journal *j, uint32_t entry, tt_entry *out)
{
    asked a = {.of = j->meaning, .entry = entry};
    assert(entry < j->meaning->count);
    tt_status status = guarded_look(j, read_data, &a);
    const journal_entry *e = &j->meaning->entries[entry];
    if (status == TT_OK)
        *out = (tt_entry){&e->record, e->source,  entry_does(j->meaning, entry, STEP),
                          e->skipped, e->because, e->person,
                          e->place};
    return status;
}

static void ask_cause(asked *a)
{
    a->cause = journal_cause(a->of);
}

tt_status tt_journal_cause(tt_journal *j, tt_confirmation *out)
{
    asked a = {.of = j->meaning};
    tt_status status = guarded_look(j, ask_cause, &a);
    if (status == TT_OK) *out = a.cause;
    return status;
}

static void ask_what_helped(asked *a)
{
    a->helped = journal_helped(a->of);
}

tt_status tt_journal_helped(tt_journal *j, tt_helped *out)
{
    asked a = {.of = j->meaning};
    tt_status status = guarded_look(j, ask_what_helped, &a);
    if (status == TT_OK) *out = a.helped;
    return status;
}

static void ask_places(asked *a)
{
    const journal *j = a->of;
    const tt_value *begin = j->beginning != NO_ENTRY ? entry_data(j, j->beginning) : NULL;
    a->places = (tt_case_places){begin, journal_last_site(j), journal_last_revision(j)};
}

tt_status tt_journal_places(tt_journal *j, tt_case_places *out)
{
    asked a = {.of = j->meaning};
    tt_status status = guarded_look(j, ask_places, &a);
    if (status == TT_OK) *out = a.places;
    return status;
}

static void ask_holders(asked *a)
{
    const journal *j = a->of;
    const entries all = journal_holders(j->keep, j);
    tt_holder *out = ARENA_ARRAY(j->keep, tt_holder, all.count);
    for (uint32_t i = 0; i < all.count; i++) {
        const journal_writer *w = &j->writers[all.items[i]];
        const journal_entry *came = &j->entries[w->came];
        out[i] = (tt_holder){w->name, came->person, came->place, came->record.time};
    }
    a->holders = out;
    a->holder_count = all.count;
}

tt_status tt_journal_holders(tt_journal *j, const tt_holder **out, uint32_t *count)
{
    asked a = {.of = j->meaning};
    tt_status status = guarded_look(j, ask_holders, &a);
    *out = status == TT_OK ? a.holders : NULL;
    *count = status == TT_OK ? a.holder_count : 0;
    return status;
}
