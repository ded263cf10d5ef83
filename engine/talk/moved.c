/* How a reading has moved since it was good. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "talk/talk.h"

static double days_of(const char *time)
{
    tt_moment m;
    return time != NULL && tt_moment_read(time, &m) ? (double)m.milliseconds / 86400000 : NAN;
}

typedef struct dated_list {
    tt_dated *items;
    const char **times;
    uint32_t count;
} dated_list;

static void add_dated(dated_list *l, const char *time, double number)
{
    const double days = days_of(time);
    if (!isfinite(days)) return;
    l->times[l->count] = time;
    l->items[l->count++] = (tt_dated){days, number};
}

/* From the day on which it was found good; what came before a fix or a record is over. */
static dated_list since_good(tt_talk *t, const tt_walked *now)
{
    const tt_value *past = value_get(value_get(t->past, "readings"), now->name);
    const uint32_t most = (past != NULL ? past->count : 0) + 2;
    dated_list l = {ARENA_ARRAY(t->shown, tt_dated, most),
                    ARENA_ARRAY(t->shown, const char *, most), 0};
    if (*now->good_day != 0)
        add_dated(&l, str_printf(t->shown, "%sT00:00:00Z", now->good_day).p, now->good_number);
    for (uint32_t i = 0; past != NULL && i < past->count; i++) {
        const char *time = value_text(&past->items[i], "time");
        double number;
        if (time == NULL || !value_number(&past->items[i], "number", &number)) continue;
        if (*now->good_day != 0 && strncmp(time, now->good_day, 10) < 0) continue;
        if (value_truth(&past->items[i], "anew")) l.count = 0;
        add_dated(&l, time, number);
    }
    return l;
}

bool talk_moved(tt_talk *t, uint32_t question, double number, const char *time, moved *out)
{
    *out = (moved){.jumped_after = "", .jumped_before = ""};
    talk_check(t, tt_good_look(t->c, question, &out->now));
    if (out->now.good == TT_NONE || out->now.good == question || !out->now.has_good) return false;
    dated_list l = since_good(t, &out->now);
    add_dated(&l, time, number);
    if (l.count == 0) return false;
    out->drift = tt_drift_judge(l.items, l.count, out->now.good_number);
    if (out->drift.trend != TT_JUMP) return true;
    assert(out->drift.jump > 0 && out->drift.jump < l.count);
    out->jumped_after = str_printf(t->shown, "%.10s", l.times[out->drift.jump - 1]).p;
    out->jumped_before = str_printf(t->shown, "%.10s", l.times[out->drift.jump]).p;
    return true;
}

void talk_tell_trend(tt_talk *t, uint32_t question, const tt_reply *reply, const char *time)
{
    moved m;
    double number;
    assert(reply->kind == TT_NUMBER);
    if (t->past == NULL) return;
    if (!talk_is_ok(t, tt_reading_number(t->c, question, reply->number, reply->unit, &number)))
        return;
    if (!talk_moved(t, question, number, time, &m) || !m.drift.known) return;
    talk_check(t, tt_trend_told(t->c, question, m.drift.trend));
}

/* Two digits say how fast; more would claim to be known. */
static const char *roughly(tt_talk *t, uint32_t question, double number)
{
    const char *text = "";
    const double size = fabs(number), step = size > 0 ? pow(10, floor(log10(size)) - 1) : 1;
    talk_check(t, tt_reading_text(t->c, question, round(size / step) * step, &text));
    return text;
}

const char *talk_moved_words(tt_talk *t, const moved *m)
{
    const tt_walked *w = &m->now;
    const char *words = *w->good_day != 0 ? SAY(t, TEXT_GOOD_ON, w->good_text, w->good_day, w->text)
                                          : SAY(t, TEXT_GOOD_HERE, w->good_text, w->text);
    if (m->drift.trend == TT_RISING || m->drift.trend == TT_FALLING)
        return SAY(t, m->drift.trend == TT_RISING ? TEXT_CREPT_UP : TEXT_CREPT_DOWN, words,
                   roughly(t, w->question, m->drift.per_week));
    if (m->drift.trend != TT_JUMP) return words;
    return strncmp(m->jumped_before, t->now, 10) == 0
               ? SAY(t, TEXT_JUMPED_TODAY, words, m->jumped_after)
               : SAY(t, TEXT_JUMPED, words, m->jumped_after, m->jumped_before);
}

void talk_tell_moved(tt_talk *t, uint32_t question)
{
    moved m;
    tt_walked now;
    talk_check(t, tt_good_look(t->c, question, &now));
    if (!now.is_number || !talk_moved(t, question, now.number, t->now, &m)) return;
    if (m.drift.beyond) talk_news(t, TT_PART_DRIFT, "", talk_moved_words(t, &m));
}
