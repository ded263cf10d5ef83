/* What a rehearsal showed as a page, with pictures; each picture's figures stand beneath it. */
#ifndef TT_CLI_REHEARSE_PAGE_H
#define TT_CLI_REHEARSE_PAGE_H

#include "books/read_book.h"
#include "paper/drawing.h"
#include "paper/paper_words.h"
#include "telltale.h"

typedef struct rehearse_page {
    const paper *p;
    arena *keep;
    const tt_rehearsed *r;
} rehearse_page;

void rehearsal_on_paper(FILE *out, const paper_kind *kind, arena *keep, const opened_book *book,
                        const tt_rehearsal_options *options, const tt_rehearsed *r);

/* ---- pictures (rehearse_pictures.c) ---- */

/* A measure with where it would lie 95 times in 100. */
typedef struct gauge_shown {
    const char *text;
    double value, low, high;
    const char *words; /* "72 %" */
} gauge_shown;
/* On one scale from the least low, or 0, to the greatest high, or `full`. */
drawing draw_gauges(arena *keep, const gauge_shown *all, uint32_t count, double full);
drawing draw_calibration(arena *keep, const tt_rehearsed *r);
/* What was wrong in rows, what led in columns, both the causes named, `count` of them. `place`: of
 * a name among them. */
drawing draw_grid(arena *keep, const tt_rehearsed *r, const char *const *names,
                  const char *const *texts, uint32_t count);

/* "72.4 %", "3.1". */
const char *page_percent(arena *keep, double share);
const char *page_number(arena *keep, double number);

#endif
