/* A face: how a person or a program meets a conversation. It draws turns and hands back what was
 * said; what is asked, and what a reply means, is decided elsewhere. */
#ifndef TT_CLI_FACE_H
#define TT_CLI_FACE_H

#include <stdio.h>

#include "base/arena.h"
#include "face/colour.h"
#include "host/line_input.h"
#include "show/reply_fields.h"
#include "telltale.h"

typedef enum face_got {
    FACE_REPLY,
    FACE_BEGINS, /* a program has said as what the case is to begin: see `begun` */
    FACE_ENDED,  /* no more input */
    FACE_SIGNAL,
    FACE_NEWS,   /* while a reply was awaited; see line_input.h */
    FACE_FAILED, /* reading or writing */
} face_got;

/* What a face for programs tells beside the turn. */
typedef struct face_about {
    tt_case *c;                                         /* null: there is none yet */
    const tt_book *book;                                /* null: none is open yet */
    const char *case_number, *revision, *site_revision; /* "" */
    uint32_t status;                                    /* of the program, with the last turn */
    bool may_begin; /* nothing was said yet, and nothing is kept */
} face_about;

typedef struct face face;
struct face {
    /* Shows the turn and waits for a reply, whose texts live until the next call. */
    face_got (*ask)(face *f, const tt_turn *turn, tt_heard *reply);
    /* Shows a turn that nobody replies to. False: it could not be written. */
    bool (*tell)(face *f, const tt_turn *turn);
    void (*end)(face *f);
    line_input *input;
    FILE *out;
    bool telephone; /* with a caller on the line */
    face_about about;
    beginning begun;
    const char *now; /* the moment that a program gave last; null: none */
    arena *shown;    /* what is shown just now, and the reply to it */
    /* Where lines come from, in `shown`; null: from `input`. `many`: whose that is. */
    face_got (*next_line)(face *f, const char **line);
    void *many;
};

typedef struct terminal_wishes {
    bool plain, asks_nothing; /* asks_nothing: pages follow each other without a pause */
    colour_wish colour;
} terminal_wishes;
/* Pages on a terminal; where input or output is none, or on request, running lines, one thing a
 * line. Freed by face_end. */
face *terminal_new(FILE *out, line_input *input, terminal_wishes wishes);
/* One turn a line, one reply a line: protocol version 2, see docs/turn.schema.json. */
face *json_lines_new(FILE *out, line_input *input);
/* Each line tells the call's key, which lives as long as the face. */
void json_lines_key(face *f, const char *key);
void face_end(face *f);

/* A line that was said, whole, in `shown`; *line null: it was too long, or none came. */
face_got face_read_line(face *f, const char **line);

#endif
