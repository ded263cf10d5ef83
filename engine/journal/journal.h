/* What the records of a case mean. The only place that knows: the conversation, `cases`, sheets and
 * learning all ask here, so that they can't disagree.
 *
 * Records come from several writers, who may not have known of each other, in any order and some of
 * them twice. They are put into one order, and from that follows everything: which count, which are
 * open to dispute, who has the case, whether it is closed, what its cause was. The same records
 * give the same meaning in whatever order they came.
 *
 * Data is looked at only where it matters, so a list of many cases may hand in records whose data
 * is read when asked for. Nothing here knows the book: names of questions and fixes are just texts.
 */
#ifndef TT_JOURNAL_JOURNAL_H
#define TT_JOURNAL_JOURNAL_H

#include "base/arena.h"
#include "base/moment.h"
#include "base/value.h"
#include "journal/record_kinds.h"
#include "telltale.h"

#define NO_ENTRY TT_NONE

/* A record in its place. Entries are numbered in the order in which they count. */
typedef struct journal_entry {
    tt_record record; /* data may be null until entry_data has read it */
    uint32_t source;  /* which of the records handed in */
    record_kind kind; /* RECORD_UNKNOWN: of a newer program; kept, and means nothing here */
    uint32_t writer;  /* index into journal.writers */
    tt_skip skipped;  /* TOLD_TWICE: somebody who was not known of told the same, with the entry
                         `because` */
    uint32_t because; /* the entry that skips it; or NO_ENTRY */
    uint32_t sitting; /* the entry with which the sitting began that it belongs to; NO_ENTRY: none
                         had begun */
    /* as its writer called himself then, and the machine; "" if he didn't */
    const char *person, *place;
    const struct seen_mark *seen; /* see parts.h */
    uint32_t seen_count;
    bool seen_ready;
} journal_entry;

typedef struct journal_writer {
    const char *name;
    uint32_t first, count; /* in journal.by_writer */
    uint32_t sitting;      /* entry with which the last one began; or NO_ENTRY */
    uint32_t came; /* entry with which the case was opened, if it was not left since nor taken over;
                      or NO_ENTRY */
} journal_writer;

/* A note that somebody left for whoever goes on. It stands until the case goes on, is closed, or
 * somebody leaves another; whoever only looks in and leaves again changes nothing. One that says
 * for whom (handed over, waiting) stands until somebody else goes on, or takes it. */
typedef struct journal_note {
    uint32_t entry; /* NO_ENTRY: none stands */
    record_kind kind;
    const char *note, *to, *until; /* "" if not said */
    const char *to_text;           /* what that role is called, in the language of the case */
} journal_note;

typedef enum case_end {
    END_NONE,
    END_GONE,
    END_CALLED,
    END_STOPPED,
    END_MADE_SAFE,
    END_DONE,
    END_ELSEWHERE
} case_end; /* DONE: a round or a record; ELSEWHERE: it goes on in another case */

typedef struct journal {
    arena *keep;
    journal_entry *entries;
    uint32_t count;
    uint32_t *by_writer; /* [count] entries by writer, then number */
    journal_writer *writers;
    uint32_t writer_count; /* by name */
    const tt_record_reader *reader;

    uint32_t beginning; /* its first record `begin`; or NO_ENTRY */
    uint32_t moved; /* the last entry by which the case went on or was opened again; or NO_ENTRY */
    case_end end;
    uint32_t ended; /* the entry that closed it; NO_ENTRY while it is open */
    uint32_t left;  /* the last by which somebody left it while it was open and since which it did
                       not go on; or NO_ENTRY */
    journal_note note;
    uint32_t last_holder; /* writer who opened it last, of those who have it; if nobody has it, of
                             all; or NO_ENTRY */
} journal;

/* Everything lives in `keep`; records and what they point to must live as long. `reader` null: all
 * data is there. */
journal *journal_read(arena *keep, const tt_record *records, uint32_t count,
                      const tt_record_reader *reader);

/* ---- entries ---- */
const tt_value *entry_data(const journal *j, uint32_t entry); /* a map; empty if it was damaged */
const char *entry_text(const journal *j, uint32_t entry, const char *key); /* "" if there is none */
bool entry_does(const journal *j, uint32_t entry, unsigned what);          /* all of these */
/* a step that is not skipped: play these in order */
bool entry_counts(const journal *j, uint32_t entry);
/* Whether the writer of `later` knew of `earlier` when it was written. */
bool journal_saw(const journal *j, uint32_t later, uint32_t earlier);
/* {"writer", "seq"}: how records name each other. NO_ENTRY: it names none. */
uint32_t entry_named(const journal *j, const tt_value *name);
tt_value entry_name(arena *keep, const journal *j, uint32_t entry);
uint32_t writer_named(const journal *j, const char *name); /* or NO_ENTRY */

typedef struct entries {
    const uint32_t *items;
    uint32_t count;
} entries;

/* What `back` takes when this writer says it: the last step that counts, and those that came of the
 * same reply, the last one first. It stops where the writer's sitting began. Count 0: nothing, or
 * the last step is somebody else's. */
entries journal_back_takes(arena *keep, const journal *j, const char *writer);

/* ---- the next record of a writer ---- */
/* Number, logical time and how far the others are read, as far as this journal knows. */
tt_record journal_next(arena *keep, const journal *j, const char *writer, const char *kind,
                       const char *time, const tt_value *data);

/* ---- which book and site ---- */
const char *journal_last_revision(const journal *j); /* of the book last worked with; "" */
/* {"path", "revision", "text"}; null: the book's own */
const tt_value *journal_last_site(const journal *j);

/* ---- danger ---- */
/* Somebody has told of danger, and nobody who knew of it has said since that it is over: as far as
 * that can be seen without the book. For lists; the conversation itself asks by the book. */
bool journal_in_danger(const journal *j);

/* ---- people ---- */
/* Writers who have it open, in the order in which they came. */
entries journal_holders(arena *keep, const journal *j);

/* The fix that was begun last, and neither told of nor put back since; its entry `fix-begun`, or
 * NO_ENTRY. */
uint32_t journal_fix_begun(const journal *j);

/* ---- several who did not know of each other ---- */
typedef struct dispute {
    /* entries about one subject that stand: nobody who knew of one has said anew */
    const uint32_t *items;
    const uint32_t *answer; /* [count] which of the different answers it gives, from 0 */
    uint32_t count, answers;
} dispute;
typedef struct disputes {
    const dispute *items;
    uint32_t count;
} disputes;
/* By the place of their first entry. */
disputes journal_disputes(arena *keep, const journal *j);

/* ---- the cause ---- */
/* Of a closed case; nobody has said anything while it is open. */
tt_confirmation journal_cause(const journal *j);
tt_helped journal_helped(const journal *j);

#endif
