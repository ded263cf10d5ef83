/* Where a case stands, for programs: what is known, what it points to, fixes, what was tried. */
#ifndef TT_SHOW_STANDING_FIELDS_H
#define TT_SHOW_STANDING_FIELDS_H

#include "show/fields.h"

typedef struct shown_fact {
    const char *name;
    tt_value value;
    const char *unit, *from, *source, *at, *ask, *text, *before;
    bool stale;
} shown_fact;
typedef struct shown_cause {
    const char *name, *text;
    double chance;
    const char *means;
} shown_cause;
typedef struct shown_fix {
    const char *name, *text, *risk;
    double chance, minutes;
    const char *role, *role_text, *standing; /* role_text: as people call it */
    bool held;
    const char *const *needs;
    uint32_t needs_count;
} shown_fix;
typedef struct shown_pair {
    const char *const *names;
    uint32_t names_count;
    double chance;
    const char *first, *second;
} shown_pair;
/* What a list of causes comes to. */
typedef struct shown_likely {
    uint32_t count;
    double chance;
} shown_likely;
typedef struct shown_known {
    const char *const *focus;
    uint32_t focus_count;
    const shown_fact *facts;
    uint32_t facts_count;
    const shown_cause *causes;
    uint32_t causes_count;
    shown_likely likely;
    bool probably_none, nothing_wrong;
    const shown_fix *fixes;
    uint32_t fixes_count;
} shown_known;
typedef struct shown_measured {
    const char *question, *before, *after;
} shown_measured;
typedef struct shown_tried {
    const char *name, *text, *outcome;
    bool under_way, was_put_back, left_so, came_back;
    const char *put_back, *cured, *together;
    const shown_measured *measured; /* null: not about a reading, or not read */
} shown_tried;
typedef struct shown_caution {
    const char *signal, *text;
    bool is_new;
} shown_caution;

extern const shape measured_shape, fact_shape, cause_shape, likely_shape, known_shape, tried_shape,
    caution_shape;
/* Of a standing by itself, without turns: version 1 of `rank --json`. */
extern const shape fix_shape, pair_shape, standing_caution_shape;
/* What a sheet tells of them, which is more. */
extern const shape sheet_cause_shape, sheet_pair_shape, sheet_fix_shape;
const char *standing_name(tt_standing standing); /* "not yet" */
extern const name_list from_names, risk_names, standing_names, signal_names;

/* Null where the engine can't tell. All lives in `keep`, texts up to the next change of the case.
 */
const shown_known *known_of(arena *keep, const tt_book *book, tt_case *c);
const shown_cause *causes_of(arena *keep, tt_case *c, uint32_t *count);
const shown_likely *likely_of(arena *keep, tt_case *c);
const shown_pair *pairs_of(arena *keep, const tt_view *view);
/* `measured`: one for each, or null. */
const shown_tried *tried_of(arena *keep, tt_case *c, const tt_measured *measured, uint32_t *count);
const shown_measured *measured_of(arena *keep, const tt_measured *m); /* null: nothing was read */
/* What fixes have left different from before. */
const char *const *different_of(arena *keep, tt_case *c, uint32_t *count);
/* All that hold, the gravest first. */
const shown_caution *cautions_of(arena *keep, tt_case *c, uint32_t *count);

#endif
