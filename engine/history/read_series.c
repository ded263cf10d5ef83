/* What was read at a site, question by question, with what is good and what was done. */
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "history/telling.h"

/* ---- marks ---- */

typedef struct mark_list {
    tt_mark *items;
    uint32_t count, room;
} mark_list;

static int by_moment(const void *left, const void *right)
{
    const tt_mark *a = left, *b = right;
    const int order = THREE_WAY(a->days, b->days);
    return order != 0 ? order : strcmp(a->text, b->text);
}

static void add_mark(telling *t, mark_list *l, tt_mark m)
{
    if (!isfinite(m.days)) return;
    for (uint32_t i = 0; i < l->count; i++)
        if (l->items[i].kind == m.kind && strcmp(l->items[i].text, m.text) == 0 &&
            strcmp(l->items[i].number, m.number) == 0)
            return;
    GROW(t->keep, l->items, l->count, l->room);
    l->items[l->count++] = m;
}

static const char *fix_words(telling *t, const char *name)
{
    tt_fix_plan plan;
    const uint32_t fix = tt_fix_find(t->book, name);
    if (fix == TT_NONE) return telling_copy(t, name);
    telling_check(t, tt_fix_show(t->c, fix, &plan));
    return telling_copy(t, plan.text);
}

/* What was done in a case in which it was read: before the reading, or as what helped. */
static void mark_case(telling *t, mark_list *l, const tt_past_reading *r)
{
    const tt_past_case *c = &t->cases[r->of];
    if (*r->fix != 0)
        add_mark(t, l,
                 (tt_mark){TT_MARK_FIX, r->time, fix_words(t, r->fix), telling_days(r->time),
                           c->number, c->says.person});
    if (*c->fix != 0 && strcmp(c->fix, r->fix) != 0)
        add_mark(t, l,
                 (tt_mark){TT_MARK_FIX, c->says.ended, fix_words(t, c->fix),
                           telling_days(c->says.ended), c->number, c->says.person});
}

/* What the site's file says was found good on a day of which no case is kept. */
static void mark_of_file(telling *t, mark_list *l, const tt_series *s)
{
    if (*s->good_day == 0) return;
    for (uint32_t i = 0; i < l->count; i++)
        if (l->items[i].kind == TT_MARK_SET && strncmp(l->items[i].time, s->good_day, 10) == 0)
            return;
    const char *time = str_printf(t->keep, "%sT00:00:00Z", s->good_day).p;
    add_mark(t, l, (tt_mark){TT_MARK_SET, time, s->good_words, telling_days(time), "", ""});
}

/* ---- points ---- */

static const char *number_words(telling *t, uint32_t question, double number)
{
    const char *words = "";
    telling_check(t, tt_reading_text(t->c, question, number, &words));
    return telling_copy(t, words);
}

static void take_reading(telling *t, uint32_t question, const tt_past_reading *r,
                         point_list *points, mark_list *marks)
{
    double number;
    const tt_past_case *c = &t->cases[r->of];
    if (!telling_is_ok(t, tt_reading_number(t->c, question, r->number, r->unit, &number))) return;
    const tt_point p = {.time = r->time,
                        .words = number_words(t, question, number),
                        .days = telling_days(r->time),
                        .number = number,
                        .after_fix = *r->fix != 0,
                        .of = c->number};
    add_point(t, points, p);
    if (c->says.kind == TT_KIND_RECORD)
        add_mark(t, marks,
                 (tt_mark){TT_MARK_SET, r->time, p.words, p.days, c->number, c->says.person});
    mark_case(t, marks, r);
}

/* ---- how it moved ---- */

typedef struct dated_list {
    tt_dated *items;
    const char **times;
    uint32_t count;
} dated_list;

static void add_dated(dated_list *l, double days, double number, const char *time)
{
    l->items[l->count] = (tt_dated){days, number};
    l->times[l->count++] = time;
}

