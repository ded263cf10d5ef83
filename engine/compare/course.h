/* How cases and calls come out with an edition of a book, and how that differs from another. */
#ifndef TT_COMPARE_COURSE_H
#define TT_COMPARE_COURSE_H

#include "base/arena.h"
#include "base/guard.h"
#include "telltale.h"

typedef enum item_kind { ITEM_WORKED, ITEM_STORED, ITEM_CALL } item_kind;

typedef struct item {
    item_kind kind;
    const char *name;
    uint64_t number;          /* CALL */
    const tt_kept_case *kept; /* STORED */
} item;

typedef struct standpoint {
    tt_course course;
    const char **names; /* causes, null: not listed; null: of a call */
    double *chances;
    uint32_t count;
} standpoint;

/* A book that is open for items of one site. */
typedef struct edition {
    tt_book *book;
    tt_rehearsal *calls; /* made when first wanted */
    tt_case *worked;     /* at work; like all of it, it is freed wherever that ends */
    tt_talk *stored;     /* likewise */
    uint64_t seed;
} edition;
void edition_close(edition *e);

tt_status course_play(arena *keep, edition *e, const item *i, standpoint *out);
/* Fills what changed, and the shift. False: nothing did. */
bool course_differs(const standpoint *before, const standpoint *after, tt_moved *out);

#endif
