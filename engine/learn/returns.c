/* Chances of coming back, and the rate at which troubles come anew at each site. */
#include <math.h>
#include <string.h>

#include "learn/learn.h"
#include "learn/returns_parts.h"

static void expect(const returns_fitting *f)
{
    memset(f->anew, 0, f->entries * sizeof *f->anew);
    for (uint32_t n = 0; n < f->count; n++) {
        learn_returning *r = &f->all[n];
        r->back = r->surely;
        r->wanted = r->strength * r->written + r->surely;
    }
    for (learn_site *s = f->sites; s != NULL; s = s->next) {
        s->anew = 0;
        returns_forget(s);
        for (uint32_t i = 0; i < s->trouble_count; i++) returns_part(f, s, &s->troubles[i]);
        for (uint32_t i = 0; i < s->cure_count; i++) {
            learn_cure *c = &s->cures[i];
            learn_returning *r = &f->all[c->number];
            returns_wait(f, c, &c->past);
            r->back += c->back;
            r->wanted +=
                c->back + c->over_later + returns_stands(c) * return_later(r->mean, &c->past);
        }
    }
}

/* What comes back is no sign that a cause is common. */
static void find_shares(const returns_fitting *f)
{
    double sum = LEARN_SHARES_COUNT;
    for (uint32_t e = 0; e < f->entries; e++) sum += f->anew[e];
    for (uint32_t e = 0; e < f->entries; e++)
        f->changed[e] = (LEARN_SHARES_COUNT + f->anew[e] / f->share[e]) / sum;
}

/* A site of few troubles is taken to be like the others: as if one more had come at their mean
 * rate. */
static void find_rates(learn_site *sites)
{
    double anew = 0, days = 0;
    for (const learn_site *s = sites; s != NULL; s = s->next) {
        anew += s->anew;
        days += s->days;
    }
    if (anew <= 0 || days <= 0) return;
    for (learn_site *s = sites; s != NULL; s = s->next)
        s->rate = (s->anew + 1) / (s->days + days / anew);
}

static double step(const returns_fitting *f)
{
    double moved = 0;
    expect(f);
    find_rates(f->sites);
    find_shares(f);
    for (uint32_t n = 0; n < f->count; n++) {
        learn_returning *r = &f->all[n];
        const double now = r->wanted / (r->strength + r->surely + r->cures);
        moved = fmax(moved, fabs(now - r->mean));
        r->mean = now;
    }
    return moved;
}

static void begin(const returns_fitting *f)
{
    static const double least = 1e-6; /* what the author says can't be, no case could teach */
    for (uint32_t n = 0; n < f->count; n++) {
        learn_returning *r = &f->all[n];
        r->written = r->mean = fmin(fmax(r->written, least), 1 - least);
    }
    for (uint32_t e = 0; e < f->entries; e++) f->changed[e] = 1;
    for (learn_site *s = f->sites; s != NULL; s = s->next)
        s->rate = (s->trouble_count + 1) / (s->days + RETURNS_HALF_DAYS);
}

/* ---- steps further than one ---- */

/* Where it stands, without bounds: chances by their log odds, rates and what shares are changed by
 * as logarithms. */
static void stand_at(const returns_fitting *f, double *at)
{
    for (uint32_t n = 0; n < f->count; n++) *at++ = log(f->all[n].mean / (1 - f->all[n].mean));
    for (const learn_site *s = f->sites; s != NULL; s = s->next) *at++ = log(s->rate);
    for (uint32_t e = 0; e < f->entries; e++) *at++ = log(f->changed[e]);
}

static void go_to(const returns_fitting *f, const double *at)
{
    for (uint32_t n = 0; n < f->count; n++) f->all[n].mean = 1 / (1 + exp(-*at++));
    for (learn_site *s = f->sites; s != NULL; s = s->next) s->rate = exp(*at++);
    for (uint32_t e = 0; e < f->entries; e++) f->changed[e] = exp(*at++);
}

/* Three places in a row, and how long the first step was. */
typedef struct path {
    double *from, *then, *now;
    uint32_t size;
    double stride;
} path;

static double stride_of(const path *p)
{
    double sum = 0;
    for (uint32_t i = 0; i < p->size; i++)
        sum += (p->then[i] - p->from[i]) * (p->then[i] - p->from[i]);
    return sqrt(sum);
}

/* As far along the path as its bend tells (Varadhan and Roland 2008, steplength S3); never less
 * than the two steps that it has. */
static void look_ahead(path *p)
{
    double bend = 0;
    for (uint32_t i = 0; i < p->size; i++) {
        const double b = p->now[i] - 2 * p->then[i] + p->from[i];
        bend += b * b;
    }
    const double along = bend > 0 ? fmax(1, p->stride / sqrt(bend)) : 1;
    for (uint32_t i = 0; i < p->size; i++) {
        const double r = p->then[i] - p->from[i], b = p->now[i] - p->then[i] - r;
        p->from[i] += 2 * along * r + along * along * b;
    }
}

/* Where many troubles tell little of what they were, a step goes a hundredth of the way, and there
 * are many to go. Two steps tell where they lead; if it turns out to be further off, they are gone
 * alone. */
static void settle(const returns_fitting *f, path *p, double enough)
{
    enum { ROUNDS_MOST = 2500 };
    double before = INFINITY;
    stand_at(f, p->now);
    for (int i = 0; i < ROUNDS_MOST; i++) {
        stand_at(f, p->from);
        double moved = step(f);
        stand_at(f, p->then);
        p->stride = stride_of(p);
        if (!(p->stride <= before)) {
            go_to(f, p->now);
            before = INFINITY;
            continue;
        }
        moved = fmax(moved, step(f));
        if (moved <= enough) return;
        stand_at(f, p->now);
        before = p->stride;
        look_ahead(p);
        go_to(f, p->from);
    }
}

/* The less the cases say, the more it follows the author's; all the way if there are none. */
static double follows(const returns_fitting *f, path *p, learn_returning *r)
{
    static const double enough = 1e-9;
    const double written = r->written, aside = written * (1 - written) / 20;
    if (r->cures == 0 && r->surely <= 0) return 1;
    r->written = written - aside;
    settle(f, p, enough);
    const double below = r->mean;
    r->written = written + aside;
    settle(f, p, enough);
    r->written = written;
    return (r->mean - below) / (2 * aside);
}

void learn_returns_fit(arena *scratch, learn_returning *all, uint32_t count, learn_site *sites,
                       const double *share, uint32_t entries)
{
    const returns_fitting f = {all,
                               count,
                               sites,
                               share,
                               ARENA_ARRAY(scratch, double, entries),
                               ARENA_ARRAY(scratch, double, entries),
                               entries};
    uint32_t size = count + entries;
    for (const learn_site *s = sites; s != NULL; s = s->next) size++;
    path p = {ARENA_ARRAY(scratch, double, size), ARENA_ARRAY(scratch, double, size),
              ARENA_ARRAY(scratch, double, size), size, 0};
    returns_lay_out(sites);
    begin(&f);
    settle(&f, &p, 1e-9);
    for (uint32_t n = 0; n < count; n++) all[n].follows = follows(&f, &p, &all[n]);
    settle(&f, &p, 1e-13);
    returns_judge(scratch, &f);
}
