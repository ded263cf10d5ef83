/* Naive Bayes over a table of examples, written down as plainly as it is defined: counts, products
 * of quotients, nothing in logarithms. A second opinion on the books of table_book.h.
 *
 *     P(value | class) = (count + added) / (count of the class where the value is not missing +
 * added × values) P(class) = count / rows */
#ifndef TT_SUPPORT_TABLE_TWIN_H
#define TT_SUPPORT_TABLE_TWIN_H

#include "example_table.h"

enum { CLASSES_MOST = 32 }; /* at most */

typedef struct table_counts {
    const example_table *of;
    uint32_t added; /* to each count: 1 is Laplace's rule, 0 leaves them as they are */
    uint32_t classes[CLASSES_MOST];
    const uint32_t *const *values; /* [column][class × values + value] */
    const uint32_t *const *known;  /* [column][class] not missing */
} table_counts;
table_counts table_count(arena *keep, const example_table *t, uint32_t added);

/* P(value | class). */
double counted_rate(const table_counts *k, uint32_t column, uint32_t class, uint32_t value);

/* Chance of each class given answers[column] (VALUE_MISSING: not answered; null: none at all). */
void counted_posterior(const table_counts *k, const uint32_t *answers, double *out);

/* Bits that the answer to a column is expected to tell about the class. */
double counted_gain(const table_counts *k, const uint32_t *answers, uint32_t column);

double counted_entropy(const double *p, uint32_t count); /* bits */

#endif
