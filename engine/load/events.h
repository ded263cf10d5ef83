/* What the parser says of one file, in bytes of the file and without its own types. No tree yet:
 * the parser is gone before anything is built that may run out of memory. */
#ifndef TT_LOAD_EVENTS_H
#define TT_LOAD_EVENTS_H

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/source.h"
#include "base/str.h"
#include "load/nodes.h"

typedef enum event_kind {
    EVENT_TEXT,
    EVENT_ALIAS,
    EVENT_LIST_START,
    EVENT_LIST_END,
    EVENT_MAP_START,
    EVENT_MAP_END,
} event_kind;

typedef enum event_mark {
    MARK_ANCHORED = 1, /* an anchor or tag stands before it, inside start … end */
    MARK_TAGGED = 2,
    MARK_TOO_LONG = 4,   /* a text above LOAD_SCALAR_MAX, which is then not kept */
    MARK_AS_WRITTEN = 8, /* a plain text in one line, as it stands in the file; not empty */
} event_mark;

/* Small: for a while there is one for each word of a file. */
typedef struct event {
    uint32_t start, end; /* bytes of the file; a block list or map has no end of its own */
    uint32_t kind : 3;   /* event_kind */
    uint32_t style : 3;  /* node_style */
    uint32_t marks : 4;  /* event_mark */
    uint32_t count : 22; /* of a text bytes, of a list items, of a map keys and values */
} event;
#define EVENT_COUNT_MAX ((1U << 22) - 1)
static_assert(LOAD_NODES_MAX <= EVENT_COUNT_MAX && LOAD_SCALAR_MAX <= EVENT_COUNT_MAX, "it fits");

/* A text that does not stand in the file as it is. */
typedef struct text_apart {
    const struct text_apart *next;
    char bytes[]; /* with a NUL behind them */
} text_apart;

typedef enum stop_cause {
    STOP_AT_END,
    STOP_SYNTAX,
    STOP_DEPTH,
    STOP_NODES,
    STOP_SECOND_DOCUMENT,
    STOP_NO_MEMORY,
} stop_cause;

/* In pieces, so that no event moves while others come. */
enum { EVENTS_PIECE = 2048, EVENTS_PIECES = 2 * (LOAD_NODES_MAX + 1) / EVENTS_PIECE + 2 };

typedef struct events {
    event **pieces;
    uint32_t count;
    const char *copy;        /* of the file, with a NUL behind each text that stands in it so */
    const text_apart *apart; /* all others but empty ones, in the order of their events */
    stop_cause stop;
    uint32_t at;             /* where it stopped */
    uint32_t context;        /* STOP_SYNTAX: where that began which could not be finished */
    const char *while_doing; /* STOP_SYNTAX: the parser's own words, or empty */
    const char *problem;
} events;

static inline const event *event_at(const events *all, uint32_t i)
{
    return &all->pieces[i / EVENTS_PIECE][i % EVENTS_PIECE];
}

/* Of an EVENT_TEXT. `apart` is the first of those whose event has not come yet. */
static inline str event_text(const events *all, const event *e, const text_apart **apart)
{
    if ((e->marks & MARK_AS_WRITTEN) != 0) return (str){all->copy + e->start, e->count};
    if (e->count == 0) return STR("");
    const text_apart *mine = *apart;
    *apart = mine->next;
    return (str){mine->bytes, e->count};
}

/* Texts go to `keep`, the list itself to `scratch`. The text must be valid UTF-8. Takes one from
 * `budget` for each node; a budget of 0 is spent. Does not leave by the guard: STOP_NO_MEMORY
 * instead. */
events read_events(arena *keep, arena *scratch, const source *s, uint32_t *budget);

#endif
