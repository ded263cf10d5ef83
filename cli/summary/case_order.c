#include "summary/case_order.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

const char *case_order_name(case_order order)
{
    static const char *const names[CASE_ORDERS] = {"listed", "began", "moved",
                                                   "site",   "state", "until"};
    assert(order < CASE_ORDERS);
    return names[order];
}

static int by_beginning(const case_summary *a, const case_summary *b)
{
    const int order = strcmp(a->uuid, b->uuid);
    return order != 0 ? order : strcmp(a->folder, b->folder);
}

static int listed(const void *x, const void *y)
{
    const case_summary *a = x, *b = y;
    const int order = case_is_open(a) - case_is_open(b);
    return order != 0 ? order : by_beginning(a, b);
}

static int began(const void *x, const void *y)
{
    return by_beginning(x, y);
}

static int moved(const void *x, const void *y)
{
    const case_summary *a = x, *b = y;
    const int order =
        (a->says.last_moment > b->says.last_moment) - (a->says.last_moment < b->says.last_moment);
    return order != 0 ? order : by_beginning(a, b);
}

static int by_site(const void *x, const void *y)
{
    const case_summary *a = x, *b = y;
    const int order = strcmp(a->says.site, b->says.site);
    return order != 0 ? order : by_beginning(a, b);
}

static int by_state(const void *x, const void *y)
{
    const case_summary *a = x, *b = y;
    return a->says.state != b->says.state ? (int)a->says.state - (int)b->says.state
                                          : by_beginning(a, b);
}

static int64_t until_of(const case_summary *c)
{
    tt_moment until;
    return tt_moment_read(c->says.until, &until) ? until.milliseconds : INT64_MAX;
}

static int by_until(const void *x, const void *y)
{
    const int64_t a = until_of(x), b = until_of(y);
    return a != b ? (a > b) - (a < b) : by_beginning(x, y);
}

void case_list_sort(case_list *list, case_order order)
{
    static int (*const compare[CASE_ORDERS])(const void *, const void *) = {
        listed, began, moved, by_site, by_state, by_until};
    assert(order < CASE_ORDERS);
    if (list->count > 1) qsort(list->cases, list->count, sizeof *list->cases, compare[order]);
}
