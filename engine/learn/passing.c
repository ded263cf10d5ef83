/* How often a sign shows while it is there, from looks that differ. */
#include "learn/passing.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static bool is_same(const learn_looked *x, uint32_t count, const double *chance, uint32_t atoms)
{
    return x->count == count &&
           memcmp(x->chance, chance, (size_t)count * atoms * sizeof *chance) == 0;
}

void learn_passing_add(arena *keep, learn_passing *p, const net *n, const component *g, looks all,
                       learn_end end)
{
    const uint32_t atoms = p->row->atoms;
    double chance[LOOKS_MAX * EXPR_STATES_MAX];
    assert(atoms == g->atom_count && all.count <= LOOKS_MAX && atoms <= EXPR_STATES_MAX);
    if (all.count < 2) return;
    for (uint32_t l = 0; l < all.count; l++)
        learn_row_chances(n, g, all.items[l].weights, chance + (size_t)l * atoms);
    learn_looked *x = p->all;
    while (x != NULL && !is_same(x, all.count, chance, atoms)) x = x->next;
    if (x == NULL) {
        double *copy = ARENA_ARRAY(keep, double, (size_t)all.count *atoms);
        memcpy(copy, chance, (size_t)all.count * atoms * sizeof *copy);
        x = ARENA_NEW(keep, learn_looked);
        *x = (learn_looked){.count = all.count, .chance = copy, .next = p->all};
        p->all = x;
    }
    x->times[end]++;
}

/* ---- what looks say ---- */

static double share_inside(const learn_passing *p)
{
    static const double least = 1e-6;
    double sum = 0;
    for (uint32_t a = 0; a < p->row->atoms; a++) sum += p->inside[a] ? p->row->fitted[a] : 0;
    return fmin(fmax(sum, least), 1 - least);
}

/* Chance of what one look said where it showed the sign, or did not. */
static double look_says(const learn_passing *p, const double *chance, bool shown)
{
    double sum = 0, all = 0;
    for (uint32_t a = 0; a < p->row->atoms; a++) {
        if (p->inside[a] != shown) continue;
        sum += p->row->fitted[a] * chance[a];
        all += p->row->fitted[a];
    }
    return all > 0 ? sum / all : 0;
}

typedef struct looked_says {
    double there, gone; /* chance of all looks and that the sign was there, or was not */
    double shown;       /* of the looks, those that showed it if it was there, on the mean */
} looked_says;

static looked_says says_of(const learn_passing *p, const learn_looked *x, double inside, double q)
{
    const double there = inside / q;
    looked_says s = {there, 1 - there, 0};
    for (uint32_t l = 0; l < x->count; l++) {
        const double *chance = x->chance + (size_t)l * p->row->atoms,
                     shown = q * look_says(p, chance, true), hidden = look_says(p, chance, false),
                     either = shown + (1 - q) * hidden;
        s.there *= either;
        s.gone *= hidden;
        if (either > 0) s.shown += shown / either;
    }
    return s;
}

static double times(const learn_looked *x, const learn_weights *w)
{
    double sum = 0;
    for (int e = 0; e < LEARN_ENDS; e++) sum += w->of[e] * x->times[e];
    return sum;
}

typedef struct passing_fit {
    const learn_passing *p;
    const learn_weights *w;
    double inside, spread; /* the product, as learned; q is at least that */
} passing_fit;

static double height_with(const passing_fit *f, double q, double inside)
{
    const double off = (inside - f->inside) / f->spread;
    const learn_passing *p = f->p;
    double sum = 0;
    if (p->strength > 0) {
        sum = p->strength * p->written * log(q);
        if (p->written < 1) sum += p->strength * (1 - p->written) * log1p(-q);
    }
    for (const learn_looked *x = p->all; x != NULL; x = x->next) {
        const looked_says s = says_of(p, x, inside, q);
        sum += times(x, f->w) * log(fmax(s.there + s.gone, 1e-300));
    }
    return sum - off * off / 2;
}

/* With the product that goes best with it. */
static double height_at(const passing_fit *f, double q)
{
    double low = fmax(f->inside - 4 * f->spread, 1e-6),
           high = fmin(f->inside + 4 * f->spread, fmin(q, 1 - 1e-6));
    while (high - low > 1e-7) {
        const double third = (high - low) / 3;
        if (height_with(f, q, low + third) < height_with(f, q, high - third))
            low += third;
        else
            high -= third;
    }
    return height_with(f, q, low + (high - low) / 2);
}

/* ---- the number ---- */

enum { PASSING_NODES = 200 };

static double node_at(const passing_fit *f, int i)
{
    return f->inside + (1 - f->inside) * i / PASSING_NODES;
}

static double peak_between(const passing_fit *f, double low, double high)
{
    while (high - low > 1e-9) {
        const double third = (high - low) / 3;
        if (height_at(f, low + third) < height_at(f, high - third))
            low += third;
        else
            high -= third;
    }
    return low + (high - low) / 2;
}

/* Where the height falls to `least` between one that is higher and one that is not. */
static double crossing(const passing_fit *f, double above, double below, double least)
{
    for (int i = 0; i < 60; i++) {
        const double middle = above + (below - above) / 2;
        if (height_at(f, middle) >= least)
            above = middle;
        else
            below = middle;
    }
    return above;
}

/* The number lies within all that are less likely by no more than chance explains: half of the
 * quantile at 95 % of chi squared with one degree of freedom. */
static void find_peak(const passing_fit *f, learn_passing *p)
{
    static const double reach = 1.920729410347063;
    int best = PASSING_NODES;
    for (int i = PASSING_NODES; i >= 0; i--)
        if (height_at(f, node_at(f, i)) > height_at(f, node_at(f, best))) best = i;
    p->mean = best == PASSING_NODES
                  ? 1
                  : peak_between(f, node_at(f, best > 0 ? best - 1 : 0), node_at(f, best + 1));
    if (height_at(f, 1) >= height_at(f, p->mean)) p->mean = 1;
    const double least = height_at(f, p->mean) - reach;
    int low = best, high = best;
    while (low > 0 && height_at(f, node_at(f, low - 1)) >= least) low--;
    while (high < PASSING_NODES && height_at(f, node_at(f, high + 1)) >= least) high++;
    p->low = low > 0 ? crossing(f, fmin(p->mean, node_at(f, low)), node_at(f, low - 1), least)
                     : f->inside;
    p->high = high < PASSING_NODES
                  ? crossing(f, fmax(p->mean, node_at(f, high)), node_at(f, high + 1), least)
                  : 1;
}

void learn_passing_fit(learn_passing *p, const learn_weights *w, double spread)
{
    const passing_fit f = {p, w, share_inside(p), spread};
    p->mean = p->low = p->high = p->written;
    p->shown = p->of = 0;
    if (p->all == NULL) return;
    find_peak(&f, p);
    for (const learn_looked *x = p->all; x != NULL; x = x->next) {
        const looked_says s = says_of(p, x, f.inside, p->mean);
        const double there = s.there / (s.there + s.gone),
                     cases = x->times[LEARN_CURED] + x->times[LEARN_HANDED_OVER];
        p->of += cases * there * x->count;
        p->shown += cases * there * s.shown;
    }
}
