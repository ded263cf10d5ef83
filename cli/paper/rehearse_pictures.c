/* The pictures of a rehearsal. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "paper/rehearse_page.h"

const char *page_percent(arena *keep, double share)
{
    return arena_text(keep, "%.1f %%", 100 * share);
}

/* What rounds to nothing has no sign. */
const char *page_number(arena *keep, double number)
{
    return arena_text(keep, "%.1f", fabs(number) < 0.05 ? 0 : number);
}

static piece_of_text words(const char *text)
{
    return (piece_of_text){.kind = OUR_TEXT, .text = text};
}

/* ---- measures with their uncertainty ---- */

enum { GAUGE_LONGEST = 250, GAUGE_CELLS = 48, GAUGE_LINES = 2, GAUGE_HIGH = 12, GAUGE_GAP = 10 };

static void find_scale(const gauge_shown *all, uint32_t count, double *least, double *most)
{
    *least = 0;
    for (uint32_t i = 0; i < count; i++) {
        *least = fmin(*least, all[i].low);
        *most = fmax(*most, all[i].high);
    }
    if (*most <= *least) *most = *least + 1;
}

static double draw_gauge(drawing *d, const gauge_shown *g, double top, double least, double most)
{
    const double scale = GAUGE_LONGEST / (most - least), zero = (0 - least) * scale,
                 at = (g->value - least) * scale;
    const uint32_t lines = draw_wrapped(d, 0, top + DRAWING_LINE - 4, FROM_START, words(g->text),
                                        GAUGE_CELLS, GAUGE_LINES);
    const double y = top + lines * DRAWING_LINE, middle = y + GAUGE_HIGH / 2.0;
    draw_box(d, "all", 0.5, y + 0.5, GAUGE_LONGEST, GAUGE_HIGH);
    draw_box(d, "bar", 0.5 + fmin(zero, at), y + 0.5, fabs(at - zero), GAUGE_HIGH);
    draw_line(d, "mark", (g->low - least) * scale, middle, (g->high - least) * scale, middle, 2);
    draw_words(d, GAUGE_LONGEST + 8, y + GAUGE_HIGH - 1, FROM_START, words(g->words));
    return y + GAUGE_HIGH + GAUGE_GAP;
}

drawing draw_gauges(arena *keep, const gauge_shown *all, uint32_t count, double full)
{
    drawing d = {.keep = keep};
    double least, most = full;
    find_scale(all, count, &least, &most);
    for (uint32_t i = 0; i < count; i++) d.height = draw_gauge(&d, &all[i], d.height, least, most);
    return d;
}

/* ---- how far chances can be believed ---- */

/* The square in which it is drawn. */
enum { PLOT_LEFT = 44, PLOT_TOP = 8, PLOT_SIZE = 250 };

static double plot_x(double chance)
{
    return PLOT_LEFT + chance * PLOT_SIZE;
}

static double plot_y(double share)
{
    return PLOT_TOP + (1 - share) * PLOT_SIZE;
}

static void draw_frame(drawing *d)
{
    draw_box(d, "all", PLOT_LEFT, PLOT_TOP, PLOT_SIZE, PLOT_SIZE);
    draw_line(d, "axis", plot_x(0), plot_y(0), plot_x(1), plot_y(1), 1);
    for (int i = 0; i <= 100; i += 25) {
        const char *label = arena_text(d->keep, "%d %%", i);
        draw_words(d, PLOT_LEFT - 5, plot_y(i / 100.0) + 4, UP_TO_END, words(label));
        draw_words(d, plot_x(i / 100.0), PLOT_TOP + PLOT_SIZE + 18, AROUND_MIDDLE, words(label));
    }
}

/* A dot for each tenth in which there were calls, the larger the more, with where it would lie 95
 * times in 100. */
drawing draw_calibration(arena *keep, const tt_rehearsed *r)
{
    drawing d = {.keep = keep, .height = PLOT_TOP + PLOT_SIZE + 25};
    double calls = 0;
    draw_frame(&d);
    for (int b = 0; b < 10; b++) calls += (double)r->bins[b].right.of;
    for (int b = 0; b < 10; b++) {
        const tt_calibration *bin = &r->bins[b];
        if (bin->right.of == 0) continue;
        const double x = plot_x(bin->said);
        draw_line(&d, "mark", x, plot_y(bin->right.low), x, plot_y(bin->right.high), 2);
        draw_dot(&d, "bar", x, plot_y(bin->right.share),
                 3 + 7 * sqrt((double)bin->right.of / calls));
    }
    return d;
}

/* ---- what is taken for what ---- */

enum { GRID_LEFT = 138, GRID_CELLS = 20, GRID_LINES = 2, GRID_STEP = 34 };

static uint32_t place_of(const char *name, const char *const *names, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (name == names[i] || (name != NULL && names[i] != NULL && strcmp(name, names[i]) == 0))
            return i;
    return count;
}

static void draw_axes(drawing *d, const char *const *texts, uint32_t count, double step)
{
    for (uint32_t i = 0; i < count; i++) {
        const char *number = arena_text(d->keep, "%u", i + 1);
        const char *row = arena_text(d->keep, "%u. %s", i + 1, texts[i]);
        const double top = DRAWING_LINE + 4 + i * (double)GRID_STEP;
        draw_words(d, GRID_LEFT + (i + 0.5) * step, DRAWING_LINE - 3, AROUND_MIDDLE, words(number));
        draw_wrapped(d, 0, top + DRAWING_LINE - 1, FROM_START, words(row), GRID_CELLS, GRID_LINES);
        for (uint32_t k = 0; k < count; k++)
            draw_box(d, "all", GRID_LEFT + k * step, top, step, GRID_STEP);
        draw_line(d, "axis", GRID_LEFT + i * step, top, GRID_LEFT + (i + 1) * step, top + GRID_STEP,
                  1);
    }
}

drawing draw_grid(arena *keep, const tt_rehearsed *r, const char *const *names,
                  const char *const *texts, uint32_t count)
{
    drawing d = {.keep = keep, .height = DRAWING_LINE + 6 + count * (double)GRID_STEP};
    assert(count > 0);
    const double step = fmin(GRID_STEP, (DRAWING_WIDTH - GRID_LEFT - 2) / (double)count);
    draw_axes(&d, texts, count, step);
    for (uint32_t i = 0; i < r->confused_count; i++) {
        const tt_confused *c = &r->confused[i];
        const uint32_t row = place_of(c->name, names, count),
                       column = place_of(c->blamed_name, names, count);
        if (row == count || column == count) continue;
        draw_dot(&d, "bar", GRID_LEFT + (column + 0.5) * step,
                 DRAWING_LINE + 4 + (row + 0.5) * GRID_STEP,
                 (fmin(step, GRID_STEP) / 2 - 1) * sqrt(c->calls.share));
    }
    return d;
}
