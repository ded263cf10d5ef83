/* How a reading moves: whether the last one is beyond its good value by more than readings scatter
 * here, and whether it crept there or jumped. The sources stand in docs/mathematics.md. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "telltale.h"

enum {
    FEWEST = 4, /* readings by which a line can be told from a step */
    MOST = 256, /* the last so many are looked at */
    LIMIT = 3,  /* scatters, as the limits of a control chart */
};
/* Shares of the good value: what a gauge can't show better, and what is taken while too few
 * readings say how they scatter here. */
static const double finest = 0.02, supposed = 0.05;
/* The median of the distance between two that scatter normally by 1. */
static const double median_of_ranges = 0.953872552417;

const char *tt_trend_name(tt_trend trend)
{
    static const char *const names[TT_TRENDS] = {"steady", "rising", "falling", "jump"};
    assert(trend < TT_TRENDS);
    return names[trend];
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* From one reading to the next, so that neither a slow trend nor one jump makes it large: the
 * median moving range. */
static double scatter_of(const tt_dated *r, uint32_t count, double good)
{
    double ranges[MOST];
    assert(count <= MOST);
    for (uint32_t i = 0; i + 1 < count; i++) ranges[i] = fabs(r[i + 1].number - r[i].number);
    if (count < FEWEST) return supposed * fabs(good);
    const uint32_t n = count - 1;
    qsort(ranges, n, sizeof *ranges, by_size);
    const double median = n % 2 == 1 ? ranges[n / 2] : (ranges[n / 2 - 1] + ranges[n / 2]) / 2;
    return fmax(median / median_of_ranges, finest * fabs(good));
}

/* The least squares of a stretch about its own mean. */
static double about_mean(const tt_dated *r, uint32_t from, uint32_t to)
{
    double sum = 0, squares = 0;
    assert(from < to);
    for (uint32_t i = from; i < to; i++) sum += r[i].number;
    const double mean = sum / (to - from);
    for (uint32_t i = from; i < to; i++) squares += (r[i].number - mean) * (r[i].number - mean);
    return squares;
}

typedef struct line {
    double slope, squares;
} line;

static line best_line(const tt_dated *r, uint32_t count)
{
    double days = 0, numbers = 0, both = 0, along = 0;
    for (uint32_t i = 0; i < count; i++) {
        days += r[i].days / count;
        numbers += r[i].number / count;
    }
    for (uint32_t i = 0; i < count; i++) {
        both += (r[i].days - days) * (r[i].number - numbers);
        along += (r[i].days - days) * (r[i].days - days);
    }
    line l = {.slope = along > 0 ? both / along : 0};
    for (uint32_t i = 0; i < count; i++) {
        const double off = r[i].number - numbers - l.slope * (r[i].days - days);
        l.squares += off * off;
    }
    return l;
}

typedef struct jump {
    uint32_t at; /* the first reading after it */
    double squares;
} jump;

static jump best_jump(const tt_dated *r, uint32_t count)
{
    jump best = {.at = 0, .squares = INFINITY};
    assert(count >= 2);
    for (uint32_t at = 1; at < count; at++) {
        const double squares = about_mean(r, 0, at) + about_mean(r, at, count);
        if (squares < best.squares) best = (jump){at, squares};
    }
    return best;
}

/* Schwarz's criterion, with the scatter known: a line has two numbers, a jump two levels and the
 * place between them. */
static void tell_apart(const tt_dated *r, uint32_t count, double good, tt_drift *d)
{
    const line l = best_line(r, count);
    const jump j = best_jump(r, count);
    const double variance = d->scatter * d->scatter, per_number = log(count);
    const bool leads_away = l.slope * (r[count - 1].number - good) > 0,
               crept =
                   l.squares / variance + 2 * per_number < j.squares / variance + 3 * per_number;
    d->known = true;
    if (leads_away && crept) {
        d->trend = l.slope > 0 ? TT_RISING : TT_FALLING;
        d->per_week = 7 * l.slope;
        return;
    }
    d->trend = TT_JUMP;
    d->jump = j.at;
}

tt_drift tt_drift_judge(const tt_dated *readings, uint32_t count, double good)
{
    assert(count == 0 || readings != NULL);
    const uint32_t left = count > MOST ? count - MOST : 0;
    const tt_dated *r = count > 0 ? readings + left : readings;
    tt_drift d = {.trend = TT_STEADY};
    count -= left;
    d.scatter = scatter_of(r, count, good);
    d.beyond = count > 0 && fabs(r[count - 1].number - good) > LIMIT * d.scatter;
    d.known = !d.beyond && count >= FEWEST;
    if (d.beyond && count >= FEWEST && d.scatter > 0) tell_apart(r, count, good, &d);
    if (d.trend == TT_JUMP) d.jump += left;
    return d;
}
