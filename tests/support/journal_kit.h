/* Cases made of records, as several writers would write them who now and then read what the others
 * wrote. */
#ifndef TT_SUPPORT_JOURNAL_KIT_H
#define TT_SUPPORT_JOURNAL_KIT_H

#include "journal/journal.h"

enum { KIT_WRITERS = 8 };

typedef struct kit_writer {
    const char *name;
    uint64_t lamport;
    /* number of the last record of each writer that this one has read */
    uint64_t read[KIT_WRITERS];
} kit_writer;

typedef struct journal_kit {
    arena *keep;
    tt_record *records;
    uint32_t count, room;
    kit_writer writers[KIT_WRITERS];
    uint32_t writer_count;
    int64_t clock; /* of the next record, in milliseconds since 1970; a minute passes with each */
} journal_kit;

journal_kit journal_kit_new(arena *keep);
/* The writer adds a record: `data` is JSON. Its place among those handed in. */
uint32_t kit_add(journal_kit *k, const char *writer, const char *kind, const char *data);
/* The writer reads all that there is; or what one other has written. */
void kit_read(journal_kit *k, const char *writer);
void kit_read_from(journal_kit *k, const char *writer, const char *other);
/* The same after reading all. */
uint32_t kit_aware(journal_kit *k, const char *writer, const char *kind, const char *data);
journal *kit_journal(const journal_kit *k);
/* The entry that a record has become; NO_ENTRY: it is a copy that was dropped. */
uint32_t kit_entry(const journal *j, uint32_t source);

#endif
