/* Troubles are gathered from cases in any order, and told site by site. */
#include "verb/learn_sites.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "cases/begin_case.h"
#include "host/plain_text.h"

#define DAY 86400000.0 /* milliseconds */

static double day_of(const char *time)
{
    tt_moment moment;
    return tt_moment_read(time, &moment) ? (double)moment.milliseconds / DAY : NAN;
}

/* What it is called tells a site from others also where its file was moved. */
static const char *site_of(const seen_case *c)
{
    const char *title = seen_case_text(c->places.begin, "site_title"),
               *path = value_text(c->places.site, "path");
    if (is_practice_case(&c->places)) return "";
    return *title != 0 || path == NULL ? title : path;
}

/* Gone by a fix, or cured by whoever was called and told what it was. */
static double ended_on(const seen_case *c, const tt_confirmation *cause)
{
    const bool cured = c->says.state == TT_CASE_CLOSED || cause->said == TT_CAUSE_CONFIRMED;
    return cured ? day_of(c->says.ended) : NAN;
}

void site_troubles_add(site_troubles *all, seen_case *c, const tt_confirmation *cause,
                       const char *folder)
{
    const char *site = site_of(c), *name = cause->said == TT_CAUSE_CONFIRMED ? cause->cause : "";
    const double began = day_of(c->says.began);
    tt_helped helped;
    if (*site == 0 || !isfinite(began) || c->says.state == TT_CASE_ELSEWHERE ||
        strcmp(name, "something-not-listed") == 0)
        return;
    must_be_done(tt_journal_helped(c->journal, &helped));
    all->items = room_for_one(all->items, all->count, sizeof *all->items);
    all->items[all->count++] = (site_trouble){.site = copy_text(site),
                                              .folder = copy_text(folder),
                                              .cause = copy_text(name),
                                              .fix = copy_text(helped.fix),
                                              .began = began,
                                              .ended = ended_on(c, cause),
                                              .came_back = *helped.came_back != 0};
}

static int by_site_and_day(const void *a, const void *b)
{
    const site_trouble *x = a, *y = b;
    const int site = strcmp(x->site, y->site);
    if (site != 0) return site;
    if (x->began != y->began) return x->began < y->began ? -1 : 1;
    return strcmp(x->folder, y->folder);
}

void site_troubles_sort(site_troubles *all)
{
    if (all->count > 1) qsort(all->items, all->count, sizeof *all->items, by_site_and_day);
}

size_t site_troubles_end(const site_troubles *all, size_t from)
{
    size_t to = from + 1;
    while (to < all->count && strcmp(all->items[to].site, all->items[from].site) == 0) to++;
    return to;
}

tt_status site_troubles_tell(const site_troubles *all, size_t from, size_t to, tt_learning *l,
                             const tt_book *at, int64_t since)
{
    tt_trouble *told = take_memory((to - from) * sizeof *told);
    for (size_t i = from; i < to; i++) {
        const site_trouble *x = &all->items[i];
        told[i - from] = (tt_trouble){x->cause, x->fix, x->began, x->ended, x->came_back};
    }
    const double day = since == INT64_MIN ? -INFINITY : (double)since / DAY;
    const tt_status status = tt_learning_site(l, at, told, (uint32_t)(to - from), day);
    free(told);
    return status;
}

void site_troubles_free(site_troubles *all)
{
    for (size_t i = 0; i < all->count; i++) {
        site_trouble *x = &all->items[i];
        free(x->site);
        free(x->folder);
        free(x->cause);
        free(x->fix);
    }
    free(all->items);
    *all = (site_troubles){NULL, 0};
}
