/* Part of telltale.h: what a call comes to, values, moments, and what the records of a case mean.
 */
#ifndef TELLTALE_RECORDS_H
#define TELLTALE_RECORDS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define TT_PUBLIC __attribute__((visibility("default")))
#else
#define TT_PUBLIC
#endif

#define TT_NONE UINT32_MAX

typedef enum tt_status {
    TT_OK,
    TT_FAULTY, /* the input is wrong: see the report */
    TT_NO_MEMORY,
    TT_NOT_NOW, /* the call makes no sense at this point of the case */
} tt_status;

/* ---- values: what records hold, and what is shown to programs ---- */
typedef enum tt_value_kind {
    TT_VALUE_NULL,
    TT_VALUE_BOOL,
    TT_VALUE_NUMBER,
    TT_VALUE_TEXT,
    TT_VALUE_LIST,
    TT_VALUE_MAP
} tt_value_kind;
/* An immutable tree. What a kind doesn't use is 0. */
typedef struct tt_value tt_value;
struct tt_value {
    tt_value_kind kind;
    /* of a number: it is measured, so JSON has it with a point even where it is whole */
    bool truth;
    double number; /* finite; whole numbers are exact up to 2^53 */
    const char *text;
    uint32_t count;          /* of a list or a map */
    const tt_value *items;   /* [count] */
    const char *const *keys; /* [count] of a map; none stands twice */
};

/* A tree read from JSON text; it owns all that its value leads to. */
typedef struct tt_document tt_document;
/* TT_FAULTY: `*out` has no value, and tt_document_wrong says why. Keys that stand twice, the
 * character U+0000, whole numbers beyond 2^53, nesting beyond 64 and more than `most` bytes are
 * refused. */
TT_PUBLIC tt_status tt_document_read(const char *bytes, size_t length, size_t most,
                                     tt_document **out);
TT_PUBLIC void tt_document_free(tt_document *d);
/* null if the text was refused */
TT_PUBLIC const tt_value *tt_document_value(const tt_document *d);
/* "line 1, column 7: …"; "" if nothing was */
TT_PUBLIC const char *tt_document_wrong(const tt_document *d);
/* One line of JSON without its end, freed by the caller with free(). Numbers that are not whole
 * have so many significant digits: 17 gives every number back as it was (records), 10 is for what
 * people and programs look at. */
TT_PUBLIC tt_status tt_value_json(const tt_value *value, int digits, char **out);

/* A moment, and how far east of universal time the clock on the wall was there. */
typedef struct tt_moment {
    int64_t milliseconds; /* since 1970-01-01T00:00:00Z, without leap seconds */
    int16_t offset;       /* minutes */
} tt_moment;
/* RFC 3339, with an offset or 'Z'. False: it is none. */
TT_PUBLIC bool tt_moment_read(const char *text, tt_moment *out);
enum { TT_MOMENT_SIZE = 32 };
/* "2026-11-29T09:12:00.250+01:00" */
TT_PUBLIC void tt_moment_text(tt_moment moment, char out[TT_MOMENT_SIZE]);

/* A record of a case, as the host keeps it. Numbers are below 2^53. */
typedef struct tt_record {
    const char *writer;
    uint64_t number, lamport; /* from 1 in the writer's file; logical time */
    const char *time;         /* RFC 3339 */
    const tt_value *seen; /* map: other writer → number of its last record that this one's writer
                             had read; or null */
    const char *kind;     /* "answer" */
    const tt_value *data; /* map */
} tt_record;

/* ---- what a case's records mean ---- */
typedef enum tt_case_state {
    TT_CASE_OPEN,
    TT_CASE_ON_HOLD,    /* nobody has it, and a note says so */
    TT_CASE_WAITING,    /* for somebody who was called */
    TT_CASE_CLOSED,     /* the trouble is gone; the round was gone, what is good was recorded */
    TT_CASE_CALLED,     /* closed: somebody was called */
    TT_CASE_STOPPED,    /* closed: stopped for safety */
    TT_CASE_MADE_SAFE,  /* closed: somebody who was called has made it safe */
    TT_CASE_ELSEWHERE,  /* closed: it is the trouble of another case, and goes on there */
    TT_CASE_UNREADABLE, /* no record of it can be used */
    TT_CASE_STATES
} tt_case_state;
TT_PUBLIC const char *tt_case_state_name(tt_case_state state); /* "on-hold" */
/* What `stands` tells of an open case: what comes next, as whoever left it said; else the last
 * step. */
