/* The names of a book with what they mean, in all forms in which they are written. */
#ifndef TT_REVISE_NAME_LISTS_H
#define TT_REVISE_NAME_LISTS_H

#include "read/reader.h"

typedef struct told_name {
    const char *name, *text; /* "drop of any filter"; what an editor shows with it */
    str base;
} told_name;

typedef struct told_names {
    const char *what; /* "cause" */
    told_name *items; /* by name, each once */
    uint32_t count, room;
    bool any_piece; /* those of single pieces are left out */
} told_names;

enum {
    NAME_LISTS_MOST = 16,
    NAMES_OF_PIECES_MAX = 6000, /* what is written for each piece, at each, in all lists */
};
typedef struct name_lists {
    arena *keep;
    told_names lists[NAME_LISTS_MOST];
    uint32_t count;
    bool any_piece; /* names of single pieces are too many to be listed */
    bool only_new;  /* what has a text already keeps it */
} name_lists;

/* `own`: for the book's own site; `bare`: for none, where all that is written for each piece is
 * there; it may be null. */
void name_lists_fill(name_lists *all, const book *own, const book *bare);
const told_names *name_list(const name_lists *all, const char *what); /* null: no such names */

#endif
