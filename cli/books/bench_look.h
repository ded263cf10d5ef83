/* A book looked at: what check says, how each worked case came out, and what has moved since it was
 * looked at before. */
#ifndef TT_CLI_BENCH_LOOK_H
#define TT_CLI_BENCH_LOOK_H

#include "base/arena.h"
#include "host/exits.h"
#include "telltale.h"

typedef struct case_look {
    const char *name, *at, *why; /* why: "" if it came out as expected */
    const char *leads;           /* the text of its leading cause */
    double chance;
    tt_grounds grounds;
} case_look;

typedef struct book_look {
    arena *keep;       /* of all of it */
    bool loads;        /* without it there are no cases */
    tt_book *book;     /* if it loads */
    tt_book_info info; /* of it; its texts live in it */
    tt_report *report;
    case_look *cases; /* by name */
    uint32_t count, passed;
} book_look;

/* Says what went wrong with the folder; faults of the book are no such thing. `before` (may be
 * null): one that loads; cases that must come out as they did in it are not played again. `told`:
 * called once the report is there, before the cases are played; may be null. */
exit_status book_look_at(const char *folder, const book_look *before, book_look *out,
                         void (*told)(const book_look *so_far, void *context), void *context);
void book_look_free(book_look *look);

/* A case that came out otherwise; `before` or `now` is null if it was not there. */
typedef struct case_move {
    const case_look *before, *now;
    double weight; /* how much it matters */
} case_move;
/* What matters most first: as expected or not, another leading cause, then by how much its chance
 * moved. Lives in `keep`. */
case_move *book_moves(arena *keep, const book_look *before, const book_look *now, uint32_t *count);

#endif
