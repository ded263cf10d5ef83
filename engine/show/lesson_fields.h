/* What closed cases teach, for programs: version 1 of `learn --json`. */
#ifndef TT_SHOW_LESSON_FIELDS_H
#define TT_SHOW_LESSON_FIELDS_H

#include "show/fields.h"

/* What became of the cases that were looked at. */
typedef struct shown_seen {
    uint32_t all, counted, other_rulebooks, open, not_gone, better, unconfirmed, not_listed,
        unknown_cause, unreadable, learned_before;
    const char *until;
} shown_seen;
/* Before and after: of the worked cases, and of made-up calls. */
typedef struct shown_side {
    uint32_t worked_cases_passed;
    tt_share leads;
    double questions, minutes;
} shown_side;
typedef struct shown_changes {
    uint32_t worked_cases;
    const char *const *worked_cases_broken;
    uint32_t worked_cases_broken_count;
    uint64_t calls;
    shown_side now, then;
} shown_changes;
typedef struct lesson_about {
    const char *title, *learned_until; /* learned_until: or "" */
    shown_seen seen;
    const tt_lesson *lesson;
    const shown_changes *changes; /* null: nothing is proposed */
} lesson_about;

tt_value lesson_value(arena *keep, const lesson_about *about);
tt_value lesson_schema(arena *keep);

#endif
