/* Records written by several. */
#include "journal_kit.h"

#include "testing.h"

#include "show/json.h"

journal_kit journal_kit_new(arena *keep)
{
    return (journal_kit){.keep = keep, .clock = INT64_C(1795939200000)}; /* 2026-11-29T08:00:00Z */
}

static uint32_t writer_of(journal_kit *k, const char *name)
{
    uint32_t i = 0;
    while (i < k->writer_count && strcmp(k->writers[i].name, name) != 0) i++;
    if (i < k->writer_count) return i;
    assert_true(i < KIT_WRITERS);
    k->writers[k->writer_count++] = (kit_writer){.name = name};
    return i;
}

static const tt_value *data_of(journal_kit *k, const char *json)
{
    tt_value *data = ARENA_NEW(k->keep, tt_value);
    json_fault fault;
    assert_true(json_read(k->keep, str_of(json), 1 << 20, data, &fault));
    assert_int_equal(data->kind, TT_VALUE_MAP);
    return data;
}

static const tt_value *seen_by(journal_kit *k, uint32_t writer)
{
    value_builder seen = value_map(k->keep);
    for (uint32_t i = 0; i < k->writer_count; i++)
        if (i != writer && k->writers[writer].read[i] > 0)
            value_put_number(&seen, k->writers[i].name, (double)k->writers[writer].read[i]);
    return value_keep(&seen);
}

static void make_room(journal_kit *k)
{
    if (k->count < k->room) return;
    uint32_t room = k->room == 0 ? 64 : k->room * 2;
    tt_record *records = ARENA_ARRAY(k->keep, tt_record, room);
    if (k->count > 0) memcpy(records, k->records, k->count * sizeof *records);
    k->records = records;
    k->room = room;
}

uint32_t kit_add(journal_kit *k, const char *writer, const char *kind, const char *data)
{
    uint32_t w = writer_of(k, writer);
    kit_writer *of = &k->writers[w];
    make_room(k);
    k->records[k->count] = (tt_record){.writer = of->name,
                                       .number = ++of->read[w],
                                       .lamport = ++of->lamport,
                                       .time = moment_text(k->keep, (tt_moment){k->clock, 60}).p,
                                       .seen = seen_by(k, w),
                                       .kind = kind,
                                       .data = data_of(k, data)};
    k->clock += 60000;
    return k->count++;
}

void kit_read_from(journal_kit *k, const char *writer, const char *other)
{
    kit_writer *of = &k->writers[writer_of(k, writer)];
    uint32_t from = writer_of(k, other);
    for (uint32_t i = 0; i < k->count; i++) {
        const tt_record *r = &k->records[i];
        if (strcmp(r->writer, other) != 0) continue;
        if (r->number > of->read[from]) of->read[from] = r->number;
        if (r->lamport > of->lamport) of->lamport = r->lamport;
    }
}

void kit_read(journal_kit *k, const char *writer)
{
    uint32_t of = writer_of(k, writer);
    for (uint32_t i = 0; i < k->writer_count; i++)
        if (i != of) kit_read_from(k, writer, k->writers[i].name);
}

uint32_t kit_aware(journal_kit *k, const char *writer, const char *kind, const char *data)
{
    kit_read(k, writer);
    return kit_add(k, writer, kind, data);
}

journal *kit_journal(const journal_kit *k)
{
    return journal_read(k->keep, k->records, k->count, NULL);
}

uint32_t kit_entry(const journal *j, uint32_t source)
{
    for (uint32_t i = 0; i < j->count; i++)
        if (j->entries[i].source == source) return i;
    return NO_ENTRY;
}
