/* The pictures of a site over time. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/moment.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "paper/history_page.h"

static piece_of_text words(const char *text)
{
    return (piece_of_text){.kind = OUR_TEXT, .text = text};
}

/* ---- the field ---- */

/* In which readings are drawn: what is read stands left of it, days beneath, numbers of what was
 * done above, in as many rows as they need. */
enum {
    FIELD_RIGHT = 312,
    FIELD_HIGH = 110,
    LETTER = 8, /* about as wide as a letter is */
    NUMBER_HIGH = 13,
    NUMBER_ROWS = 4,
    TICK = 4
};

typedef struct field_of {
    double left, top;
    double from, to, low, high;
    const tt_point *first, *last; /* of all of the site */
    const tt_point *lowest, *highest;
} field_of;

static void take_number(field_of *f, double number)
{
    f->low = fmin(f->low, number);
    f->high = fmax(f->high, number);
}

static void find_days(field_of *f, const tt_site_story *story)
{
    for (uint32_t i = 0; i < story->series_count; i++)
        for (uint32_t k = 0; k < story->series[i].point_count; k++) {
            const tt_point *p = &story->series[i].points[k];
            if (f->first == NULL || p->days < f->first->days) f->first = p;
            if (f->last == NULL || p->days > f->last->days) f->last = p;
        }
    f->from = f->first->days;
    f->to = f->last->days > f->from ? f->last->days : f->from + 1;
}

/* A little room above and beneath, so that no dot lies on the frame. */
static void find_numbers(field_of *f, const tt_series *s)
{
    f->lowest = f->highest = &s->points[0];
    for (uint32_t i = 0; i < s->point_count; i++) {
        if (s->points[i].number < f->lowest->number) f->lowest = &s->points[i];
        if (s->points[i].number > f->highest->number) f->highest = &s->points[i];
    }
    take_number(f, f->lowest->number);
    take_number(f, f->highest->number);
    if (s->has_good) take_number(f, s->good);
    const double room = f->high > f->low ? 0.08 * (f->high - f->low) : fmax(1, fabs(f->high)) / 10;
    f->low -= room;
    f->high += room;
}

static double wider(double widest, const char *text)
{
    return fmax(widest, LETTER * (double)display_width(text, strlen(text)) + 8);
}

/* The same for all, so that one day lies beneath another. */
static double left_for(const tt_site_story *story)
{
    double left = 0;
    for (uint32_t i = 0; i < story->series_count; i++) {
        const tt_series *s = &story->series[i];
        field_of f = {.low = 0};
        if (s->point_count == 0) continue;
        find_numbers(&f, s);
        left = wider(wider(left, f.lowest->words), f.highest->words);
        if (s->has_good) left = wider(left, s->good_words);
    }
    return fmin(left, FIELD_RIGHT / 2);
}

static field_of field_for(const tt_site_story *story, const tt_series *s)
{
    field_of f = {.low = INFINITY, .high = -INFINITY};
    assert(s->point_count > 0);
    find_days(&f, story);
    find_numbers(&f, s);
    f.left = left_for(story);
    return f;
}

static double across(const field_of *f, double days)
{
    const double share = (days - f->from) / (f->to - f->from);
    return f->left + 6 + fmin(1, fmax(0, share)) * (FIELD_RIGHT - f->left - 12);
}

static double up(const field_of *f, double number)
{
    return f->top + (f->high - number) / (f->high - f->low) * FIELD_HIGH;
}

/* ---- its frame ---- */

static void draw_level(drawing *d, const field_of *f, double number, const char *text)
{
    draw_words(d, f->left - 4, up(f, number) + 4, UP_TO_END, words(text));
}

static bool has_room(const field_of *f, double number, double beside)
{
    return fabs(up(f, number) - up(f, beside)) >= DRAWING_LINE;
}

static void draw_levels(drawing *d, const field_of *f, const tt_series *s)
{
    const double high = f->highest->number, low = f->lowest->number;
    draw_level(d, f, high, f->highest->words);
    if (has_room(f, low, high)) draw_level(d, f, low, f->lowest->words);
    if (s->has_good && has_room(f, s->good, high) && has_room(f, s->good, low))
        draw_level(d, f, s->good, s->good_words);
}

/* Where a month begins; where they would be a fence, where a year does. */
static void draw_ticks(drawing *d, const field_of *f)
{
    const double months_most = 48 * 31.0, foot = f->top + FIELD_HIGH;
    const bool years = f->to - f->from > months_most;
    calendar_day at = day_since_1970((int64_t)floor(f->from));
    at.day = 1;
    if (years) at.month = 1;
    for (;;) {
        const double days = (double)days_since_1970(at);
        if (days > f->to) break;
        if (days > f->from)
            draw_line(d, "axis", across(f, days), foot, across(f, days), foot + TICK, 1);
        at.year += years || at.month == 12;
        at.month = years ? 1 : (uint8_t)(at.month % 12 + 1);
    }
}

