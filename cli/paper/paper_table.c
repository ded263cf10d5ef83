/* A table is gathered before it is written, for only then it is known which columns are empty. */
#include <stdint.h>
#include <stdlib.h>

#include "host/plain_text.h"
#include "paper/paper.h"

void table_add(text_table *table, const piece_of_text *cells)
{
    size_t before = table->row_count * table->column_count;
    table->cells = more_memory(table->cells, (before + table->column_count) * sizeof *table->cells);
    for (size_t i = 0; i < table->column_count; i++)
        table->cells[before + i] =
            (piece_of_text){cells[i].kind, copy_text(cells[i].text), cells[i].share};
    table->row_count++;
}

static bool is_empty(const text_table *table, size_t column)
{
    for (size_t row = 0; row < table->row_count; row++)
        if (*table->cells[row * table->column_count + column].text != 0) return false;
    return true;
}

/* The columns that are left, in their order. */
static size_t find_columns(const text_table *table, size_t *kept)
{
    size_t count = 0;
    for (size_t i = 0; i < table->column_count; i++)
        if (i == 0 || !is_empty(table, i)) kept[count++] = i;
    return count;
}

static void put_columns(const text_table *table, const size_t *kept, size_t count, const paper *p,
                        const char *caption)
{
    const char **columns = take_memory(count * sizeof *columns);
    text_table left = {columns, count, table->row_count, NULL};
    left.cells = take_memory(count * table->row_count * sizeof *left.cells);
    for (size_t i = 0; i < count; i++) columns[i] = table->columns[kept[i]];
    for (size_t i = 0; i < count * table->row_count; i++)
        left.cells[i] = table->cells[i / count * table->column_count + kept[i % count]];
    p->kind->table(p, caption, &left);
    free(left.cells);
    free(columns);
}

static void empty(text_table *table)
{
    for (size_t i = 0; i < table->row_count * table->column_count; i++)
        free((void *)(uintptr_t)table->cells[i].text);
    free(table->cells);
    table->cells = NULL;
    table->row_count = 0;
}

void table_put(text_table *table, const paper *p, const char *caption)
{
    size_t *kept = take_memory(table->column_count * sizeof *kept);
    size_t count = find_columns(table, kept);
    if (table->row_count > 0) put_columns(table, kept, count, p, caption);
    free(kept);
    empty(table);
}
