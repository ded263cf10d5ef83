/* From counts to shares and means with their uncertainty. */
#include "rehearse/estimate.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"

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
                               .cured = share_of(k->cured, k->calls),
                               .questions = mean_of(&k->questions, k->calls, 1),
                               .minutes = mean_of(&k->seconds, k->calls, MINUTE)};
}

static tt_rehearsed_kind all_kinds(const tally *t)
{
    kind_tally sum = {0};
    for (int k = 0; k < KIND_COUNT; k++) add_words(&sum, &t->n.kinds[k], sizeof sum);
    return kind_of(&sum, t->n.calls);
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
                            .minutes_more = mean_of(&w->seconds_more, w->calls, MINUTE),
                            .place_changes = mean_of(&w->place_changes, w->calls, 1)};
    for (int level = 0; level < LEVELS_OFFERED; level++) {
        out.needless[level] = mean_of(&w->needless[level], w->calls, 1);
        out.needless_more[level] = mean_of(&w->needless_more[level], w->calls, 1);
    }
    return out;
}

/* ---- chances against what came true, and what luck alone would show ---- */

/* Mean distance of what was said from the share that came true, weighted by calls. */
static double distance(const bin_tally *bins, const perfect_tally *instead)
{
    double off = 0, calls = 0;
    for (int b = 0; b < BINS; b++) {
        const double right = (double)(instead != NULL ? instead->right[b] : bins[b].right);
        assert(right <= (double)bins[b].calls);
        calls += (double)bins[b].calls;
        off += fabs((double)bins[b].said * CHANCE_UNIT - right);
    }
    return calls == 0 ? 0 : off / calls;
}

static int rising(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return THREE_WAY(*x, *y);
}

/* Mean of what the perfect programs show, and what 95 of 100 of them stay within. */
static tt_floor floor_of(double *shown)
{
    tt_floor out = {0};
    for (int i = 0; i < PERFECT; i++) out.mean += shown[i] / PERFECT;
    SORT(shown, PERFECT, rising);
    out.high = shown[PERFECT * 95 / 100 - 1];
    return out;
}

static void calibrate(const tally *t, tt_rehearsed *out)
{
    double by_luck[PERFECT];
    for (int b = 0; b < BINS; b++) {
        const bin_tally *bin = &t->n.bins[b];
        assert(bin->right <= bin->calls);
        double said = bin->calls == 0 ? 0 : (double)bin->said * CHANCE_UNIT / (double)bin->calls;
        tt_share right = share_of(bin->right, bin->calls);
        out->bins[b] = (tt_calibration){(double)b / BINS, (double)(b + 1) / BINS, said, right};
    }
    for (int i = 0; i < PERFECT; i++) by_luck[i] = distance(t->n.bins, &t->n.perfect[i]);
    out->calibration_error = distance(t->n.bins, NULL);
    out->calibration_floor = floor_of(by_luck);
}

static tt_rehearsed_set set_of(const tally *t)
{
    const set_tally *s = &t->n.sets;
    double by_luck[PERFECT];
    tt_rehearsed_set out = {.held = share_of(s->held, s->calls),
                            .causes = mean_of(&s->causes, s->calls, 1)};
    if (s->calls == 0) return out;
    out.said = (double)s->said * CHANCE_UNIT / (double)s->calls;
    for (int i = 0; i < PERFECT; i++)
        by_luck[i] = fabs((double)t->n.perfect[i].held / (double)s->calls - out.said);
    out.floor = floor_of(by_luck);
    return out;
}

/* ---- against what could be done at best ---- */

/* Ratio of two means over the same calls. Its error: Cochran, W. G. (1977). Sampling Techniques,
 * 3rd edition, section 6.4: the mean of d = ours - ratio × theirs is 0, and its standard error over
 * the mean of theirs is that of the ratio. */
static tt_ratio ratio_of(const pair_tally *x)
{
    tt_ratio out = {.of = x->calls};
    if (x->theirs.sum == 0) return out;
    const double n = (double)x->calls, theirs = (double)x->theirs.sum;
    out.ratio = (double)x->ours.sum / theirs;
    if (x->calls < 2) return out;
    const double squares = (double)x->ours.squares - 2 * out.ratio * (double)x->product +
                           out.ratio * out.ratio * (double)x->theirs.squares;
    out.plus_minus = Z * sqrt(fmax(0, squares) / (n - 1) / n) / (theirs / n);
    return out;
}

/* Of calls that both had advice for. The difference is taken call by call. */
static tt_ceiling ceiling_of(const ceiling_tally *x)
{
    tt_ceiling out = {.ours = share_of(x->ours, x->calls), .known = share_of(x->theirs, x->calls)};
    const moments more = {(int64_t)x->only_theirs - (int64_t)x->only_ours,
                          x->only_theirs + x->only_ours};
    out.missed = mean_of(&more, x->calls, 1);
    return out;
}

/* ---- handed over ---- */

static tt_handed_over handed_over(const tally *t)
{
    const over_tally *x = &t->n.over;
    assert(x->cured + x->nobody + x->stopped == x->calls);
    return (tt_handed_over){.calls = share_of(x->calls, t->n.calls),
                            .cured = share_of(x->cured, x->calls),
                            .nobody = share_of(x->nobody, x->calls),
                            .stopped = share_of(x->stopped, x->calls),
                            .before = mean_of(&x->before, x->calls, MINUTE),
                            .after = mean_of(&x->after, x->calls, MINUTE),
                            .both = mean_of(&x->both, x->calls, MINUTE),
                            .waited = mean_of(&x->waited, x->calls, MINUTE)};
}

tt_worked worked_by(const tally *t, uint32_t role, const char *name)
{
    assert(role < t->role_count);
    const role_tally *x = &t->roles[role];
    return (tt_worked){name, share_of(x->calls, t->n.calls),
                       mean_of(&x->seconds, x->calls, MINUTE)};
}

tt_mean moved_by(const tally *t, uint32_t i, int direction)
{
    const uint32_t at = i * DIRECTIONS + (uint32_t)direction;
    assert(at < t->moved_count);
    return mean_of(&t->moved[at], t->n.calls, MINUTE / 16);
}

void estimate(const tally *t, tt_rehearsed *out)
{
    const kind_tally *not_listed = &t->n.kinds[KIND_NOT_LISTED];
    assert(not_listed->leads <= not_listed->ranked && not_listed->ranked <= not_listed->calls);
    out->calls = t->n.calls;
    out->all = all_kinds(t);
    for (int k = 0; k < KIND_COUNT; k++) out->kinds[k] = kind_of(&t->n.kinds[k], t->n.calls);
    for (int w = 0; w < WAY_COUNT; w++) out->ways[w] = way_of(&t->n.ways[w]);
    calibrate(t, out);
    out->set = set_of(t);
    out->over_clairvoyant = ratio_of(&t->n.over_clairvoyant);
    out->known_over_clairvoyant = ratio_of(&t->n.known_over_clairvoyant);
    out->ceiling = ceiling_of(&t->n.ceiling);
    out->over = handed_over(t);
    out->surprise = mean_of(&t->n.surprise, t->n.surprise_calls, BIT);
    out->not_listed_blamed = share_of(not_listed->ranked - not_listed->leads, not_listed->ranked);
    out->not_listed_blamed_surely = share_of(t->n.blamed_surely, not_listed->ranked);
}