/* From the day on which it was found good, or from what changed it last. */
static dated_list since_good(telling *t, uint32_t question, const tt_series *s)
{
    dated_list l = {ARENA_ARRAY(t->keep, tt_dated, t->reading_count + 1),
                    ARENA_ARRAY(t->keep, const char *, t->reading_count + 1), 0};
    const double good =
        *s->good_day != 0 ? telling_days(str_printf(t->keep, "%sT00:00:00Z", s->good_day).p) : NAN;
    if (isfinite(good)) add_dated(&l, good, s->good, s->good_day);
    for (uint32_t i = 0; i < t->reading_count; i++) {
        const tt_past_reading *r = &t->readings[i];
        const double days = telling_days(r->time);
        double number;
        if (strcmp(r->question, s->name) != 0 || !isfinite(days)) continue;
        if (isfinite(good) && strncmp(r->time, s->good_day, 10) < 0) continue;
        if (!telling_is_ok(t, tt_reading_number(t->c, question, r->number, r->unit, &number)))
            continue;
        if (tt_past_begins_anew(t->past, r)) l.count = 0;
        add_dated(&l, days, number, r->time);
    }
    return l;
}

static void judge_last(telling *t, uint32_t question, tt_series *s)
{
    const dated_list l = since_good(t, question, s);
    if (!s->has_good || l.count == 0) return;
    const tt_drift d = tt_drift_judge(l.items, l.count, s->good);
    s->beyond = d.beyond;
    s->trend = d.trend;
    s->trend_known = d.known;
    if (d.known && (d.trend == TT_RISING || d.trend == TT_FALLING)) {
        const double size = fabs(d.per_week), step = size > 0 ? pow(10, floor(log10(size)) - 1) : 1;
        s->per_week = number_words(t, question, round(size / step) * step);
    }
    if (d.known && d.trend == TT_JUMP) {
        assert(d.jump > 0 && d.jump < l.count);
        s->jumped_after = str_printf(t->keep, "%.10s", l.times[d.jump - 1]).p;
        s->jumped_before = str_printf(t->keep, "%.10s", l.times[d.jump]).p;
    }
}

/* Each as it was held against the value that is good now, by all that came before it. */
static void judge_points(telling *t, const tt_series *s, tt_point *points)
{
    tt_dated *until = ARENA_ARRAY(t->keep, tt_dated, s->point_count + 1);
    for (uint32_t i = 0; i < s->point_count && s->has_good; i++) {
        until[i] = (tt_dated){points[i].days, points[i].number};
        const bool counts = *s->good_day == 0 || strncmp(points[i].time, s->good_day, 10) >= 0;
        points[i].beyond = counts && tt_drift_judge(until, i + 1, s->good).beyond;
    }
}

/* ---- which ---- */

static void take_good(telling *t, uint32_t question, const tt_question *q, tt_series *s)
{
    tt_walked w;
    s->may_have_good = q->good != TT_NONE || q->of_site;
    if (!s->may_have_good) return;
    telling_check(t, tt_good_look(t->c, question, &w));
    if (!w.has_good) return;
    s->has_good = true;
    s->good = w.good_number;
    s->good_words = telling_copy(t, w.good_text);
    s->good_day = telling_copy(t, w.good_day);
}

static bool is_shown(const tt_question *q, uint32_t points)
{
    const bool regular = *q->round != 0 || q->good != TT_NONE;
    return (q->kind == TT_READING || q->kind == TT_COUNT) && (regular || points > 1);
}

static void tell_question(telling *t, uint32_t question)
{
    tt_question q;
    point_list points = {NULL, 0, 0};
    mark_list marks = {NULL, 0, 0};
    telling_check(t, tt_question_show(t->c, question, &q));
    if (q.gate) return;
    const char *name = telling_copy(t, q.name);
    for (uint32_t i = 0; i < t->reading_count; i++)
        if (strcmp(t->readings[i].question, name) == 0)
            take_reading(t, question, &t->readings[i], &points, &marks);
    telling_check(t, tt_question_show(t->c, question, &q));
    if (!is_shown(&q, points.count)) return;
    tt_series *s = telling_series(t);
    s->name = name;
    s->text = telling_copy(t, q.ask);
    s->unit = telling_copy(t, q.unit);
    take_good(t, question, &q, s);
    s->points = points.items;
    s->point_count = points.count;
    mark_of_file(t, &marks, s);
    SORT(marks.items, marks.count, by_moment);
    s->marks = marks.items;
    s->mark_count = marks.count;
    judge_points(t, s, points.items);
    judge_last(t, question, s);
}

void tell_readings(telling *t)
{
    const uint32_t questions = tt_book_describe(t->book).questions;
    for (uint32_t q = 0; q < questions; q++) tell_question(t, q);
}
