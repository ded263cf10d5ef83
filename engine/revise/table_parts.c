/* What reading the table back and writing it share: cells, chances, and the columns before the
 * signs. */
#include "revise/table.h"

#include "base/sorted.h"

const char *const table_lead[TABLE_LEAD] = {"part", "cause", "text", "how-often"};

int table_by_cell(const void *a, const void *b)
{
    const tt_table_cell *x = a, *y = b;
    return x->cause != y->cause ? THREE_WAY(x->cause, y->cause) : THREE_WAY(x->sign, y->sign);
}

const tt_table_cell *table_cell(const tt_table *t, uint32_t cause, uint32_t sign)
{
    const tt_table_cell *all = t->view.cells, wanted = {.cause = cause, .sign = sign};
    uint32_t at;
    SORTED_PLACE(at, t->view.cell_count, i, table_by_cell(&all[i], &wanted) < 0);
    return at < t->view.cell_count && table_by_cell(&all[at], &wanted) == 0 ? &all[at] : NULL;
}

/* A sign that comes and goes says in how many looks, too. */
const node *table_chance(const node *value)
{
    return value != NULL && value->kind == NODE_MAP ? node_get(value, "chance") : value;
}
