/* Days on which nobody went a round. */
#include "base/sorted.h"
#include "history/telling.h"

static int by_day(const void *left, const void *right)
{
    const int64_t *a = left, *b = right;
    return THREE_WAY(*a, *b);
}

static const char *day_words(telling *t, int64_t day)
{
    const calendar_day d = day_since_1970(day);
    return str_printf(t->keep, "%04d-%02d-%02d", (int)d.year, (int)d.month, (int)d.day).p;
}

/* Those gone to their end. */
static uint32_t round_days(telling *t, int64_t *days)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < t->case_count; i++) {
        tt_moment ended;
        if (t->cases[i].says.kind != TT_KIND_ROUND) continue;
        if (tt_moment_read(t->cases[i].says.ended, &ended)) days[count++] = day_on_the_wall(ended);
    }
    SORT(days, count, by_day);
    return count;
}

/* ---- month by month ---- */

typedef struct month_list {
    tt_gap_month *items;
    text_builder *which; /* of each */
    uint32_t count, room;
    calendar_day last; /* whose month is the last of them */
} month_list;

/* Days of one month, from the first to the last of them. */
static void add_days(telling *t, month_list *l, calendar_day first, uint32_t days)
{
    if (l->count == 0 || l->last.year != first.year || l->last.month != first.month) {
        assert(l->count < l->room);
        l->items[l->count] = (tt_gap_month){
            .month = str_printf(t->keep, "%04d-%02d", (int)first.year, (int)first.month).p};
        l->which[l->count++] = (text_builder){.keep = t->keep};
    }
    l->last = first;
    text_builder *b = &l->which[l->count - 1];
    text_addf(b, "%s%02d", b->length > 0 ? ", " : "", (int)first.day);
    if (days > 1) text_addf(b, "\u2013%02d", (int)first.day + (int)days - 1);
    l->items[l->count - 1].days += days;
}

static uint32_t left_of_month(int64_t day)
{
    const calendar_day d = day_since_1970(day);
    const calendar_day next = {d.month < 12 ? d.year : d.year + 1, (uint8_t)(d.month % 12 + 1), 1};
    return (uint32_t)(days_since_1970(next) - day);
}

static void add_gap(telling *t, month_list *l, int64_t day, uint32_t days)
{
    while (days > 0) {
        const uint32_t left = left_of_month(day), here = days < left ? days : left;
        add_days(t, l, day_since_1970(day), here);
        day += here;
        days -= here;
    }
}

/* Months from the first day to the last, and one more. */
static month_list months_for(telling *t, const int64_t *days, uint32_t count, int64_t today)
{
    const int64_t from = count > 0 ? days[0] : today, to = today > from ? today : from;
    const uint32_t room = (uint32_t)((to - from) / 28) + 2;
    return (month_list){.items = ARENA_ARRAY(t->keep, tt_gap_month, room),
                        .which = ARENA_ARRAY(t->keep, text_builder, room),
                        .room = room};
}

/* Today is not over: it counts once it is. */
void tell_rounds(telling *t)
{
    int64_t *days = ARENA_ARRAY(t->keep, int64_t, t->case_count + 2);
    const uint32_t count = round_days(t, days);
    tt_gap *gaps = ARENA_ARRAY(t->keep, tt_gap, count + 1);
    const int64_t today = day_on_the_wall(t->now);
    month_list months = months_for(t, days, count, today);
    t->out.rounds = count;
    for (uint32_t i = 0; i < count; i++) {
        const int64_t next = i + 1 < count ? days[i + 1] : today;
        if (next - days[i] <= 1) continue;
        const uint32_t without = (uint32_t)(next - days[i] - 1);
        gaps[t->out.gap_count++] =
            (tt_gap){day_words(t, days[i] + 1), day_words(t, next - 1), without};
        add_gap(t, &months, days[i] + 1, without);
        t->out.days_without += without;
    }
    for (uint32_t i = 0; i < months.count; i++)
        months.items[i].which = text_done(&months.which[i]).p;
    t->out.gaps = gaps;
    t->out.gap_months = months.items;
    t->out.gap_month_count = months.count;
    assert(t->out.gap_count <= count);
}
