/* Blocks on pages: wrapped at the width of a screen by display cells, and split so that no page is
 * higher than the screen. What stands at the head is on every page; what is asked and the words of
 * ours are on the last, with as many choices as fit. Pure: no terminal is needed. */
#ifndef TT_CLI_PAGE_LAYOUT_H
#define TT_CLI_PAGE_LAYOUT_H

#include "face/turn_blocks.h"

enum { LEAST_WIDTH = 20, LEAST_HEIGHT = 12 }; /* a smaller screen is drawn as if it were so large */

typedef struct row {
    ink ink;
    str lead, text;     /* the lead of a further row is blank */
    const block *block; /* whose it is; null: an empty row */
    bool runs_on;       /* into the next row, by the terminal's own breaking of lines */
} row;

typedef struct page {
    const row *rows;
    uint32_t count;
} page;

typedef struct pages {
    const page *items;
    uint32_t count; /* at least 1 */
} pages;

/* Each page has at most `height` - 1 rows, those before the last one less: below them stands the
 * line on which is typed, and before it, that there is more. All lives in `keep`. */
pages lay_out(arena *keep, const blocks *all, uint32_t width, uint32_t height);

#endif
