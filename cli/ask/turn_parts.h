/* What a turn says about a question, a fix and where the case stands. */
#ifndef TT_CLI_TURN_PARTS_H
#define TT_CLI_TURN_PARTS_H

#include "ask/ask.h"

json_t *question_json(ask *a, uint32_t index, const tt_question *question);
/* `standing`: of the view, or null. */
json_t *plan_json(ask *a, const tt_fix_plan *plan, const tt_fix *standing);
json_t *known_json(ask *a, const tt_view *view);
/* `changed`: what must be put back before anything else, or null. */
json_t *call_json(const tt_view *view, const tt_tried *changed);
json_t *texts_json(const char *const *texts, uint32_t count);

/* In the turn: what is known, what was tried, what is different from before, what was begun. */
void turn_standing(ask *a);
/* With nobody to answer: what would come next. */
void turn_next(ask *a, const tt_view *view);
/* The last one. `status` is that of the program. */
void turn_end(ask *a, exit_status status);

#endif
