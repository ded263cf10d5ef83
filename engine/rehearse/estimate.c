/* From counts to shares and means with their uncertainty. */
#include "rehearse/estimate.h"

#include <assert.h>
#include <math.h>

#define Z           1.959963984540054 /* 97.5 % point of the normal distribution */
#define MINUTE      (1.0 / 60)
#define CHANCE_UNIT 0x1p-20
#define BIT         (1.0 / 1024)

tt_share share_of(uint64_t count, uint64_t of)
{
    assert(count <= of);
    tt_share s = {.count = count, .of = of};
    if (of == 0) return s;
    double n = (double)of, p = (double)count / n, scale = 1 + Z * Z / n;
    double centre = (p + Z * Z / (2 * n)) / scale;
    double half = Z * sqrt(p * (1 - p) / n + Z * Z / (4 * n * n)) / scale;
    s.share = p;
    s.low = count == 0 ? 0 : centre - half;
    s.high = count == of ? 1 : centre + half;
    assert(s.low <= s.share && s.share <= s.high);
    return s;
}

tt_mean mean_of(const moments *m, uint64_t of, double unit)
{
    tt_mean out = {.of = of};
    if (of == 0) return out;
    double n = (double)of, mean = (double)m->sum / n;
    out.mean = mean * unit;
    if (of < 2) return out;
    double variance = fmax(0, ((double)m->squares - mean * (double)m->sum) / (n - 1));
    out.plus_minus = Z * sqrt(variance / n) * unit;
    return out;
}

static tt_rehearsed_kind kind_of(const kind_tally *k, uint64_t all)
{
    return (tt_rehearsed_kind){.calls = share_of(k->calls, all),
                               .leads = share_of(k->leads, k->ranked),
                               .among_three = share_of(k->among_three, k->ranked),
                               .leads_last = share_of(k->leads_last, k->ranked),
                               .among_three_last = share_of(k->among_three_last, k->ranked),
                               .cured = share_of(k->cured, k->calls),
                               .questions = mean_of(&k->questions, k->calls, 1),
                               .minutes = mean_of(&k->seconds, k->calls, MINUTE)};
}

static tt_rehearsed_kind all_kinds(const tally *t)
{
    kind_tally sum = {0};
    for (int k = 0; k < KIND_COUNT; k++) kind_add(&sum, &t->kinds[k]);
    return kind_of(&sum, t->calls);
}

static tt_rehearsed_way way_of(const way_tally *w)
{
    tt_rehearsed_way out = {.cured = share_of(w->ends[END_CURED], w->calls),
                            .called = share_of(w->ends[END_CALLED], w->calls),
                            .stopped = share_of(w->ends[END_STOPPED], w->calls),
                            .leads = share_of(w->leads, w->ranked),
                            .among_three = share_of(w->among_three, w->ranked),
                            .questions = mean_of(&w->questions, w->calls, 1),
                            .fixes = mean_of(&w->fixes, w->calls, 1),
                            .minutes = mean_of(&w->seconds, w->calls, MINUTE),
                            .minutes_more = mean_of(&w->seconds_more, w->calls, MINUTE)};
    for (int level = 0; level < LEVELS_OFFERED; level++) {
        out.needless[level] = mean_of(&w->needless[level], w->calls, 1);
        out.needless_more[level] = mean_of(&w->needless_more[level], w->calls, 1);
    }
    return out;
}

/* Mean distance of a share from its chance, over `of` calls: De Moivre's closed form (Diaconis and Zabell 1991, Closed form summation
 * for classical distributions, Statistical Science 6, equation 1.1): 2 v C(n,v) p^v (1-p)^(n-v+1) / n with v the whole number above np.
 * From MANY calls on the normal limit, sqrt(2 p (1-p) / (pi n)). */
static double luck(double chance, uint64_t of)
{
    enum { MANY = 4096 };
    const double pi = 3.14159265358979323846, n = (double)of;
    assert(of > 0 && chance >= 0 && chance <= 1);
    if (chance <= 0 || chance >= 1) return 0;
    if (of >= MANY) return sqrt(2 * chance * (1 - chance) / (pi * n));
    const uint64_t v = (uint64_t)floor(n * chance) + 1;
    if (v > of) return 2 * (double)(v - 1) / n * pow(chance, n) * (1 - chance); /* only rounding leads here */
    double logarithm = log(2 * (double)v) + (double)v * log(chance) + (n - (double)v + 1) * log1p(-chance);
    for (uint64_t i = 1; i <= v; i++) logarithm += log((n - (double)v + (double)i) / (double)i);
    return exp(logarithm) / n;
}

static void calibrate(const tally *t, tt_rehearsed *out)
{
    double off = 0, by_luck = 0, calls = 0;
    for (int b = 0; b < BINS; b++) {
        const bin_tally *bin = &t->bins[b];
        assert(bin->right <= bin->calls);
        double said = bin->calls == 0 ? 0 : (double)bin->said * CHANCE_UNIT / (double)bin->calls;
        tt_share right = share_of(bin->right, bin->calls);
        out->bins[b] = (tt_calibration){(double)b / BINS, (double)(b + 1) / BINS, said, right};
        calls += (double)bin->calls;
        off += (double)bin->calls * fabs(said - right.share);
        if (bin->calls > 0) by_luck += (double)bin->calls * luck(said < 1 ? said : 1, bin->calls);
    }
    out->calibration_error = calls == 0 ? 0 : off / calls;
    out->calibration_floor = calls == 0 ? 0 : by_luck / calls;
}

void estimate(const tally *t, tt_rehearsed *out)
{
    const kind_tally *not_listed = &t->kinds[KIND_NOT_LISTED];
    assert(not_listed->leads <= not_listed->ranked && not_listed->ranked <= not_listed->calls);
    out->calls = t->calls;
    out->all = all_kinds(t);
    for (int k = 0; k < KIND_COUNT; k++) out->kinds[k] = kind_of(&t->kinds[k], t->calls);
    for (int w = 0; w < WAY_COUNT; w++) out->ways[w] = way_of(&t->ways[w]);
    calibrate(t, out);
    out->surprise = mean_of(&t->surprise, t->surprise_calls, BIT);
    out->not_listed_blamed = share_of(not_listed->ranked - not_listed->leads, not_listed->ranked);
    out->not_listed_blamed_surely = share_of(t->blamed_surely, not_listed->ranked);
}
