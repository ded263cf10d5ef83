/* What the site's cases had said when this one began, kept in the case itself, so that it can be
 * played again without them; and how a reading has moved since it was good. */
#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "talk/talk.h"

enum { READINGS_KEPT = 60, CASES_KEPT = 30 }; /* of each question; of the site */

/* ---- kept with the beginning ---- */

static void put_text(tt_talk *t, value_builder *b, const char *key, const char *text)
{
    if (*text != 0) value_put(b, key, value_of_str(t->keep, str_of(text)));
}

static tt_value reading_value(tt_talk *t, const tt_past_reading *r, double number, bool anew)
{
    value_builder b = value_map(t->keep);
    put_text(t, &b, "time", r->time);
    value_put_number(&b, "number", number);
    if (anew) value_put_bool(&b, "anew", true);
    return value_done(&b);
}

static uint32_t readings_named(const tt_past *p, const char *name)
{
    uint32_t count, fit = 0;
    const tt_past_reading *all = tt_past_readings(p, &count);
    for (uint32_t i = 0; i < count; i++) fit += strcmp(all[i].question, name) == 0;
    return fit;
}

/* The last of them. */
static tt_value readings_of(tt_talk *t, uint32_t question, const char *name)
{
    const tt_past *p = t->options.past;
    uint32_t count, left = readings_named(p, name);
    const tt_past_reading *all = tt_past_readings(p, &count);
    value_builder list = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++) {
        double number;
        if (strcmp(all[i].question, name) != 0 || left-- > READINGS_KEPT) continue;
        if (tt_reading_number(t->c, question, all[i].number, all[i].unit, &number) == TT_OK)
            value_add(&list, reading_value(t, &all[i], number, tt_past_begins_anew(p, &all[i])));
    }
    return value_done(&list);
}

static tt_value case_value(tt_talk *t, const tt_past_case *c)
{
    value_builder b = value_map(t->keep);
    put_text(t, &b, "number", c->number);
    put_text(t, &b, "began", c->says.began);
    put_text(t, &b, "ended", c->says.ended);
    put_text(t, &b, "symptom", c->says.complaint_name);
    put_text(t, &b, "text", c->says.complaint);
    put_text(t, &b, "cause", c->says.cause_name);
    put_text(t, &b, "cause_text", c->says.cause);
    put_text(t, &b, "fix", c->fix);
    put_text(t, &b, "fix_text", c->fix_text);
    put_text(t, &b, "came_back", c->came_back);
    if (*c->says.ended == 0) put_text(t, &b, "by", c->says.person);
    if (c->says.confirmed) value_put_bool(&b, "confirmed", true);
    return value_done(&b);
}

/* What went on in another case is told by that one. */
static bool is_fault(const tt_past_case *c, bool open)
{
    const bool counts = c->says.kind == TT_KIND_FAULT && c->says.state != TT_CASE_ELSEWHERE;
    return counts && (*c->says.ended == 0) == open;
}

/* The last of those that ended, or of those that are open. */
static tt_value cases_value(tt_talk *t, bool open)
{
    uint32_t count, fit = 0;
    const tt_past_case *all = tt_past_cases(t->options.past, &count);
    value_builder list = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++) fit += is_fault(&all[i], open);
    for (uint32_t i = 0; i < count; i++)
        if (is_fault(&all[i], open) && fit-- <= CASES_KEPT)
            value_add(&list, case_value(t, &all[i]));
    return value_done(&list);
}

static tt_value all_readings(tt_talk *t)
{
    const uint32_t count = tt_book_describe(t->book).questions;
    value_builder readings = value_map(t->keep);
    for (uint32_t q = 0; q < count; q++) {
        tt_walked now;
        talk_check(t, tt_good_look(t->c, q, &now));
        if (now.good == TT_NONE || now.good == q) continue;
        const tt_value list = readings_of(t, q, now.name);
        if (list.count > 0) value_put(&readings, str_copy(t->keep, str_of(now.name)).p, list);
    }
    return value_done(&readings);
}

void keep_past(tt_talk *t)
{
    if (t->options.past == NULL) return;
    value_builder b = value_map(t->keep);
    const tt_value readings = all_readings(t), cases = cases_value(t, false),
                   open = cases_value(t, true);
    if (readings.count == 0 && cases.count == 0 && open.count == 0) return;
    value_put(&b, "readings", readings);
    value_put(&b, "cases", cases);
    if (open.count > 0) value_put(&b, "open", open);
    keep_record(t, "past", &b);
}

/* ---- how a reading moved ---- */

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
    if (tt_reading_number(t->c, question, reply->number, reply->unit, &number) != TT_OK) return;
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
