/* One order for the records of all writers, each record once; who wrote what, and who knew of what.
 */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "journal/parts.h"

/* ---- order ---- */

static int by_place(const void *a, const void *b)
{
    const tt_record *x = &((const journal_entry *)a)->record,
                    *y = &((const journal_entry *)b)->record;
    int order = compare_numbers(x->lamport, y->lamport);
    if (order == 0) order = strcmp(x->writer, y->writer);
    return order != 0 ? order : compare_numbers(x->number, y->number);
}

/* What one place holds twice is a copy of a file, or a file that was written on from an older copy:
 * then both stay, in an order that depends on what they say alone. */
static int by_content(const void *a, const void *b)
{
    const journal_entry *x = a, *y = b;
    int order = strcmp(x->record.kind, y->record.kind);
    if (order == 0) order = strcmp(x->record.time, y->record.time);
    return order != 0 ? order : value_compare(x->record.data, y->record.data);
}

static uint32_t same_place(const journal *j, uint32_t from)
{
    uint32_t end = from + 1;
    while (end < j->count && by_place(&j->entries[from], &j->entries[end]) == 0) end++;
    return end;
}

/* What they say decides, so it is read now, but of no others. */
static void sort_by_content(journal *j, uint32_t from, uint32_t count)
{
    for (uint32_t i = from; i < from + count; i++) entry_data(j, i);
    qsort(&j->entries[from], count, sizeof *j->entries, by_content);
}

static void drop_copies(journal *j)
{
    uint32_t kept = 0;
    for (uint32_t from = 0, end; from < j->count; from = end) {
        end = same_place(j, from);
        if (end - from > 1) sort_by_content(j, from, end - from);
        uint32_t first = kept;
        for (uint32_t i = from; i < end; i++)
            if (kept == first || by_content(&j->entries[kept - 1], &j->entries[i]) != 0)
                j->entries[kept++] = j->entries[i];
    }
    assert(kept <= j->count);
    j->count = kept;
}

static void sort_entries(journal *j)
{
    bool sorted = true;
    for (uint32_t i = 1; i < j->count && sorted; i++)
        sorted = by_place(&j->entries[i - 1], &j->entries[i]) < 0;
    if (sorted) return;
    qsort(j->entries, j->count, sizeof *j->entries, by_place);
    drop_copies(j);
}

/* ---- writers ---- */

static int by_writer_number(const void *a, const void *b)
{
    const journal_entry *x = *(const journal_entry *const *)a,
                        *y = *(const journal_entry *const *)b;
    int order = strcmp(x->record.writer, y->record.writer);
    if (order == 0) order = compare_numbers(x->record.number, y->record.number);
    return order != 0 ? order : (x > y) - (x < y);
}

static uint32_t count_writers(const journal_entry *const *sorted, uint32_t count)
{
    uint32_t writers = 0;
    for (uint32_t i = 0; i < count; i++)
        writers += i == 0 || strcmp(sorted[i - 1]->record.writer, sorted[i]->record.writer) != 0;
    return writers;
}

static void find_writers(journal *j)
{
    const journal_entry **sorted = ARENA_ARRAY(j->keep, const journal_entry *, j->count);
    for (uint32_t i = 0; i < j->count; i++) sorted[i] = &j->entries[i];
    qsort(sorted, j->count, sizeof *sorted, by_writer_number);
    j->by_writer = ARENA_ARRAY(j->keep, uint32_t, j->count);
    j->writers = ARENA_ARRAY(j->keep, journal_writer, count_writers(sorted, j->count));
    for (uint32_t i = 0; i < j->count; i++) {
        const char *name = sorted[i]->record.writer;
        if (i == 0 || strcmp(j->writers[j->writer_count - 1].name, name) != 0)
            j->writers[j->writer_count++] = (journal_writer){name, i, 0, NO_ENTRY, NO_ENTRY};
        j->by_writer[i] = (uint32_t)(sorted[i] - j->entries);
        j->entries[j->by_writer[i]].writer = j->writer_count - 1;
        j->writers[j->writer_count - 1].count++;
    }
}

