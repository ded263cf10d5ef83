/* A site over time as a page, with pictures; what each shows stands in a table beneath it. */
#ifndef TT_CLI_HISTORY_PAGE_H
#define TT_CLI_HISTORY_PAGE_H

#include "books/read_book.h"
#include "paper/drawing.h"
#include "paper/paper_words.h"
#include "telltale.h"

void history_on_paper(FILE *out, const paper_kind *kind, arena *keep, const opened_book *book,
                      const tt_site_story *story);

/* ---- pictures (history_pictures.c) ---- */

/* Readings with the level of what is good, and what was done as numbered upright lines: the numbers
 * are places in the list of marks, from 1. All of a site stand on one axis of days. */
drawing draw_series(arena *keep, const tt_site_story *story, const tt_series *s);

#endif
