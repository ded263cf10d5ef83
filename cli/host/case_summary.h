/* A case in a few words, made from its records alone: its book may be gone, or be on another
 * machine. */
#ifndef TT_CLI_CASE_SUMMARY_H
#define TT_CLI_CASE_SUMMARY_H

#include <jansson.h>
#include <stdbool.h>
#include <stdint.h>

#include "host/case_number.h"

/* X(id, name, heading) */
#define STATE_TABLE(X) \
    X(CASE_OPEN, "open", "open") \
    X(CASE_ON_HOLD, "on-hold", "on hold") \
    X(CASE_CLOSED, "closed", "closed, the trouble is gone") \
    X(CASE_CALLED, "called", "closed, somebody was called") \
    X(CASE_STOPPED, "stopped", "closed, stopped for safety") \
    X(CASE_UNREADABLE, "unreadable", "with nothing in it that can be read")

#define STATE_ENUM_ENTRY(id, name, heading) id,
typedef enum case_state { STATE_TABLE(STATE_ENUM_ENTRY) CASE_STATES } case_state;
#undef STATE_ENUM_ENTRY
extern const char *const state_names[CASE_STATES];
extern const char *const state_headings[CASE_STATES];

/* Texts are null where the records say nothing. Times are RFC 3339, as written. */
typedef struct case_summary {
    char uuid[CASE_UUID_SIZE], number[CASE_NUMBER_SIZE];
    char *folder;
    case_state state;
    char *began, *last, *ended; /* ended: null while it is open */
    int64_t last_moment;        /* milliseconds since 1970, or 0 */
    double
        minutes; /* from its beginning to its end; NAN while it is open, and if clocks disagree */
    char *title, *edition, *book, *revision;
    char *site;
    char *complaint_name, *complaint, *said; /* the symptom, its words, and the person's own */
    char *cause_name, *cause;                /* CASE_CLOSED: what it was */
    bool confirmed;                          /* somebody said so */
    char *stands;                            /* what comes next, or what came last */
    bool stands_next;                        /* it is what comes next */
    char *note, *to; /* of the last hold or hand-over, since which nobody went on */
    char *writer, *person,
        *place;  /* who opened it last; person and place: as they called themselves, or null */
    char *since; /* when they opened it; or, if they left it since, when that was */
    bool held;   /* they did not leave it */
    unsigned answers, tried; /* without those taken back */
    unsigned left_out;       /* lines that are no records */
    bool has_text; /* the words looked for are in it; if not, the rest may be left empty */
} case_summary;

/* A file of a case, all of it; a zero follows it. */
typedef struct case_bytes {
    char *bytes;
    size_t length;
} case_bytes;

/* `words`: folded words to look for in all texts of the records but the book's and the site's;
 * may be none. Zeroes *out first. */
void case_summarize(const char *uuid, const case_bytes *files, size_t file_count,
                    char *const *words, size_t word_count, case_summary *out);
void case_summary_free(case_summary *summary);

#endif