void journal_order(journal *j, const tt_record *records, uint32_t count)
{
    assert(records != NULL || count == 0);
    j->entries = ARENA_ARRAY(j->keep, journal_entry, count);
    j->count = count;
    for (uint32_t i = 0; i < count; i++) {
        assert(records[i].writer != NULL && records[i].kind != NULL && records[i].time != NULL);
        j->entries[i] = (journal_entry){.record = records[i],
                                        .source = i,
                                        .kind = record_kind_of(records[i].kind),
                                        .because = NO_ENTRY,
                                        .sitting = NO_ENTRY,
                                        .person = "",
                                        .place = ""};
    }
    sort_entries(j);
    find_writers(j);
}

/* ---- names ---- */

uint32_t writer_named(const journal *j, const char *name)
{
    uint32_t low = 0, high = j->writer_count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        int order = strcmp(j->writers[middle].name, name);
        if (order == 0) return middle;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NO_ENTRY;
}

/* The first entry of that number. */
static uint32_t entry_numbered(const journal *j, uint32_t writer, uint64_t number)
{
    assert(writer < j->writer_count);
    const journal_writer *w = &j->writers[writer];
    uint32_t low = w->first, high = w->first + w->count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (j->entries[j->by_writer[middle]].record.number < number)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < w->first + w->count && j->entries[j->by_writer[low]].record.number == number;
    return found ? j->by_writer[low] : NO_ENTRY;
}

uint32_t entry_named(const journal *j, const tt_value *name)
{
    const char *writer = value_text(name, "writer");
    uint64_t number;
    uint32_t w = writer != NULL ? writer_named(j, writer) : NO_ENTRY;
    return w != NO_ENTRY && value_counter(name, "seq", &number) ? entry_numbered(j, w, number)
                                                                : NO_ENTRY;
}

tt_value entry_name(arena *keep, const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    value_builder name = value_map(keep);
    value_put_text(&name, "writer", j->entries[entry].record.writer);
    value_put_number(&name, "seq", (double)j->entries[entry].record.number);
    return value_done(&name);
}

/* ---- who knew of what ---- */

static int by_mark(const void *a, const void *b)
{
    return compare_numbers(((const seen_mark *)a)->writer, ((const seen_mark *)b)->writer);
}

/* What a record says of how far its writer had read the others, so that it can be looked up. */
static void make_marks(const journal *j, journal_entry *e)
{
    const tt_value *seen = e->record.seen;
    e->seen_ready = true;
    if (!value_is(seen, TT_VALUE_MAP)) return;
    seen_mark *marks = ARENA_ARRAY(j->keep, seen_mark, seen->count);
    for (uint32_t i = 0; i < seen->count; i++) {
        uint32_t writer = writer_named(j, seen->keys[i]);
        uint64_t number;
        if (writer != NO_ENTRY && value_as_counter(&seen->items[i], &number))
            marks[e->seen_count++] = (seen_mark){writer, number};
    }
    qsort(marks, e->seen_count, sizeof *marks, by_mark);
    e->seen = marks;
}

static uint64_t mark_of(const journal_entry *e, uint32_t writer)
{
    uint32_t low = 0, high = e->seen_count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (e->seen[middle].writer == writer) return e->seen[middle].number;
        if (e->seen[middle].writer < writer)
            low = middle + 1;
        else
            high = middle;
    }
    return 0;
}

bool journal_saw(const journal *j, uint32_t later, uint32_t earlier)
{
    assert(later < j->count && earlier < j->count);
    journal_entry *e = &j->entries[later];
    const journal_entry *of = &j->entries[earlier];
    if (later <= earlier) return false; /* whoever knows of a record comes after it */
    if (e->writer == of->writer) return true;
    entry_data(j, later); /* what it had seen comes with its data */
    if (!e->seen_ready) make_marks(j, e);
    if (e->seen == NULL)
        return e->record.lamport > of->record.lamport; /* it doesn't say: all that came before */
    return mark_of(e, of->writer) >= of->record.number;
}
