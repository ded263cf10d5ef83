/* Where a case stands, for programs: docs/rank.schema.json. */
#ifndef TT_CLI_RANK_JSON_H
#define TT_CLI_RANK_JSON_H

#include <stdio.h>

#include "host/read_book.h"
#include "telltale.h"

void print_rank_json(FILE *out, const opened_book *book, tt_case *c, const tt_view *view);

#endif
