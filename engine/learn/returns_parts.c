/* When a trouble comes back, and parting one among what it may be. */
#include <math.h>

#include "learn/returns_parts.h"

return_rate return_rate_after(double chance, double days)
{
    const double left = exp(-A_DAY * days), still = 1 - chance * -expm1(-A_DAY * days);
    return (return_rate){.a_day = chance * A_DAY * left / still,
                         .slope = A_DAY * left / (still * still)};
}

double returns_anew(const returns_fitting *f, const learn_site *s, const learn_trouble *t)
{
    return s->rate * (t->entry == NO_ID ? t->share : fmin(1, t->share * f->changed[t->entry]));
}

static double comes_of(const returns_fitting *f, const learn_site *s, const learn_link *x)
{
    const learn_cure *c = &s->cures[x->cure];
    return x->part * (1 - c->back) * return_rate_after(f->all[c->number].mean, x->days).a_day;
}

double returns_a_day(const returns_fitting *f, const learn_site *s, const learn_trouble *t)
{
    double sum = returns_anew(f, s, t);
    for (uint32_t i = 0; i < t->link_count; i++) sum += comes_of(f, s, &t->links[i]);
    return sum;
}

/* Parts the trouble among what it may be. What was said of a cure by earlier troubles counts. */
void returns_part(const returns_fitting *f, learn_site *s, const learn_trouble *t)
{
    const double anew = returns_anew(f, s, t), sum = returns_a_day(f, s, t);
    s->anew += anew / sum;
    if (t->entry != NO_ID) f->anew[t->entry] += anew / sum;
    for (uint32_t i = 0; i < t->link_count; i++) {
        const double again =
            comes_of(f, s, &t->links[i]) / sum; /* a cure stands once among the links */
        s->cures[t->links[i].cure].back += again;
    }
}
