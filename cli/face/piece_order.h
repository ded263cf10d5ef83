/* Pieces of equipment in the order for people. */
#ifndef TT_CLI_PIECE_ORDER_H
#define TT_CLI_PIECE_ORDER_H

#include "telltale.h"

/* All of them by kind, each kind in the order in which the work meets them, as far as the site
 * says. tt_piece_count() indices, freed by the caller. */
uint32_t *pieces_in_order(const tt_book *book);

#endif
