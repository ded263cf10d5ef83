#include "table_twin.h"

#include <assert.h>
#include <math.h>
#include <string.h>

table_counts table_count(arena *keep, const example_table *t, uint32_t added)
{
    uint32_t classes = table_class_count(t);
    assert(classes <= CLASSES_MOST);
    table_counts k = {.of = t, .added = added};
    uint32_t **values = ARENA_ARRAY(keep, uint32_t *, t->column_count);
    uint32_t **known = ARENA_ARRAY(keep, uint32_t *, t->column_count);
    for (uint32_t r = 0; r < t->row_count; r++) k.classes[table_class(t, r)]++;
    for (uint32_t c = 0; c < t->column_count; c++) {
        uint32_t width = t->columns[c].value_count;
        values[c] = ARENA_ARRAY(keep, uint32_t, (size_t)classes * width);
        known[c] = ARENA_ARRAY(keep, uint32_t, classes);
        for (uint32_t r = 0; r < t->row_count; r++) {
            uint32_t value = table_value(t, r, c), class = table_class(t, r);
            if (value == VALUE_MISSING) continue;
            values[c][class * width + value]++;
            known[c][class]++;
        }
    }
    k.values = (const uint32_t *const *)values;
    k.known = (const uint32_t *const *)known;
    return k;
}

static long double exact_rate(const table_counts *k, uint32_t column, uint32_t class,
                              uint32_t value)
{
    uint32_t width = k->of->columns[column].value_count;
    long double seen = k->values[column][class * width + value] + k->added;
    return seen / (k->known[column][class] + k->added * width);
}

double counted_rate(const table_counts *k, uint32_t column, uint32_t class, uint32_t value)
{
    return (double)exact_rate(k, column, class, value);
}

static void divide_by_sum(long double *p, uint32_t count)
{
    long double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += p[i];
    for (uint32_t i = 0; i < count; i++) p[i] /= sum;
}

static void exact_posterior(const table_counts *k, const uint32_t *answers, long double *out)
{
    for (uint32_t class = 0; class < table_class_count(k->of); class ++) {
        out[class] = k->classes[class];
        for (uint32_t c = 0; answers != NULL && c < k->of->column_count; c++)
            if (answers[c] != VALUE_MISSING) out[class] *= exact_rate(k, c, class, answers[c]);
    }
    divide_by_sum(out, table_class_count(k->of));
}

void counted_posterior(const table_counts *k, const uint32_t *answers, double *out)
{
    long double exact[CLASSES_MOST];
    exact_posterior(k, answers, exact);
    for (uint32_t class = 0; class < table_class_count(k->of); class ++)
        out[class] = (double)exact[class];
}

static long double exact_entropy(const long double *p, uint32_t count)
{
    long double bits = 0;
    for (uint32_t i = 0; i < count; i++)
        if (p[i] > 0) bits -= p[i] * log2l(p[i]);
    return bits;
}

double counted_entropy(const double *p, uint32_t count)
{
    long double exact[CLASSES_MOST];
    assert(count <= CLASSES_MOST);
    for (uint32_t i = 0; i < count; i++) exact[i] = p[i];
    return (double)exact_entropy(exact, count);
}

double counted_gain(const table_counts *k, const uint32_t *answers, uint32_t column)
{
    uint32_t classes = table_class_count(k->of);
    long double now[CLASSES_MOST], after[CLASSES_MOST];
    exact_posterior(k, answers, now);
    long double gain = exact_entropy(now, classes);
    for (uint32_t v = 0; v < k->of->columns[column].value_count; v++) {
        long double chance = 0;
        for (uint32_t class = 0; class < classes; class ++)
            chance += after[class] = now[class] * exact_rate(k, column, class, v);
        if (!(chance > 0)) continue;
        divide_by_sum(after, classes);
        gain -= chance * exact_entropy(after, classes);
    }
    return (double)gain;
}
