/* A turn as blocks of text, in the order in which a person reads them: what a screen, a pipe and
 * the `text` of a JSON line share. A block knows where it stands and what it means; how wide a row
 * is and what fits on a page is for the layout. */
#ifndef TT_CLI_TURN_BLOCKS_H
#define TT_CLI_TURN_BLOCKS_H

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

/* What a block means; a face may colour it. Its words say the same. */
typedef enum ink {
    INK_PLAIN,
    INK_DANGER,
    INK_CAUTION,
    INK_WEAR,
    INK_CHOICE,
    INK_PROMPT,
    INK_COUNT
} ink;

typedef enum block_place {
    AT_HEAD, /* on every page: the practice mark, the fix, what to wear */
    IN_BODY,
    AT_PROMPT,  /* what is asked: on every page that has choices */
    BY_PROMPT,  /* how to look at it: below what is asked, or before it where there is no room for
                   both */
    IN_CHOICES, /* beside what is asked, as many as fit */
    AT_WORDS,   /* words of ours, on the last page */
} block_place;

typedef struct block {
    block_place place;
    ink ink;
    str lead;          /* "  1  ": further rows stand below the text */
    str text;          /* clean; may have several lines */
    bool gap;          /* an empty row before it, where there is room */
    bool with_next;    /* a heading: on one page with what follows */
    bool as_it_stands; /* to be copied: broken by the terminal alone */
    bool told_below;   /* at the head of pages that don't have the prompt, which says the same */
} block;

typedef struct blocks {
    block *items;
    uint32_t count, room;
} blocks;

typedef struct compose_wishes {
    bool telephone; /* as a support agent needs it, with a caller on the line */
    bool enter;     /* an empty line can be typed, and stands for enter_takes */
} compose_wishes;
/* All lives in `keep`. */
blocks compose_turn(arena *keep, const tt_turn *turn, compose_wishes wishes);

/* What an empty line stands for: the one way on from a page to be read or a note not left. Null:
 * nothing. */
const tt_turn_choice *enter_takes(const tt_turn *turn);

#endif
