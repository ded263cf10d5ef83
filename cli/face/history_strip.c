/* Small lines of a terminal. */
#include "face/history_strip.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/str.h"

enum { HEIGHTS = 8 };
/* Unicode, Block Elements: from one eighth to the whole of a cell. */
static const char *const heights[HEIGHTS] = {"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};

strip_span strip_span_of(const tt_site_story *story, unsigned cells)
{
    strip_span span = {INFINITY, -INFINITY, cells};
    for (uint32_t i = 0; i < story->series_count; i++) {
        const tt_series *s = &story->series[i];
        for (uint32_t k = 0; k < s->point_count; k++) {
            span.from = fmin(span.from, s->points[k].days);
            span.to = fmax(span.to, s->points[k].days);
        }
    }
    if (!(span.from <= span.to)) span.cells = 0;
    return span;
}

/* TT_NONE: outside. */
static unsigned cell_of(const strip_span *span, double days)
{
    if (days < span->from || days > span->to) return TT_NONE;
    const double share = span->to > span->from ? (days - span->from) / (span->to - span->from) : 0;
    const unsigned cell = (unsigned)(share * span->cells);
    return cell < span->cells ? cell : span->cells - 1;
}

series_ends ends_of(const tt_series *s)
{
    assert(s->point_count > 0);
    series_ends ends = {&s->points[0], &s->points[0]};
    for (uint32_t i = 1; i < s->point_count; i++) {
        if (s->points[i].number < ends.low->number) ends.low = &s->points[i];
        if (s->points[i].number > ends.high->number) ends.high = &s->points[i];
    }
    return ends;
}

static const char *box(const series_ends *e, double number)
{
    const double low = e->low->number, high = e->high->number,
                 share = high > low ? (number - low) / (high - low) : 0.5;
    const int height = (int)(share * HEIGHTS);
    assert(height >= 0 && height <= HEIGHTS);
    return heights[height < HEIGHTS ? height : HEIGHTS - 1];
}

/* Of several in one cell the one that lies furthest from what is good, else the last. */
static const char *line_of(arena *keep, const strip_span *span, const tt_series *s,
                           const series_ends *ends)
{
    text_builder b = {.keep = keep};
    for (unsigned cell = 0; cell < span->cells; cell++) {
        const tt_point *shown = NULL;
        for (uint32_t i = 0; i < s->point_count; i++) {
            const tt_point *p = &s->points[i];
            if (cell_of(span, p->days) != cell) continue;
            const bool further = shown == NULL || !s->has_good ||
                                 fabs(p->number - s->good) >= fabs(shown->number - s->good);
            if (further) shown = p;
        }
        text_add(&b, str_of(shown != NULL ? box(ends, shown->number) : " "));
    }
    return text_done(&b).p;
}

static const char *marks_of(arena *keep, const strip_span *span, const tt_series *s)
{
    char *line = ARENA_ARRAY(keep, char, span->cells + 1);
    unsigned end = 0;
    memset(line, ' ', span->cells);
    for (uint32_t i = 0; i < s->point_count; i++) {
        const unsigned cell = s->points[i].beyond ? cell_of(span, s->points[i].days) : TT_NONE;
        if (cell != TT_NONE) line[cell] = '!';
    }
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const unsigned cell = cell_of(span, s->marks[i].days);
        if (cell != TT_NONE) line[cell] = s->marks[i].kind == TT_MARK_FIX ? 'f' : 's';
    }
    for (unsigned i = 0; i < span->cells; i++)
        if (line[i] != ' ') end = i + 1;
    line[end] = 0;
    return line;
}

bool strip_of(arena *keep, const strip_span *span, const tt_series *s, strip *out)
{
    *out = (strip){"", ""};
    if (s->point_count < 2 || span->cells == 0) return false;
    const series_ends ends = ends_of(s);
    out->line = line_of(keep, span, s, &ends);
    out->marks = marks_of(keep, span, s);
    return true;
}