static void draw_frame(drawing *d, const field_of *f, const tt_series *s)
{
    const double foot = f->top + FIELD_HIGH + TICK + DRAWING_LINE;
    draw_box(d, "all", f->left, f->top, FIELD_RIGHT - f->left, FIELD_HIGH);
    draw_levels(d, f, s);
    draw_ticks(d, f);
    draw_words(d, f->left, foot, FROM_START, words(arena_text(d->keep, "%.10s", f->first->time)));
    if (f->last != f->first)
        draw_words(d, FIELD_RIGHT, foot, UP_TO_END,
                   words(arena_text(d->keep, "%.10s", f->last->time)));
}

/* ---- what is good, and what was done ---- */

static double good_since(const field_of *f, const tt_series *s)
{
    double since = f->from;
    for (uint32_t i = 0; i < s->mark_count && *s->good_day != 0; i++)
        if (s->marks[i].kind == TT_MARK_SET && strncmp(s->marks[i].time, s->good_day, 10) == 0)
            since = s->marks[i].days;
    return since;
}

/* From the day on which it was found good; what was good before nothing says. */
static void draw_good(drawing *d, const field_of *f, const tt_series *s)
{
    const double since = good_since(f, s), from = since > f->from ? across(f, since) : f->left;
    draw_line(d, "level", from, up(f, s->good), FIELD_RIGHT, up(f, s->good), 1.5);
}

typedef struct numbered {
    uint32_t row; /* from the field upwards; NUMBER_ROWS: no room */
    double x;
} numbered;

/* Numbers must not lie on each other: the lowest row that is free there. How many it takes. */
static uint32_t place_numbers(const field_of *f, const tt_series *s, numbered *out)
{
    double free_from[NUMBER_ROWS] = {0};
    uint32_t rows = 0;
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const double half = LETTER * (i < 9 ? 0.5 : i < 99 ? 1 : 1.5) + 1;
        uint32_t row = 0;
        out[i] = (numbered){NUMBER_ROWS, across(f, s->marks[i].days)};
        if (s->marks[i].days < f->from || s->marks[i].days > f->to) continue;
        while (row < NUMBER_ROWS && out[i].x - half < free_from[row]) row++;
        out[i].row = row;
        if (row == NUMBER_ROWS) continue;
        free_from[row] = out[i].x + half;
        if (row + 1 > rows) rows = row + 1;
    }
    return rows;
}

static void draw_mark(drawing *d, const field_of *f, const tt_mark *m, uint32_t number,
                      const numbered *at)
{
    const double foot = f->top + FIELD_HIGH, above = f->top - NUMBER_HIGH * (double)at->row;
    if (m->days < f->from || m->days > f->to) return;
    draw_line(d, m->kind == TT_MARK_SET ? "level" : "mark", at->x,
              at->row < NUMBER_ROWS ? above : f->top, at->x, foot, 1);
    if (m->kind == TT_MARK_SET) draw_box(d, "bar", at->x - 4, foot - 8, 8, 8);
    if (at->row < NUMBER_ROWS)
        draw_words(d, at->x, above - 2, AROUND_MIDDLE, words(arena_text(d->keep, "%u", number)));
}

/* ---- the whole ---- */

drawing draw_series(arena *keep, const tt_site_story *story, const tt_series *s)
{
    drawing d = {.keep = keep, .look = "course"};
    field_of f = field_for(story, s);
    numbered *numbers = ARENA_ARRAY(keep, numbered, s->mark_count + 1);
    f.top = 8 + NUMBER_HIGH * (double)place_numbers(&f, s, numbers);
    d.height = f.top + FIELD_HIGH + TICK + DRAWING_LINE + 6;
    draw_frame(&d, &f, s);
    if (s->has_good) draw_good(&d, &f, s);
    for (uint32_t i = 0; i < s->mark_count; i++)
        draw_mark(&d, &f, &s->marks[i], i + 1, &numbers[i]);
    for (uint32_t i = 0; i < s->point_count; i++) {
        const double x = across(&f, s->points[i].days), y = up(&f, s->points[i].number);
        if (s->points[i].beyond)
            draw_dot(&d, "mark", x, y, 3);
        else
            draw_dot(&d, "bar", x, y, 1.6);
    }
    return d;
}
