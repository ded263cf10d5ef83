/* How sure it is how often causes come back, once that is found: what each trouble tells of these
 * numbers, of the shares of new troubles and of its site's rate together, as the mean of products
 * of first derivatives (of events in time: Ogata 1978). Rates and shares are not asked for, so
 * their part is taken out. */
#include <string.h>

#include "learn/learn.h"
#include "learn/positive.h"
#include "learn/returns_parts.h"

/* About each number, then about the logarithm of each entry's share, before shares are held to sum
 * to 1. */
typedef struct information {
    const returns_fitting *f;
    uint32_t size;
    double *h;     /* [size][size], its lower triangle */
    double *share; /* [entry] as learned */
    double *tells; /* [number] of one trouble */
    double *at;    /* [size] sum over the troubles of a site of what they tell beside its rate */
    double rate;   /* and of its rate alone */
} information;

static void add_at(information *x, uint32_t i, uint32_t k, double what)
{
    x->h[(size_t)(i > k ? i : k) * x->size + (i > k ? k : i)] += what;
}

static void find_what_it_tells(information *x, const learn_site *s, const learn_trouble *t,
                               double all)
{
    memset(x->tells, 0, x->f->count * sizeof *x->tells);
    for (uint32_t i = 0; i < t->link_count; i++) {
        const learn_cure *c = &s->cures[t->links[i].cure];
        x->tells[c->number] +=
            t->links[i].part * returns_stands(c) *
            return_rate_after(x->f->all[c->number].mean, &t->links[i].past).slope / all;
    }
}

/* Shares sum to 1: that one is larger makes the others smaller. */
static double tells_of_share(const information *x, const learn_trouble *t, uint32_t entry,
                             double anew)
{
    return t->entry == NO_ID ? 0 : anew * ((entry == t->entry ? 1 : 0) - x->share[entry]);
}

static void add_trouble(information *x, learn_site *s, const learn_trouble *t)
{
    const double all = returns_a_day(x->f, s, t), anew = returns_anew(x->f, s, t) / all;
    const uint32_t numbers = x->f->count;
    find_what_it_tells(x, s, t, all);
    x->rate += anew * anew;
    for (uint32_t i = 0; i < x->size; i++) {
        const double one = i < numbers ? x->tells[i] : tells_of_share(x, t, i - numbers, anew);
        x->at[i] += anew * one;
        for (uint32_t k = 0; k <= i && one != 0; k++)
            add_at(x, i, k,
                   one * (k < numbers ? x->tells[k] : tells_of_share(x, t, k - numbers, anew)));
    }
}

static void add_site(information *x, learn_site *s)
{
    memset(x->at, 0, x->size * sizeof *x->at);
    x->rate = 1; /* one more trouble, at the mean rate of all sites */
    returns_forget(s);
    for (uint32_t i = 0; i < s->trouble_count; i++) {
        add_trouble(x, s, &s->troubles[i]);
        returns_part(x->f, s, &s->troubles[i]);
    }
    for (uint32_t i = 0; i < x->size; i++)
        for (uint32_t k = 0; k <= i && x->at[i] != 0; k++)
            add_at(x, i, k, -x->at[i] * x->at[k] / x->rate);
}

static double author_of(const learn_returning *r)
{
    const double left = 1 - r->mean;
    return (r->strength * r->written + r->surely) / (r->mean * r->mean) +
           r->strength * (1 - r->written) / (left * left);
}

/* The shares of the author count as cases; what all of them have together is free. */
static void add_author(information *x)
{
    const uint32_t numbers = x->f->count, entries = x->f->entries;
    for (uint32_t n = 0; n < numbers; n++) add_at(x, n, n, author_of(&x->f->all[n]));
    for (uint32_t i = 0; i < entries; i++) {
        add_at(x, numbers + i, numbers + i, LEARN_SHARES_COUNT * x->share[i]);
        for (uint32_t k = 0; k <= i; k++)
            add_at(x, numbers + i, numbers + k,
                   1.0 / entries - LEARN_SHARES_COUNT * x->share[i] * x->share[k]);
    }
}

static information gather(arena *scratch, const returns_fitting *f, uint32_t entries)
{
    const uint32_t size = f->count + entries;
    information x = {.f = f,
                     .size = size,
                     .h = ARENA_ARRAY(scratch, double, (size_t)size *size),
                     .share = ARENA_ARRAY(scratch, double, f->entries),
                     .tells = ARENA_ARRAY(scratch, double, f->count),
                     .at = ARENA_ARRAY(scratch, double, size)};
    for (uint32_t e = 0; e < f->entries; e++) x.share[e] = f->share[e] * f->changed[e];
    if (entries > 0)
        add_author(&x);
    else
        for (uint32_t n = 0; n < f->count; n++) add_at(&x, n, n, author_of(&f->all[n]));
    for (learn_site *s = f->sites; s != NULL; s = s->next) add_site(&x, s);
    return x;
}

/* What was found is not quite the likeliest, for what earlier troubles were is not judged anew by
 * those behind them. So it moves more than its information says, and varies as much more (the
 * sandwich of Huber 1967). As many cases as the author's count as, over the part by which it
 * follows him, are what it moves like. */
static double worth_of(const learn_returning *r, double variance)
{
    const double told = variance > 0 ? r->mean * (1 - r->mean) / variance : r->strength,
                 moved = r->follows > 0 ? r->strength / r->follows : told;
    return moved < told ? moved * moved / told : told;
}

/* With very many causes their shares are taken as they were found. */
void returns_judge(arena *scratch, const returns_fitting *f)
{
    enum { TOGETHER_MOST = 600 };
    information x = gather(scratch, f, f->count + f->entries <= TOGETHER_MOST ? f->entries : 0);
    double *solved = ARENA_ARRAY(scratch, double, x.size);
    positive_factor(x.h, x.size);
    for (uint32_t n = 0; n < f->count; n++) {
        learn_returning *r = &f->all[n];
        memset(solved, 0, x.size * sizeof *solved);
        solved[n] = 1;
        positive_solve(x.h, x.size, solved);
        r->worth = worth_of(r, solved[n]);
    }
}
