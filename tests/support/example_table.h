/* Tables of worked examples, one row each: some questions' answers and, in the last column, what it
 * was. Read from the data sets that Debian's package weka carries (ARFF files of named values). */
#ifndef TT_SUPPORT_EXAMPLE_TABLE_H
#define TT_SUPPORT_EXAMPLE_TABLE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

#define VALUE_MISSING UINT32_MAX

typedef struct table_column {
    str name;
    const str *values; /* as declared */
    uint32_t value_count;
} table_column;

typedef struct example_table {
    str name;
    const table_column *columns; /* [column_count + 1]; the last is the class */
    uint32_t column_count;       /* without the class */
    const uint32_t *cells;       /* [row][column]: index of a value, or VALUE_MISSING */
    uint32_t row_count;
} example_table;

/* The file of that name from the package weka, as the system has it or as it was unpacked into
 * .build/weka; where it is in neither the test is skipped. */
example_table table_from_weka(arena *keep, const char *file);
/* For a program of which no test can go without: what to return from main, or 0. */
int skip_all_without_weka(const char *file);

/* The same from a text. */
example_table table_from_arff(arena *keep, str text);

uint32_t table_value(const example_table *t, uint32_t row, uint32_t column);
uint32_t table_class(const example_table *t, uint32_t row);
uint32_t table_class_count(const example_table *t);
uint32_t table_find_column(const example_table *t, const char *name); /* the test fails if none */

/* Without values that no row has, and without columns that then have fewer than two. */
example_table table_trimmed(arena *keep, const example_table *t);
/* The rows with that value in that column. */
example_table table_where(arena *keep, const example_table *t, uint32_t column, uint32_t value);
/* The rows whose number, from 0, leaves that remainder (`inside`), or all the others. */
example_table table_fold(arena *keep, const example_table *t, uint32_t folds, uint32_t remainder,
                         bool inside);

#endif
