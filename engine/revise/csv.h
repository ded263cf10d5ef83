/* Tables as spreadsheets read and write them: RFC 4180, and what else they make of it. */
#ifndef TT_REVISE_CSV_H
#define TT_REVISE_CSV_H

#include "base/faults.h"
#include "base/source.h"

typedef struct csv_cell {
    str text; /* without its quotes, and without blanks round it */
    span at;
} csv_cell;

typedef struct csv_row {
    const csv_cell *cells;
    uint32_t count;
} csv_row;

typedef struct csv {
    const csv_row *rows; /* empty lines are left out */
    uint32_t count;
} csv;

enum { CSV_CELLS_MAX = 4000000 };

/* The only file of `all`. A byte-order mark is passed over; cells are parted by comma, semicolon or
 * tab, whichever comes first in the first line outside quotes. False: a fault was added. */
bool csv_read(arena *keep, const sources *all, faults *list, csv *out);

/* One cell, in quotes where it has to be; `first`: of its row. */
void csv_add(text_builder *out, str cell, bool first);
/* The end of a row. */
void csv_end_row(text_builder *out);

#endif
