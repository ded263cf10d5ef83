/* The pictures of a site over time. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "paper/history_page.h"

static piece_of_text words(const char *text)
{
    return (piece_of_text){.kind = OUR_TEXT, .text = text};
}

/* ---- readings ---- */

/* The field in which they are drawn: what is read stands left of it, days beneath. */
enum { FIELD_LEFT = 92, FIELD_RIGHT = 312, FIELD_TOP = 22, FIELD_HIGH = 120 };

typedef struct field_of {
    double from, to, low, high;
} field_of;

static void take_number(field_of *f, double number)
{
    f->low = fmin(f->low, number);
    f->high = fmax(f->high, number);
}

/* A little room above and beneath, so that no dot lies on the frame. */
static field_of field_for(const tt_site_story *story, const tt_series *s)
{
    field_of f = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (uint32_t i = 0; i < story->series_count; i++)
        for (uint32_t k = 0; k < story->series[i].point_count; k++) {
            f.from = fmin(f.from, story->series[i].points[k].days);
            f.to = fmax(f.to, story->series[i].points[k].days);
        }
    for (uint32_t k = 0; k < s->point_count; k++) take_number(&f, s->points[k].number);
    if (s->has_good) take_number(&f, s->good);
    const double room = f.high > f.low ? 0.08 * (f.high - f.low) : fmax(1, fabs(f.high)) / 10;
    f.low -= room;
    f.high += room;
    if (!(f.to > f.from)) f.to = f.from + 1;
    return f;
}

static double across(const field_of *f, double days)
{
    const double share = (days - f->from) / (f->to - f->from);
    return FIELD_LEFT + 6 + fmin(1, fmax(0, share)) * (FIELD_RIGHT - FIELD_LEFT - 12);
}

static double up(const field_of *f, double number)
{
    return FIELD_TOP + (f->high - number) / (f->high - f->low) * FIELD_HIGH;
}

static void draw_frame(drawing *d, const field_of *f, const tt_series *s)
{
    const tt_point *low = &s->points[0], *high = low, *last = &s->points[s->point_count - 1];
    for (uint32_t i = 0; i < s->point_count; i++) {
        if (s->points[i].number < low->number) low = &s->points[i];
        if (s->points[i].number > high->number) high = &s->points[i];
    }
    draw_box(d, "all", FIELD_LEFT, FIELD_TOP, FIELD_RIGHT - FIELD_LEFT, FIELD_HIGH);
    draw_words(d, FIELD_LEFT - 4, up(f, high->number) + 4, UP_TO_END, words(high->words));
    if (up(f, low->number) - up(f, high->number) >= DRAWING_LINE)
        draw_words(d, FIELD_LEFT - 4, up(f, low->number) + 4, UP_TO_END, words(low->words));
    const double foot = FIELD_TOP + FIELD_HIGH + DRAWING_LINE;
    draw_words(d, FIELD_LEFT, foot, FROM_START,
               words(arena_text(d->keep, "%.10s", s->points[0].time)));
    if (s->point_count > 1)
        draw_words(d, FIELD_RIGHT, foot, UP_TO_END,
                   words(arena_text(d->keep, "%.10s", last->time)));
}

static void draw_marks(drawing *d, const field_of *f, const tt_series *s)
{
    double free_from = 0; /* numbers must not lie on each other */
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const double x = across(f, s->marks[i].days);
        if (s->marks[i].days < f->from || s->marks[i].days > f->to) continue;
        if (s->marks[i].kind == TT_MARK_SET)
            draw_box(d, "bar", x - 4, FIELD_TOP + FIELD_HIGH - 9, 8, 8);
        else
            draw_line(d, "mark", x, FIELD_TOP, x, FIELD_TOP + FIELD_HIGH, 1);
        if (x < free_from) continue;
        draw_words(d, x, FIELD_TOP - 6, AROUND_MIDDLE, words(arena_text(d->keep, "%u", i + 1)));
        free_from = x + 18;
    }
}

drawing draw_series(arena *keep, const tt_site_story *story, const tt_series *s)
{
    drawing d = {.keep = keep, .height = FIELD_TOP + FIELD_HIGH + DRAWING_LINE + 6};
    assert(s->point_count > 0);
    const field_of f = field_for(story, s);
    draw_frame(&d, &f, s);
    if (s->has_good)
        draw_line(&d, "axis", FIELD_LEFT, up(&f, s->good), FIELD_RIGHT, up(&f, s->good), 3);
    draw_marks(&d, &f, s);
    for (uint32_t i = 0; i < s->point_count; i++) {
        const double x = across(&f, s->points[i].days), y = up(&f, s->points[i].number);
        draw_dot(&d, "bar", x, y, 2);
        if (s->points[i].beyond) draw_dot(&d, "mark", x, y, 5);
    }
    return d;
}