typedef enum tt_stands {
    TT_STANDS_NOTHING,
    TT_STANDS_NEXT,
    TT_STANDS_STEP,
    TT_STANDS_FILE,
    TT_STANDS_SETTLED,
    TT_STANDS_NO_COMPLAINT
} tt_stands;
/* What a case was begun for. X(id, its name in records and for programs) */
#define TT_CASE_KIND_TABLE(X) \
    X(TT_KIND_FAULT, "fault")   /* something is wrong */ \
    X(TT_KIND_ROUND, "round")   /* what is looked at regularly */ \
    X(TT_KIND_RECORD, "record") /* what good looks like */ \
    X(TT_KIND_DRILL, "drill")   /* a made-up call, to learn on */
#define TT_CASE_KIND_ENUM(id, name) id,
typedef enum tt_case_kind { TT_CASE_KIND_TABLE(TT_CASE_KIND_ENUM) TT_CASE_KINDS } tt_case_kind;
#undef TT_CASE_KIND_ENUM
TT_PUBLIC const char *tt_case_kind_name(tt_case_kind kind);
TT_PUBLIC bool tt_case_kind_find(const char *name, tt_case_kind *out); /* false: no such kind */
/* How often a round is gone; each asks what a more frequent one asks, too. */
typedef enum tt_every { TT_DAILY, TT_WEEKLY, TT_MONTHLY, TT_EVERIES } tt_every;
TT_PUBLIC const char *tt_every_name(tt_every every); /* "weekly" */
TT_PUBLIC bool tt_every_find(const char *name, tt_every *out);
/* A case in a few words. Texts are "" where the records say nothing; times are RFC 3339, as
 * written. */
typedef struct tt_case_summary {
    tt_case_state state;
    tt_case_kind kind;
    tt_every every; /* of a round */
    const char *began, *last, *ended;
    int64_t last_moment; /* milliseconds since 1970; 0: can't be read */
    /* from its beginning to its end; NAN while it is open, and if clocks disagree */
    double minutes;
    const char *title, *edition, *book, *revision, *site; /* book: its folder */
    const char *complaint_name, *complaint,
        *said;                      /* the symptom, its words, and the person's own */
    const char *cause_name, *cause; /* of a closed case: what it was */
    bool confirmed;                 /* somebody said so */
    /* several named different causes, not knowing of each other: then none is told */
    bool disputed;
    bool danger; /* open, and nobody has said since that the danger is over */
    tt_stands stands_is;
    const char *stands;            /* of TT_STANDS_NEXT and TT_STANDS_STEP */
    const char *note, *to, *until; /* left for whoever goes on, since which nobody did */
    const char *to_text; /* `to`, or what that role is called in the language of the case */
    const char *writer, *person, *place; /* who has it, or had it last */
    const char *since;       /* when they opened it; or, if they left it since, when that was */
    bool held;               /* they did not leave it */
    uint32_t answers, tried; /* that count */
    uint32_t damaged;        /* records that a reader had promised and could not read */
} tt_case_summary;
/* Its texts, for whoever does something with each: X(name). */
/* clang-format off */
#define TT_SUMMARY_TEXTS(X) \
    X(began) X(last) X(ended) X(title) X(edition) X(book) X(revision) X(site) X(complaint_name) X(complaint) X(said) X(cause_name) X(cause) \
    X(stands) X(note) X(to) X(to_text) X(until) X(writer) X(person) X(place) X(since)
/* clang-format on */

typedef enum tt_skip {
    TT_SKIP_NOT,
    TT_SKIP_TAKEN_BACK,
    TT_SKIP_SETTLED_WRONG,
    TT_SKIP_TOLD_TWICE,
    TT_SKIP_DAMAGED
} tt_skip;
typedef struct tt_entry {
    const tt_record *record;
    uint32_t source; /* which of the records handed in */
    bool is_step;    /* the case goes on by it, unless it is skipped */
    tt_skip skipped;
    uint32_t because;           /* the entry that skips it; or TT_NONE */
    const char *person, *place; /* who wrote it, as they called themselves then; or "" */
} tt_entry;

