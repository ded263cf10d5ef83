/* Troubles that came more than once, and what had helped before they came the last time. */
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "history/telling.h"

typedef struct returned_list {
    tt_returned *items;
    double *cured; /* [item] when its last cure was */
    uint32_t count;
} returned_list;

static bool is_trouble(const tt_past_case *c)
{
    return c->says.kind == TT_KIND_FAULT && *c->says.complaint_name != 0;
}

static tt_returned *item_for(returned_list *l, const tt_past_case *c)
{
    for (uint32_t i = 0; i < l->count; i++)
        if (strcmp(l->items[i].name, c->says.complaint_name) == 0) return &l->items[i];
    l->cured[l->count] = NAN;
    l->items[l->count] = (tt_returned){.name = c->says.complaint_name,
                                       .text = c->says.complaint,
                                       .first = c->says.began,
                                       .fix = "",
                                       .fix_text = "",
                                       .days = NAN};
    return &l->items[l->count++];
}

/* In the order of their beginnings: what helped in one is what had helped before the next. */
static void take(returned_list *l, const tt_past_case *c, const tt_past_case **before)
{
    tt_returned *r = item_for(l, c);
    const uint32_t at = (uint32_t)(r - l->items);
    r->times++;
    r->last = c->says.began;
    r->said = r->said || *c->came_back != 0;
    if (before[at] != NULL) {
        r->fix = before[at]->fix;
        r->fix_text = before[at]->fix_text;
        r->days = telling_days(c->says.began) - l->cured[at];
    }
    if (*c->fix == 0 || *c->says.ended == 0) return;
    before[at] = c;
    l->cured[at] = telling_days(c->says.ended);
}

static int by_times(const void *left, const void *right)
{
    const tt_returned *a = left, *b = right;
    const int order = THREE_WAY(b->times, a->times);
    return order != 0 ? order : strcmp(a->name, b->name);
}

void tell_returned(telling *t)
{
    const uint32_t most = t->case_count + 1;
    returned_list l = {ARENA_ARRAY(t->keep, tt_returned, most), ARENA_ARRAY(t->keep, double, most),
                       0};
    const tt_past_case **before = ARENA_ARRAY(t->keep, const tt_past_case *, most);
    for (uint32_t i = 0; i < t->case_count; i++)
        if (is_trouble(&t->out.cases[i])) take(&l, &t->out.cases[i], before);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < l.count; i++)
        if (l.items[i].times > 1 || l.items[i].said) l.items[kept++] = l.items[i];
    SORT(l.items, kept, by_times);
    t->out.returned = l.items;
    t->out.returned_count = kept;
}
