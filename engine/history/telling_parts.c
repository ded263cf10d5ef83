/* What the parts of a story share. */
#include "history/telling.h"

#include <math.h>

bool telling_is_ok(telling *t, tt_status status)
{
    if (status == TT_NO_MEMORY) arena_leave(t->keep);
    return status == TT_OK;
}

void telling_check(telling *t, tt_status status)
{
    const bool right = telling_is_ok(t, status);
    assert(right);
    (void)right;
}

const char *telling_copy(telling *t, const char *text)
{
    assert(text != NULL);
    return str_copy(t->keep, str_of(text)).p;
}

double telling_days(const char *time)
{
    tt_moment m;
    return tt_moment_read(time, &m) ? (double)m.milliseconds / 86400000 : NAN;
}

tt_series *telling_series(telling *t)
{
    GROW(t->keep, t->series, t->out.series_count, t->series_room);
    tt_series *s = &t->series[t->out.series_count++];
    *s = (tt_series){.name = "",
                     .text = "",
                     .unit = "",
                     .good_words = "",
                     .good_day = "",
                     .per_week = "",
                     .jumped_after = "",
                     .jumped_before = "",
                     .why = ""};
    return s;
}

void add_point(telling *t, point_list *l, tt_point p)
{
    if (!isfinite(p.days)) return;
    assert(isfinite(p.number));
    GROW(t->keep, l->items, l->count, l->room);
    l->items[l->count++] = p;
}
