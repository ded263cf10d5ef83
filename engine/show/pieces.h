/* Pieces of equipment in the order in which people know them. */
#ifndef TT_SHOW_PIECES_H
#define TT_SHOW_PIECES_H

#include "base/arena.h"
#include "telltale.h"

/* `pieces` in a new array: kind by kind, each as they stand at the site, from the first. */
const uint32_t *pieces_in_order(arena *keep, const tt_book *book, const uint32_t *pieces,
                                uint32_t count);

#endif
