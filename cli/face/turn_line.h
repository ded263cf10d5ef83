/* One turn as a line of JSON, and a line that replies to it: protocol version 2,
 * docs/turn.schema.json. Buffers in, buffers out: what a program on two pipes and the page in a
 * browser share. */
#ifndef TT_CLI_TURN_LINE_H
#define TT_CLI_TURN_LINE_H

#include "base/arena.h"
#include "base/str.h"
#include "face/face.h"
#include "show/reply_fields.h"

typedef struct turn_lines {
    arena *keep;       /* what stays from line to line */
    bool telephone;    /* with a caller on the line */
    bool only_told;    /* no reply is read to this turn */
    uint32_t number;   /* of the turn that was sent last */
    const char *key;   /* of the call, where there are many; null: there is one */
    const char **told; /* cautions that were sent */
    uint32_t told_count, told_room;
} turn_lines;

/* Without its newline, in `shown`. `fault`: what is wrong with the reply as such; "" if nothing is.
 */
str turn_as_line(turn_lines *lines, arena *shown, const tt_turn *turn, const face_about *about,
                 const reply_fault *fault);

/* The value of a line. False: *fault says why it has none. All lives in `shown`. */
bool reply_line_value(arena *shown, str line, tt_value *said, reply_fault *fault);
/* What the value replies. *now: the moment that it names, or null. */
bool reply_line_read(const turn_lines *lines, arena *shown, const tt_turn *turn,
                     const tt_value *said, tt_heard *reply, const char **now, reply_fault *fault);

#endif
