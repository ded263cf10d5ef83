/* Turns: put together, and made, one for each kind. */
#ifndef TT_TALK_TALK_TURNS_H
#define TT_TALK_TALK_TURNS_H

#include "talk/talk.h"

/* ---- turn_build.c, turn_known.c: putting a turn together ---- */
void turn_afresh(tt_talk *t, tt_turn_kind kind);
tt_turn_choice *turn_choice(tt_talk *t, const char *id, const char *text);
tt_turn_part *turn_part(tt_talk *t, tt_part_kind kind, const char *title);
void part_item(tt_talk *t, tt_turn_part *part, const char *text);
void turn_line(tt_talk *t, tt_part_kind kind, const char *title,
               const char *text);                   /* a part of one item */
void turn_take(tt_talk *t, const part_list *parts); /* behind those that there are */
void turn_list(tt_talk *t, tt_part_kind kind, const char *title, const char *const *items,
               uint32_t count);
void turn_safety(tt_talk *t, const tt_safety *safety);
void turn_procedure(tt_talk *t, const tt_safety *safety); /* whole, from telling to proving */
void turn_restore(tt_talk *t, const tt_safety *safety);
const char *turn_leave_so(tt_talk *t, const tt_fix_plan *plan); /* above what stands of it */
void turn_causes(tt_talk *t, uint32_t most);
void turn_fixes(tt_talk *t, uint32_t most);
void turn_facts(tt_talk *t);
void turn_tried(tt_talk *t);
void turn_unfinished(tt_talk *t); /* what was done of a fix that is no longer the next */
void turn_cautions(tt_talk *t);
void turn_contacts(tt_talk *t, const char *role);
void turn_whom_to_tell(tt_talk *t); /* what was found can wait for them */
void turn_whom_to_call(tt_talk *t); /* as the case stands */
void turn_words(tt_talk *t, unsigned offered);

/* ---- earlier.c ---- */
void turn_earlier(tt_talk *t);
void make_earlier(tt_talk *t);

/* ---- others.c: where a case that is taken up stands ---- */
void talk_tell_standing(tt_talk *t);

/* ---- turn_walk.c: rounds and records ---- */
bool talk_is_walk(const tt_talk *t);
bool walk_is_off(tt_talk *t);  /* something is not in order */
bool walk_is_over(tt_talk *t); /* the end of a round, all of which is in order, is shown */
void greet_walk(tt_talk *t);
uint32_t walk_answers(tt_talk *t); /* so many were looked at */
double walk_minutes(tt_talk *t);   /* of what is still to be looked at */
void turn_walk_found(tt_talk *t);  /* what is not in order, and what nobody could look at */
void make_walked(tt_talk *t);

/* ---- turn_*.c: one for each kind of turn; next.c: which ---- */
void make_turn(tt_talk *t);
void make_danger(tt_talk *t);
/* What is told while danger stands: what to do, the most urgent first; first aid; whom to call;
 * what to tell them; what stays locked. */
void turn_danger(tt_talk *t);
void make_stop(tt_talk *t);
void make_question(tt_talk *t, tt_turn_kind kind, uint32_t question);
void make_complaint(tt_talk *t);
bool talk_has_places(tt_talk *t); /* complaints are seen at several */
void make_places(tt_talk *t);
void make_at_place(tt_talk *t);
void make_confirm(tt_talk *t);
void make_which(tt_talk *t);
void make_ask_back(tt_talk *t);
void make_aside(tt_talk *t);
void make_fix(tt_talk *t);
void make_put_back(tt_talk *t);
void make_settle(tt_talk *t);
void make_call(tt_talk *t);
void make_cause(tt_talk *t);
void make_cause_which(tt_talk *t);
void make_closed(tt_talk *t);
void make_end(tt_talk *t);

#endif
