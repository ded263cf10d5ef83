/* A turn, for programs: one table of fields, from which come the value tree that is sent and the
 * schema in docs/. */
#ifndef TT_SHOW_TURN_FIELDS_H
#define TT_SHOW_TURN_FIELDS_H

#include "show/fields.h"

enum { TURN_VERSION = 2 }; /* of the protocol: rises when a key changes its meaning or goes away */

/* What goes with the first turn of a conversation. */
typedef struct turn_opening {
    const char *revision;      /* of the book */
    const char *site_revision; /* or "" */
} turn_opening;

/* What a turn does not know of itself. */
typedef struct turn_about {
    uint32_t number;                  /* of the turn, as it is sent */
    const char *key;                  /* of the call, where there are many; or null */
    const char *case_number;          /* "": it has not begun, or is not kept */
    const tt_book *book;              /* null: none is open yet */
    tt_case *c;                       /* null: there is none yet */
    bool only_told;                   /* no reply is read to it */
    const char *text;                 /* all of it in plain words */
    const char *const *cautions_told; /* texts of those that earlier turns had */
    uint32_t cautions_told_count;
    const turn_opening *opening;    /* null: it is not the first */
    const char *wrong_code, *wrong; /* with the reply as such; null: as the turn says */
    uint32_t status;                /* of the last one: the exit status */
} turn_about;

/* All lives in `keep`, texts up to the next change of the case. */
tt_value turn_value(arena *keep, const tt_turn *turn, const turn_about *about);
/* The JSON Schema of turns and of replies. */
tt_value turn_schema(arena *keep);

#endif
