/* A question and a fix, for programs. */
#ifndef TT_SHOW_STEP_FIELDS_H
#define TT_SHOW_STEP_FIELDS_H

#include "show/fields.h"

typedef struct shown_safety {
    const char *const *hazards;
    uint32_t hazards_count;
    const char *const *cautions;
    uint32_t cautions_count;
    const char *unprotected_risk, *risk;
    const char *const *wear;
    uint32_t wear_count;
    const char *state, *why_running;
    const char *const *procedures;
    uint32_t procedures_count;
    const char *const *tell;
    uint32_t tell_count;
    const char *const *isolate;
    uint32_t isolate_count;
    const char *const *release;
    uint32_t release_count;
    const char *const *prove;
    uint32_t prove_count;
    const char *const *restore;
    uint32_t restore_count;
} shown_safety;
typedef struct shown_range {
    double low, high;
} shown_range;
typedef struct shown_question {
    const char *name, *ask, *look, *say, *place, *because, *instrument, *round, *kind, *measures,
        *unit;
    const shown_range *plausible;
    double minutes;
    bool danger_first, once_more, of_site, for_whoever_comes;
    const char *second_look, *second_with, *clashes_with;
    const shown_safety *safety;
    const char *put_back;
} shown_question;
typedef struct shown_adjust {
    const char *reading, *unit;
    bool under_way;
    uint32_t step, at_most;
    double found, from, to;
    const char *found_text, *from_text, *to_text;
} shown_adjust;
typedef struct shown_again {
    const char *name, *ask;
} shown_again;
typedef struct shown_plan {
    const char *name, *text, *role;
    double chance, minutes;
    const shown_safety *safety;
    const char *const *parts;
    uint32_t parts_count;
    const char *cost, *place;
    bool cannot_put_back;
    const char *put_back;
    const char *const *steps;
    uint32_t steps_count;
    const char *const *after;
    uint32_t after_count;
    const char *const *once_running;
    uint32_t once_running_count;
    const shown_adjust *adjust;
    const shown_again *look_again;
    uint32_t look_again_count;
} shown_plan;

extern const shape question_shape, plan_shape;

/* Null where the engine can't tell. All lives in `keep`, texts up to the next change of the case.
 */
const shown_question *question_of(arena *keep, tt_case *c, uint32_t question);
const shown_plan *plan_of(arena *keep, tt_case *c, uint32_t fix);

#endif
