/* Inside of playing records: what its two files share. */
#ifndef TT_TALK_REPLAY_PARTS_H
#define TT_TALK_REPLAY_PARTS_H

#include "talk/talk.h"

const char *record_text(const tt_value *data, const char *key); /* or "" */
bool replay_is_ours(const tt_talk *t, const tt_record *r);

/* replay_fix.c: what was done of fixes, and what came of them. False: the rules no longer know it,
 * or don't take it. */
bool replay_tried(tt_talk *t, const tt_record *r);
bool replay_put_back(tt_talk *t, const tt_record *r);
bool replay_left_so(tt_talk *t, const tt_record *r);
bool replay_came_back(tt_talk *t, const tt_record *r);
bool replay_begun(tt_talk *t, const tt_record *r);
bool replay_thing(tt_talk *t, const tt_record *r);
bool replay_measured(tt_talk *t, const tt_record *r);

/* cured_before.c */
bool replay_past(tt_talk *t, const tt_record *r);

#endif