/* Reads the data, and `seen`, of a record that was handed in without data: a list of many cases
 * needs little of it. False: it is damaged. */
typedef struct tt_record_reader {
    bool (*read)(void *context, uint32_t source, tt_record *record);
    void *context;
} tt_record_reader;

typedef struct tt_journal tt_journal;
/* Records of one case in any order, some may be there twice. They, and what they point to, must
 * live as long as the journal. `reader` may be null. */
TT_PUBLIC tt_status tt_journal_new(const tt_record *records, size_t count,
                                   const tt_record_reader *reader, tt_journal **out);
TT_PUBLIC void tt_journal_free(tt_journal *j);
TT_PUBLIC tt_status tt_journal_summary(tt_journal *j, tt_case_summary *out);
TT_PUBLIC uint32_t tt_journal_count(const tt_journal *j);
/* in the order in which they count */
TT_PUBLIC tt_status tt_journal_entry(tt_journal *j, uint32_t entry, tt_entry *out);
/* What was said of the cause since the case last went on, while it is closed. */
typedef enum tt_cause_said {
    TT_CAUSE_UNSAID,
    TT_CAUSE_UNSURE, /* somebody said that nobody is sure */
    TT_CAUSE_CONFIRMED,
    TT_CAUSE_DISPUTED, /* two named different ones, not knowing of each other, and nobody who knew
                          both has said anew */
} tt_cause_said;
typedef struct tt_confirmation {
    tt_cause_said said;
    uint32_t entry;    /* CONFIRMED, UNSURE: the last that says so; else TT_NONE */
    const char *cause; /* CONFIRMED: its name; else "" */
} tt_confirmation;
TT_PUBLIC tt_status tt_journal_cause(tt_journal *j, tt_confirmation *out);
/* What ended the trouble, as often as it did. Each may be "". */
typedef struct tt_helped {
    const char *fix, *fix_text; /* the fix after which it was gone */
    const char *came_back;      /* when the trouble came back after one, RFC 3339 */
} tt_helped;
TT_PUBLIC tt_status tt_journal_helped(tt_journal *j, tt_helped *out);
/* With what the case is worked on. */
typedef struct tt_case_places {
    const tt_value *begin; /* data of its first record; or null */
    /* {"path", "revision", "text"} as it was last said; null: the book's own */
    const tt_value *site;
    const char *revision; /* of the book last worked with; or "" */
} tt_case_places;
TT_PUBLIC tt_status tt_journal_places(tt_journal *j, tt_case_places *out);
/* Who has it open: they came and have not left, nor has somebody taken it over since. In the order
 * in which they came. A writer that was cut off is among them: whether its program still runs is
 * for the host to know. */
typedef struct tt_holder {
    /* person, place: as they called themselves, or "" */
    const char *writer, *person, *place, *since;
} tt_holder;
TT_PUBLIC tt_status tt_journal_holders(tt_journal *j, const tt_holder **out, uint32_t *count);

/* ---- how a case is called ---- */
enum { TT_CASE_ID_SIZE = 37, TT_CASE_NUMBER_SIZE = 14 };
TT_PUBLIC bool tt_is_case_id(const char *text); /* "019b1b48-9420-7e45-8172-00002235a41d" */
/* The number told on the telephone, made from the id: 6, 9 or 12 digits and a letter that gives
 * slips away, "483201K"; the longer ones end with the shorter. */
TT_PUBLIC void tt_case_number(const char *id, unsigned digits, char number[TT_CASE_NUMBER_SIZE]);
/* What a person typed: blanks, hyphens and small letters are fine. */
typedef enum tt_number_read {
    TT_NUMBER_READ,
    TT_NUMBER_NOT_ONE,
    TT_NUMBER_WRONG_LETTER
} tt_number_read;
TT_PUBLIC tt_number_read tt_case_number_read(const char *typed, char number[TT_CASE_NUMBER_SIZE]);
/* Whether the case may be meant by a number as tt_case_number_read gives it. Several may be. */
TT_PUBLIC bool tt_case_number_fits(const char *id, const char *number);
/* [count] how many digits each of these needs so that no other of them has the same number. */
TT_PUBLIC tt_status tt_case_number_digits(const char *const *ids, size_t count, uint8_t *digits);

#ifdef __cplusplus
}
#endif

#endif
