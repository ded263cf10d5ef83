/* Worked cases at work; shared by the files that try them. */
#ifndef TT_REHEARSE_TRYING_H
#define TT_REHEARSE_TRYING_H

#include "session/session.h"

typedef struct trying {
    tt_book *book;
    tt_case *c; /* the one at work, freed by whoever began */
    tt_trial *trials;
    uint32_t passed;
    bool *rule_used, *symptom_used, *cause_led, *fix_offered;
    const char **unused;
    uint32_t unused_count;
    tt_coverage covers[TT_COVERED];
} trying;

/* Room in the book for what comes of all its cases; then one after the other. */
void trial_room(trying *t);
tt_status trial_run(trying *t, uint32_t index);

/* Tells the case all that the worked case says, and that there is no danger where it says nothing
 * of it; the view is of the case at work. */
tt_status trial_play(trying *t, const worked_case *w, const tt_view **v);
/* Adds what came otherwise than expected. */
void trial_check(trying *t, const worked_case *w, const tt_view *v, text_builder *why);
/* The same of what is never asked or offered: plays the case once more, to its end. */
tt_status trial_check_never(trying *t, const worked_case *w, text_builder *why);

#endif
