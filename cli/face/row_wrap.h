/* One block as rows that are no wider than the screen. */
#ifndef TT_CLI_ROW_WRAP_H
#define TT_CLI_ROW_WRAP_H

#include "face/page_layout.h"

typedef struct rows {
    row *items;
    uint32_t count, room;
} rows;

void wrap_block(arena *keep, rows *out, const block *b, uint32_t width);
/* The same row so that its end says that something is left out. */
row cut_row(arena *keep, row r, uint32_t width);

#endif
