/* When a trouble comes back, and parting one among what it may be. */
#include <math.h>

#include "learn/returns_parts.h"

static learn_past past_of(double days)
{
    return (learn_past){.gone = -expm1(-A_DAY * days), .left = exp(-A_DAY * days)};
}

void returns_lay_out(learn_site *sites)
{
    for (learn_site *s = sites; s != NULL; s = s->next) {
        for (uint32_t i = 0; i < s->cure_count; i++) s->cures[i].past = past_of(s->cures[i].days);
        for (uint32_t i = 0; i < s->trouble_count; i++) {
            learn_trouble *t = &s->troubles[i];
            for (uint32_t k = 0; k < t->link_count; k++)
                t->links[k].past = past_of(t->links[k].days);
            for (uint32_t k = 0; k < t->maybe_count; k++)
                t->maybes[k].past = past_of(t->maybes[k].days);
        }
    }
}

/* That it has not come back by then. */
static double holds(double chance, double gone)
{
    return 1 - chance * gone;
}

return_rate return_rate_after(double chance, const learn_past *past)
{
    const double still = holds(chance, past->gone);
    return (return_rate){.a_day = chance * A_DAY * past->left / still,
                         .slope = A_DAY * past->left / (still * still)};
}

double return_later(double chance, const learn_past *past)
{
    return chance * past->left / holds(chance, past->gone);
}

double returns_stands(const learn_cure *c)
{
    return 1 - c->back - c->over;
}

void returns_forget(learn_site *s)
{
    for (uint32_t i = 0; i < s->cure_count; i++) {
        learn_cure *c = &s->cures[i];
        c->back = c->over = c->over_later = c->noted = 0;
    }
}

void returns_wait(const returns_fitting *f, learn_cure *c, const learn_past *past)
{
    const double chance = f->all[c->number].mean,
                 quiet = holds(chance, past->gone) / holds(chance, c->noted),
                 all = returns_stands(c) * quiet + c->back + c->over;
    c->back /= all;
    c->over /= all;
    c->over_later /= all;
    c->noted = past->gone;
}

static double share_of(const returns_fitting *f, uint32_t entry, double share)
{
    return entry == NO_ID ? share : fmin(1, share * f->changed[entry]);
}

double returns_anew(const returns_fitting *f, const learn_site *s, const learn_trouble *t)
{
    return s->rate * share_of(f, t->entry, t->share);
}

static double comes_of(const returns_fitting *f, const learn_site *s, const learn_link *x)
{
    const learn_cure *c = &s->cures[x->cure];
    return x->part * returns_stands(c) * return_rate_after(f->all[c->number].mean, &x->past).a_day;
}

/* That it was this cause, anew or again. (By way of what brings that on it hardly ever was.) */
static double was(const returns_fitting *f, const learn_site *s, const learn_maybe *m)
{
    const learn_trouble *t = &s->troubles[m->trouble];
    const double again = m->link != NO_ID ? m->same * t->links[m->link].again : 0;
    return fmin(1, t->anew * share_of(f, m->entry, m->share) + again);
}

/* Since the last that was this cause for certain; the later ones would have cured it anew. */
static double maybe_a_day(const returns_fitting *f, const learn_site *s, const learn_trouble *t)
{
    double sum = 0, stands = 1;
    for (uint32_t i = 0; i < t->maybe_count; i++) {
        const learn_maybe *m = &t->maybes[i];
        const double is = was(f, s, m);
        if (i == 0 || m->entry != t->maybes[i - 1].entry) stands = 1;
        sum += m->part * stands * return_rate_after(is * f->all[m->number].mean, &m->past).a_day;
        stands *= 1 - is;
    }
    return sum;
}

double returns_a_day(const returns_fitting *f, learn_site *s, const learn_trouble *t)
{
    double sum = returns_anew(f, s, t);
    for (uint32_t i = 0; i < t->link_count; i++) {
        returns_wait(f, &s->cures[t->links[i].cure], &t->links[i].past);
        sum += comes_of(f, s, &t->links[i]);
    }
    return sum + maybe_a_day(f, s, t);
}

/* If nobody knows what it was, it was the same anew as often as new troubles are. */
static void note(const returns_fitting *f, const learn_site *s, const learn_trouble *t,
                 learn_link *x, double sum)
{
    learn_cure *c = &s->cures[x->cure];
    const double again = comes_of(f, s, x) / sum, before = 1 - again,
                 over = t->entry != NO_ID
                            ? 0
                            : returns_stands(c) * s->rate * share_of(f, c->entry, c->share) / sum;
    x->again = again;
    c->back = c->back * before + again;
    c->over = c->over * before + over;
    c->over_later = c->over_later * before + over * return_later(f->all[c->number].mean, &x->past);
}

/* Parts the trouble among what it may be. What was said of a cure by earlier troubles counts; it
 * stands once among the links. */
void returns_part(const returns_fitting *f, learn_site *s, learn_trouble *t)
{
    const double anew = returns_anew(f, s, t), sum = returns_a_day(f, s, t);
    t->anew = anew / sum;
    s->anew += t->anew;
    if (t->entry != NO_ID) f->anew[t->entry] += t->anew;
    for (uint32_t i = 0; i < t->link_count; i++) note(f, s, t, &t->links[i], sum);
}
