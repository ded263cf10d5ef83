#include "example_table.h"

#include <assert.h>
#include <stdio.h>
#include <unistd.h>

#include "skips.h"
#include "test_sources.h"
#include "testing.h"

enum { COLUMNS_MOST = 64, VALUES_MOST = 32 };

/* ---- reading ARFF: "@attribute name {a, b}", "@data", then a line a row ---- */

typedef struct lines {
    str rest;
} lines;

/* False at the end. Without comments and empty lines. */
static bool next_line(lines *all, str *line)
{
    while (all->rest.n > 0) {
        size_t end = str_find_byte(all->rest, '\n');
        if (end == SIZE_MAX) end = all->rest.n;
        *line = str_trim(str_slice(all->rest, 0, end));
        bool last = end == all->rest.n;
        all->rest =
            last ? str_slice(all->rest, end, end) : str_slice(all->rest, end + 1, all->rest.n);
        if (line->n > 0 && line->p[0] != '%') return true;
    }
    return false;
}

static bool begins_loosely(str line, const char *word)
{
    for (size_t i = 0; word[i] != '\0'; i++)
        if (i >= line.n || (line.p[i] | 0x20) != (word[i] | 0x20)) return false;
    return true;
}

static str unquoted(str word)
{
    const bool quoted = word.n >= 2 && word.p[0] == '\'' && word.p[word.n - 1] == '\'';
    return quoted ? str_slice(word, 1, word.n - 1) : word;
}

/* Takes what stands before the next comma, trimmed and without quotes. */
static str next_value(str *rest)
{
    size_t comma = str_find_byte(*rest, ',');
    size_t end = comma == SIZE_MAX ? rest->n : comma;
    str value = unquoted(str_trim(str_slice(*rest, 0, end)));
    *rest = comma == SIZE_MAX ? str_slice(*rest, end, end) : str_slice(*rest, end + 1, rest->n);
    return value;
}

static table_column read_column(arena *keep, str line)
{
    size_t open = str_find_byte(line, '{'), close = str_find_byte(line, '}');
    if (open == SIZE_MAX || close == SIZE_MAX || close < open)
        fail_msg("no list of values: %.*s", STR_ARG(line));
    str *values = ARENA_ARRAY(keep, str, VALUES_MOST);
    table_column column = {
        .name = str_copy(keep, unquoted(str_trim(str_slice(line, sizeof "@attribute" - 1, open)))),
        .values = values};
    for (str rest = str_slice(line, open + 1, close); rest.n > 0;) {
        assert_true(column.value_count < VALUES_MOST);
        values[column.value_count++] = str_copy(keep, next_value(&rest));
    }
    return column;
}

static uint32_t value_index(const table_column *column, str value)
{
    if (str_is(value, "?")) return VALUE_MISSING;
    for (uint32_t v = 0; v < column->value_count; v++)
        if (str_eq(column->values[v], value)) return v;
    fail_msg("'%.*s' is no value of %.*s", STR_ARG(value), STR_ARG(column->name));
    return VALUE_MISSING;
}

static void read_row(example_table *t, uint32_t *cells, str line)
{
    for (uint32_t c = 0; c <= t->column_count; c++)
        cells[c] = value_index(&t->columns[c], next_value(&line));
    assert_true(line.n == 0 && cells[t->column_count] != VALUE_MISSING);
}

static uint32_t rows_in(lines all)
{
    uint32_t count = 0;
    for (str line; next_line(&all, &line);) count++;
    return count;
}

example_table table_from_arff(arena *keep, str text)
{
    lines all = {text};
    table_column *columns = ARENA_ARRAY(keep, table_column, COLUMNS_MOST);
    example_table t = {.columns = columns};
    uint32_t count = 0;
    str line;
    while (next_line(&all, &line) && !begins_loosely(line, "@data")) {
        if (begins_loosely(line, "@relation"))
            t.name = str_copy(keep, str_trim(str_slice(line, sizeof "@relation" - 1, line.n)));
        else if (begins_loosely(line, "@attribute") && count < COLUMNS_MOST)
            columns[count++] = read_column(keep, line);
        else
            fail_msg("this is not understood: %.*s", STR_ARG(line));
    }
    assert_true(count >= 2);
    t.column_count = count - 1;
    uint32_t *cells = ARENA_ARRAY(keep, uint32_t, (size_t)rows_in(all) * count);
    for (; next_line(&all, &line); t.row_count++)
        read_row(&t, cells + (size_t)t.row_count * count, line);
    t.cells = cells;
    return t;
}

/* Where the package has been installed or unpacked; without bytes: nowhere. */
static str weka_path(arena *keep, const char *file)
{
    static const char *const folders[] = {"/usr/share/doc/weka/examples",
                                          TT_SOURCE_DIR "/.build/weka/usr/share/doc/weka/examples"};
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        str path = str_printf(keep, "%s/%s", folders[i], file);
        if (access(path.p, R_OK) == 0) return path;
    }
    return STR("");
}

