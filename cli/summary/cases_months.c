#include "summary/cases_months.h"

#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

static int by_place(const month_count *a, const month_count *b)
{
    const int order = strcmp(a->month, b->month);
    return order != 0 ? order : strcmp(a->site, b->site);
}

static int by_cause(const void *x, const void *y)
{
    const month_count *a = x, *b = y;
    const int order = by_place(a, b);
    return order != 0 ? order : strcmp(a->name, b->name);
}

static int by_frequency(const void *x, const void *y)
{
    const month_count *a = x, *b = y;
    const int order = by_place(a, b);
    if (order != 0) return order;
    return a->count != b->count ? (a->count < b->count ? 1 : -1) : strcmp(a->name, b->name);
}

static void take_case(const tt_case_summary *c, month_count *out)
{
    *out = (month_count){.site = c->site,
                         .name = c->cause_name,
                         .text = c->cause,
                         .count = 1,
                         .confirmed = c->confirmed};
    const size_t length = strlen(c->began);
    memcpy(out->month, c->began, length < sizeof out->month - 1 ? length : sizeof out->month - 1);
}

/* Neighbours that are alike become one. */
static size_t join_alike(month_count *items, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        if (kept > 0 && by_cause(&items[kept - 1], &items[i]) == 0) {
            items[kept - 1].count++;
            items[kept - 1].confirmed += items[i].confirmed;
            if (*items[i].text != 0) items[kept - 1].text = items[i].text;
        } else {
            items[kept++] = items[i];
        }
    }
    return kept;
}

month_counts cases_by_month(const case_list *list)
{
    month_counts all = {.items = take_memory((list->count + 1) * sizeof *all.items)};
    for (size_t i = 0; i < list->count; i++)
        if (list->cases[i].says.state == TT_CASE_CLOSED)
            take_case(&list->cases[i].says, &all.items[all.count++]);
    if (all.count > 0) qsort(all.items, all.count, sizeof *all.items, by_cause);
    all.count = join_alike(all.items, all.count);
    if (all.count > 0) qsort(all.items, all.count, sizeof *all.items, by_frequency);
    return all;
}
