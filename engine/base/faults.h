/* What is wrong with an input, as data: wrong input is never a failure of the program. Any number
 * of faults are collected, then sorted, capped with a count, and printed for people or machines.
 *
 * Printed form:   file:line:column: error: what is wrong [CODE]
 *                    41 |     shown-by: {foam-air-hihg: often}
 *                       |                ^~~~~~~~~~~~~
 *                 file:line:column: note: what stands at the other place
 *                 help: what to write instead */
#ifndef TT_BASE_FAULTS_H
#define TT_BASE_FAULTS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/source.h"
#include "base/str.h"

/* The one table: X(name, "CODE", severity, "title of its section in docs/faults.md") */
#include "base/fault_table.h"

typedef enum fault_code {
#define X(name, code, severity, title) FAULT_##name,
    FAULT_TABLE(X)
#undef X
        FAULT_COUNT
} fault_code;

typedef enum fault_severity { SEVERITY_ERROR, SEVERITY_WARNING } fault_severity;

typedef struct fault_note {
    span at;
    str text;
    struct fault_note *next;
} fault_note;

typedef struct fault {
    fault_code code;
    span at;
    str text; /* what and why */
    str help; /* what to write instead; may be empty */
    /* put the one in the place of the other, and it is mended; empty: not so simple */
    str written, mended;
    fault_note *notes;
} fault;

typedef struct faults faults;

/* `keep` outlives the list. */
faults *faults_new(arena *keep);

enum {
    FAULTS_KEPT_MAX = 5000, /* of a hostile file: what comes after them is only counted */
    FAULT_NOTES_MAX = 100,  /* of one fault: the first */
};

/* Adds one; the text is one or two plain sentences without a final code. Two faults with the same
 * code and place are reported once (the first text and help stay; notes of both are kept). The
 * result stays valid for fault_help and fault_note_at, and is never null. */
fault *fault_add(faults *list, fault_code code, span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void fault_help(faults *list, fault *f, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* false: it has some, or is not kept; for help that is long in the making */
bool fault_wants_help(const faults *list, const fault *f);
void fault_note_at(faults *list, fault *f, span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* The page for a phone carries a book that was checked when the page was made, and has no room for
 * what authors would be told: there a fault is its code and place. faults.c itself sees the
 * functions. */
#if defined(TT_WITHOUT_AUTHORS) && !defined(TT_FAULTS_C)
#define WORDLESS static inline __attribute__((always_inline, unused))
WORDLESS fault *fault_add_wordless(faults *list, fault_code code, span at, const char *format, ...)
{
    (void)format;
    return fault_add(list, code, at, "%s", "");
}
WORDLESS void fault_help_wordless(faults *list, fault *f, const char *format, ...)
{
    (void)list, (void)f, (void)format;
}
WORDLESS void fault_note_wordless(faults *list, fault *f, span at, const char *format, ...)
{
    (void)list, (void)f, (void)at, (void)format;
}
#undef WORDLESS
#define fault_add     fault_add_wordless
#define fault_help    fault_help_wordless
#define fault_note_at fault_note_wordless
#endif
/* `written`, which stands somewhere in the fault's place, is to be replaced: for editors that mend
 * by themselves. */
void fault_mend(faults *list, fault *f, str written, str mended);
/* Where it stands; false: it is nowhere there as it was read, or in several places, or nothing is
 * known to be put there. */
bool fault_mend_at(const fault *f, const sources *all, span *at);

/* What is wrong there has been said: later faults inside this range are dropped, so that no later
 * stage reports what only follows from it. */
void faults_silence(faults *list, span at);

/* The author says of warnings with this code that they are no fault inside of a place (nowhere: in
 * all files), and stands by it at `said`: they are not kept from here on. */
void faults_call_fine(faults *list, fault_code code, span within, span said);
/* Adds FINE_FOR_NOTHING for each that has kept nothing back; once all stages have run. */
void faults_doubt_fine(faults *list);

/* The warning of this id; false: there is none. */
bool fault_warning_of(str id, fault_code *code);

/* Those of which `drops` says so are neither counted nor told. */
void faults_drop(faults *list, bool (*drops)(const fault *f, const void *context),
                 const void *context);

uint32_t faults_errors(const faults *list);
/* Rises with each error, also with one that is told no more: it was said at this place before, as
 * of what is written once for several pieces, or it follows from what was said. */
uint32_t faults_met(const faults *list);
uint32_t faults_warnings(const faults *list);

const char *fault_id(fault_code code); /* "T101" */
const char *fault_title(fault_code code);
fault_severity fault_severity_of(fault_code code);

/* Sorted by file, place, code. Valid until the next fault_add. */
const fault *faults_sorted(faults *list, arena *scratch, uint32_t *count);

/* The printed form of all, at most `most` of them (0: all), with a last line that counts errors and
 * warnings. */
str faults_text(faults *list, arena *keep, const sources *all, uint32_t most);

#endif
