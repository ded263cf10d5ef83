/* What the parts of journal_read share: each finds one thing out, in this order. */
#ifndef TT_JOURNAL_PARTS_H
#define TT_JOURNAL_PARTS_H

#include "journal/journal.h"

/* How far one writer had read another. */
typedef struct seen_mark {
    uint32_t writer;
    uint64_t number;
} seen_mark;

void journal_order(journal *j, const tt_record *records, uint32_t count); /* order.c */
void journal_skip(journal *j);                                            /* what_counts.c */
void journal_people(journal *j);                                          /* people.c */
void journal_stand(journal *j);                                           /* standing.c */

/* entry.c. A sitting that is more than a pause counts as coming, as `begin` and `resume` do. */
bool entry_comes(const journal *j, uint32_t entry);
/* It opens a closed case again. */
bool entry_moves(const journal *j, uint32_t entry);
bool entry_says(const journal *j, uint32_t entry, const char *key, const char *text);

/* Of two numbers: below 0, 0, above 0. */
static inline int compare_numbers(uint64_t a, uint64_t b)
{
    return (a > b) - (a < b);
}

#endif
