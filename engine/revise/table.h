/* Causes × signs, as the author wrote them: what telltale_author.h shows, and where each stands. */
#ifndef TT_REVISE_TABLE_H
#define TT_REVISE_TABLE_H

#include "read/reader.h"
#include "revise/edit_list.h"
#include "session/session.h"

/* A row. One cause may have several: "full" and "full of any filter" are written apart. */
typedef struct table_cause {
    str name;         /* as it stands in `shown-by` */
    const node *body; /* the cause's */
    span often_said;  /* nowhere: left out, or not this row's to say */
    bool whole;       /* the cause itself: its how-often stands in this row */
} table_cause;

typedef struct table_sign {
    str name;
    const node *body; /* null: made by `confirms` */
    span otherwise_said;
} table_sign;

struct tt_table {
    arena *keep, *scratch;
    sources files;
    const tt_source *originals;
    tt_book *book;
    table_cause *causes; /* as the view has them */
    table_sign *signs;
    tt_table_view view;
    tt_report *wrong; /* with the table that was read last */
    edit_list edits;
};

/* table_parts.c. Where the chance of an entry of `shown-by` stands; null: nowhere. */
const node *table_chance(const node *value);
/* By cause, then by sign: the order of all cells. */
int table_by_cell(const void *a, const void *b);
/* The cell, or null. */
const tt_table_cell *table_cell(const tt_table *t, uint32_t cause, uint32_t sign);

/* How the rows begin that are no cause's. */
#define TABLE_SIGN      "(sign)"
#define TABLE_PART      "(part)"
#define TABLE_OTHERWISE "(otherwise)"
#define TABLE_STRONGEST "(strongest, dB)"
enum { TABLE_LEAD = 4 }; /* columns before the signs */
extern const char *const table_lead[TABLE_LEAD];

/* Reads a table that was edited, whose faults go to the list: t->edits. */
void table_read_back(tt_table *t, const sources *file, faults *list);

#endif
