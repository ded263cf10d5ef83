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

/* Today is not over: it counts once it is. */
void tell_rounds(telling *t)
{
    int64_t *days = ARENA_ARRAY(t->keep, int64_t, t->case_count + 2);
    const uint32_t count = round_days(t, days);
    tt_gap *gaps = ARENA_ARRAY(t->keep, tt_gap, count + 1);
    const int64_t today = day_on_the_wall(t->now);
    t->out.rounds = count;
    for (uint32_t i = 0; i < count; i++) {
        const int64_t next = i + 1 < count ? days[i + 1] : today;
        if (next - days[i] <= 1) continue;
        const uint32_t without = (uint32_t)(next - days[i] - 1);
        gaps[t->out.gap_count++] =
            (tt_gap){day_words(t, days[i] + 1), day_words(t, next - 1), without};
        t->out.days_without += without;
    }
    t->out.gaps = gaps;
    assert(t->out.gap_count <= count);
}