#define WITHOUT_WEKA "the data set %s of Debian's package weka is not here; " BY_EVERYTHING

int skip_all_without_weka(const char *file)
{
    arena *a = test_arena();
    bool there = weka_path(a, file).n > 0;
    arena_free(a);
    return there ? 0 : skip_all_since(WITHOUT_WEKA, file);
}

example_table table_from_weka(arena *keep, const char *file)
{
    str path = weka_path(keep, file);
    if (path.n == 0) skip_since(WITHOUT_WEKA, file);
    return table_from_arff(keep, file_bytes(keep, path.p));
}

/* ---- looking things up ---- */

uint32_t table_value(const example_table *t, uint32_t row, uint32_t column)
{
    assert(row < t->row_count && column <= t->column_count);
    return t->cells[(size_t)row * (t->column_count + 1) + column];
}

uint32_t table_class(const example_table *t, uint32_t row)
{
    return table_value(t, row, t->column_count);
}

uint32_t table_class_count(const example_table *t)
{
    return t->columns[t->column_count].value_count;
}

uint32_t table_find_column(const example_table *t, const char *name)
{
    for (uint32_t c = 0; c <= t->column_count; c++)
        if (str_is(t->columns[c].name, name)) return c;
    fail_msg("no column '%s' in %.*s", name, STR_ARG(t->name));
    return UINT32_MAX;
}

/* ---- parts of a table ---- */

static bool occurs(const example_table *t, uint32_t column, uint32_t value)
{
    for (uint32_t r = 0; r < t->row_count; r++)
        if (table_value(t, r, column) == value) return true;
    return false;
}

/* The column without values that no row has; number[value] is what each is called now. */
static table_column trimmed_column(arena *keep, const example_table *t, uint32_t c,
                                   uint32_t *number)
{
    const table_column *from = &t->columns[c];
    str *values = ARENA_ARRAY(keep, str, from->value_count);
    table_column column = {.name = from->name, .values = values};
    for (uint32_t v = 0; v < from->value_count; v++) {
        if (!occurs(t, c, v)) continue;
        number[v] = column.value_count;
        values[column.value_count++] = from->values[v];
    }
    return column;
}

example_table table_trimmed(arena *keep, const example_table *t)
{
    table_column *columns = ARENA_ARRAY(keep, table_column, t->column_count + 1);
    uint32_t *from = ARENA_ARRAY(keep, uint32_t, t->column_count + 1);
    uint32_t(*number)[VALUES_MOST] = arena_take_array(keep, t->column_count + 1, sizeof *number);
    uint32_t kept = 0;
    for (uint32_t c = 0; c <= t->column_count; c++) {
        table_column column = trimmed_column(keep, t, c, number[kept]);
        if (c < t->column_count && column.value_count < 2) continue;
        from[kept] = c;
        columns[kept++] = column;
    }
    uint32_t *cells = ARENA_ARRAY(keep, uint32_t, (size_t)t->row_count * kept);
    for (uint32_t r = 0; r < t->row_count; r++)
        for (uint32_t k = 0; k < kept; k++) {
            uint32_t value = table_value(t, r, from[k]);
            cells[(size_t)r * kept + k] = value == VALUE_MISSING ? value : number[k][value];
        }
    return (example_table){t->name, columns, kept - 1, cells, t->row_count};
}

static example_table rows_of(arena *keep, const example_table *t, const bool *taken)
{
    uint32_t width = t->column_count + 1, count = 0;
    uint32_t *cells = ARENA_ARRAY(keep, uint32_t, (size_t)t->row_count * width);
    for (uint32_t r = 0; r < t->row_count; r++) {
        if (!taken[r]) continue;
        memcpy(cells + (size_t)count * width, t->cells + (size_t)r * width, width * sizeof *cells);
        count++;
    }
    return (example_table){t->name, t->columns, t->column_count, cells, count};
}

example_table table_where(arena *keep, const example_table *t, uint32_t column, uint32_t value)
{
    bool *taken = ARENA_ARRAY(keep, bool, t->row_count);
    for (uint32_t r = 0; r < t->row_count; r++) taken[r] = table_value(t, r, column) == value;
    return rows_of(keep, t, taken);
}

example_table table_fold(arena *keep, const example_table *t, uint32_t folds, uint32_t remainder,
                         bool inside)
{
    bool *taken = ARENA_ARRAY(keep, bool, t->row_count);
    for (uint32_t r = 0; r < t->row_count; r++) taken[r] = (r % folds == remainder) == inside;
    return rows_of(keep, t, taken);
}
