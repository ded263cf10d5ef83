/* A case on paper, for people and programs: version 1 of `sheet --json`. The pages are drawn from
 * the same struct. Texts are never null; "" where there is none. */
#ifndef TT_SHOW_SHEET_FIELDS_H
#define TT_SHOW_SHEET_FIELDS_H

#include "show/book_fields.h"
#include "show/standing_fields.h"

typedef struct sheet_head {
    const char *number, *kind, *state, *begun, *last, *closed, *to, *until, *handed_to, *confirmed,
        *role, *caller;
    /* as people call the role; of `to`, what was said where it is none */
    const char *role_text, *to_text, *handed_to_text;
    bool practice;
} sheet_head;
typedef struct sheet_book {
    const char *name, *edition, *revision, *language;
    bool same_as_in_case;
} sheet_book;
typedef struct sheet_step {
    const char *time, *by, *writer, *kind, *about, *text, *result, *typed, *setting, *from, *to;
    bool taken_back, left_out;
    const char *mark;
} sheet_step;
typedef struct sheet_fact {
    const char *name, *text, *value, *from, *source;
    bool reckoned, stale, unknown;
    const char *unit, *at;
} sheet_fact;
typedef struct sheet_tried {
    const char *name, *text, *outcome;
    bool under_way, was_put_back;
    const char *different, *put_back, *cured,
        *together;                  /* together: name of the other of two under one lockout */
    const shown_measured *measured; /* null: nothing was read */
} sheet_tried;
typedef struct sheet_caution {
    const char *signal, *text, *time;
} sheet_caution;
typedef struct sheet_danger {
    const char *time, *by, *text;
} sheet_danger;
/* A fix that was begun, and of which nobody said what came of it. */
typedef struct sheet_unfinished {
    const char *name, *text;
    const char *const *done;
    uint32_t done_count;
} sheet_unfinished;
typedef struct sheet_next_fix {
    const char *name, *text, *role, *role_text; /* role_text: as people call it */
    const char *const *hazards;
    uint32_t hazards_count;
    const char *const *isolate;
    uint32_t isolate_count;
    const char *const *protect;
    uint32_t protect_count;
    const char *const *tell;
    uint32_t tell_count;
    const char *const *release;
    uint32_t release_count;
    const char *const *prove;
    uint32_t prove_count;
    const char *const *restore;
    uint32_t restore_count;
    const char *const *once_running;
    uint32_t once_running_count;
    const char *const *steps;
    uint32_t steps_count;
    const char *const *needs;
    uint32_t needs_count;
} sheet_next_fix;
/* What is asked before anything is done, and what lets it go on; ranges of readings are in words.
 */
typedef struct sheet_gate {
    const char *question;
    const char *const *safe;
    uint32_t safe_count;
} sheet_gate;
typedef struct sheet_next { /* call_text: in words, also of somebody from outside */
    const char *what, *question;
    const sheet_next_fix *fix; /* null: none */
    const char *stop, *call, *call_text;
} sheet_next;
typedef struct sheet_part {
    const char *text;
    double chance;
} sheet_part;
typedef struct shown_sheet {
    uint32_t version;
    sheet_head head;
    sheet_book rulebook;
    const shown_site *site; /* null: nothing says what there is */
    const char *const *about;
    uint32_t about_count;
    const sheet_step *steps;
    uint32_t steps_count;
    const char *const *to_settle;
    uint32_t to_settle_count;
    const sheet_fact *facts;
    uint32_t facts_count;
    const shown_cause *causes;
    uint32_t causes_count;
    shown_likely likely;
    bool probably_none, nothing_wrong, not_listed_leads, all_ruled_out;
    double two_faults;
    const shown_pair *pairs;
    uint32_t pairs_count;
    const sheet_tried *tried;
    uint32_t tried_count;
    const sheet_caution *cautions;
    uint32_t cautions_count;
    const sheet_danger *dangers;
    uint32_t dangers_count;
    const sheet_unfinished *unfinished; /* null: nothing is half done */
    const tt_contact *contacts;
    uint32_t contacts_count;
    const sheet_gate *gates;
    uint32_t gates_count;
    sheet_next next;
    const shown_fix *fixes;
    uint32_t fixes_count;
    const sheet_part *parts;
    uint32_t parts_count;
} shown_sheet;

/* What comes next, in one word for programs. */
const char *sheet_step_name(tt_step step);

tt_value sheet_value(arena *keep, const shown_sheet *sheet); /* the version is filled in */
tt_value sheet_schema(arena *keep);

#endif
