/* Which findings conditions read. */

#include "base/sorted.h"
#include "compile/facts_parts.h"

static void note_read(void *context, uint32_t finding)
{
    facts_draft *d = context;
    if (d->stamp[finding] == d->stamps) return;
    d->stamp[finding] = d->stamps;
    d->reads[d->read_count++] = finding;
    const expr *applies = d->can_be[finding] ? d->f->applies[finding] : NULL;
    if (applies != NULL) expr_each_finding(applies, note_read, d);
}

/* All that they read, rising, also by way of whether a fact applies; until the next call. */
void facts_find_reads(facts_draft *d, const expr *const *when, uint32_t count)
{
    d->stamps++;
    d->read_count = 0;
    for (uint32_t i = 0; i < count; i++)
        if (when[i] != NULL) expr_each_finding(when[i], note_read, d);
    SORT(d->reads, d->read_count, by_rising_id);
}
