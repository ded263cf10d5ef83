/* Replies of programs: a map with one of several keys, and what was meant by it. */
#ifndef TT_SHOW_REPLY_FIELDS_H
#define TT_SHOW_REPLY_FIELDS_H

#include "base/value.h"

/* What is wrong with a reply as such; "" if nothing is. */
typedef struct reply_fault {
    const char *code, *text;
} reply_fault;

typedef struct reply_read_out {
    tt_heard heard;
    const char *now; /* the moment that it names; or null */
} reply_read_out;

/* `number`: of the turn, as it was sent. False: *fault says why. All lives in `keep`. */
bool reply_read_value(arena *keep, const tt_turn *turn, uint32_t number, const tt_value *said,
                      reply_read_out *out, reply_fault *fault);

/* A conversation that is begun with a given case, writer and moment. */
typedef struct beginning {
    const char *case_id, *writer, *now; /* each may be null */
} beginning;
/* Whether it is one at all; then *fault says what is wrong with it. */
bool is_beginning(const tt_value *said);
bool beginning_read(const tt_value *said, beginning *out, reply_fault *fault);

/* The keys that a reply to this turn may have. */
const char *const *reply_ways(arena *keep, const tt_turn *turn, uint32_t *count);

tt_value reply_schema(arena *keep);
tt_value beginning_schema(arena *keep);
tt_value opening_schema(arena *keep); /* of a call, among many */

#endif
