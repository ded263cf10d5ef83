/* How often instruments mislead: what makes all that was said likeliest, and how sure that is. */
#include <assert.h>
#include <math.h>

#include "learn/misled_parts.h"

/* In log odds: what is looked at. */
#define ODDS_LEAST (-20.0)
#define ODDS_MOST  2.2

typedef struct misled_fitting {
    learn_misled *m;
    const learn_weights *w;
    double *wrong; /* [source] */
} misled_fitting;

static double chance_at(double odds)
{
    return 1 / (1 + exp(-odds));
}

static double odds_of(double chance)
{
    return log(chance) - log1p(-chance);
}

/* ---- one group ---- */

static double *chance_of_sort(const misled_read *r, uint32_t sort)
{
    return r->chance + ((size_t)sort << r->mishaps);
}

/* Chance of what was said and that just these instruments mislead, once the rest is summed over. */
static double read_chance(const misled_read *r, const look_parting *parts, uint32_t misleading)
{
    double sum = 0;
    for (uint32_t sort = 0; sort < READ_SORTS; sort++) {
        if (!r->has[sort]) continue;
        const double *chance = chance_of_sort(r, sort);
        for (uint32_t h = 0; h < 1U << r->mishaps; h++) {
            double way = chance[h];
            for (uint32_t i = 0; i < r->mishaps && way > 0; i++) {
                const bool lasts = r->latent[i] != NO_ID;
                double coin = parts[sort].fresh;
                if (lasts)
                    coin = misleading >> r->latent[i] & 1 ? parts[sort].here[r->place[i]] : 0;
                way *= (h >> i & 1) != 0 ? coin : 1 - coin;
            }
            sum += way;
        }
    }
    return sum;
}

static double chance_misleading(const misled_fitting *f, const learn_together *t,
                                uint32_t misleading)
{
    double chance = 1;
    for (uint32_t i = 0; i < t->latents; i++) {
        const double wrong = f->wrong[t->source[i]];
        chance *= (misleading >> i & 1) != 0 ? wrong : 1 - wrong;
    }
    return chance;
}

/* Of all states of its instruments; `misled` (may be null) gets how many of `source` mislead, on
 * the mean. */
static double group_chance(const misled_fitting *f, const learn_together *t, uint32_t source,
                           double *misled)
{
    double each[1U << TOGETHER_LATENTS], sum = 0, with = 0;
    const uint32_t states = 1U << t->latents;
    for (uint32_t z = 0; z < states; z++) each[z] = chance_misleading(f, t, z);
    for (uint32_t i = 0; i < t->read_count; i++) {
        const misled_read *r = &t->reads[i];
        double wrong[SOURCES_MAX];
        look_parting parts[READ_SORTS];
        for (uint32_t k = 0; k < r->source_count; k++) wrong[k] = f->wrong[r->sources[k]];
        for (uint32_t s = 0; s < READ_SORTS; s++)
            if (r->has[s]) parts[s] = look_parting_with(wrong, r->source_count, r->slip[s]);
        for (uint32_t z = 0; z < states; z++) each[z] *= read_chance(r, parts, z);
    }
    for (uint32_t z = 0; z < states; z++) {
        sum += each[z];
        for (uint32_t i = 0; i < t->latents; i++)
            with += (z >> i & 1) != 0 && t->source[i] == source ? each[z] : 0;
    }
    if (misled != NULL) *misled = with / sum;
    assert(sum > 0);
    return sum;
}

/* ---- one number ---- */

static bool tells_of(const learn_together *t, uint32_t source)
{
    for (uint32_t i = 0; i < t->latents; i++)
        if (t->source[i] == source) return true;
    return false;
}

static double times(const misled_fitting *f, const learn_together *t)
{
    double sum = 0;
    for (int e = 0; e < LEARN_ENDS; e++) sum += f->w->of[e] * t->count[e];
    return sum;
}

/* Logarithm of what is maximised, as far as it depends on one instrument. */
static double height_at(misled_fitting *f, uint32_t source, double odds)
{
    const double kept = f->wrong[source], own = chance_at(odds), author = f->m->all[source].written;
    double sum = LEARN_BASE_COUNTS * (author * log(own) + (1 - author) * log1p(-own));
    f->wrong[source] = own;
    for (const learn_together *t = f->m->groups; t != NULL; t = t->next)
        if (tells_of(t, source)) sum += times(f, t) * log(group_chance(f, t, source, NULL));
    f->wrong[source] = kept;
    return sum;
}

/* Within a bracket of one peak, by the golden section. */
static double peak_within(misled_fitting *f, uint32_t source, double low, double high)
{
    static const double part = 0.6180339887498949;
    double left = high - part * (high - low), right = low + part * (high - low);
    double at_left = height_at(f, source, left), at_right = height_at(f, source, right);
    while (high - low > 1e-8) {
        if (at_left >= at_right) {
            high = right;
            right = left;
            at_right = at_left;
            left = high - part * (high - low);
            at_left = height_at(f, source, left);
        } else {
            low = left;
            left = right;
            at_left = at_right;
            right = low + part * (high - low);
            at_right = height_at(f, source, right);
        }
    }
    return low + (high - low) / 2;
}

/* The peak that is reached uphill from where it stands. */
static double climb(misled_fitting *f, uint32_t source)
{
    const double step = 0.25;
    double at = odds_of(f->wrong[source]), height = height_at(f, source, at);
    for (int side = -1; side <= 1; side += 2)
        while (at + side * step > ODDS_LEAST && at + side * step < ODDS_MOST) {
            const double next = height_at(f, source, at + side * step);
            if (next <= height) break;
            at += side * step;
            height = next;
        }
    return chance_at(peak_within(f, source, at - step, at + step));
}

/* ---- how sure ---- */

enum { SURE_NODES = 240 };

typedef struct stretch {
    double low, high;
} stretch;

/* Where anything worth counting lies. */
static stretch stretch_of(misled_fitting *f, uint32_t source, double top)
{
    const double step = 0.5, least = 25;
    const double peak = odds_of(f->wrong[source]);
    stretch s = {peak, peak};
    for (double x = ODDS_LEAST; x <= ODDS_MOST; x += step)
        if (height_at(f, source, x) > top - least) {
            s.low = fmin(s.low, x - step);
            s.high = fmax(s.high, x + step);
        }
    return s;
}

/* Quantiles of what the author's cases and the real ones make of it, the others being as learned.
 */
static void judge(misled_fitting *f, arena *scratch, uint32_t source)
{
    learn_instrument *x = &f->m->all[source];
    const double top = height_at(f, source, odds_of(f->wrong[source]));
    const stretch s = stretch_of(f, source, top);
    const double step = (s.high - s.low) / SURE_NODES, tail = 0.025;
    double *sum = ARENA_ARRAY(scratch, double, SURE_NODES + 1), before = 0;
    for (uint32_t i = 0; i <= SURE_NODES; i++) {
        const double here = exp(height_at(f, source, s.low + i * step) - top);
        sum[i] = i == 0 ? 0 : sum[i - 1] + (before + here) / 2;
        before = here;
    }
    const double wanted[] = {tail * sum[SURE_NODES], (1 - tail) * sum[SURE_NODES]};
    double *const out[] = {&x->low, &x->high};
    for (int k = 0; k < 2; k++) {
        uint32_t i = 1;
        while (i < SURE_NODES && sum[i] < wanted[k]) i++;
        const double into = (wanted[k] - sum[i - 1]) / (sum[i] - sum[i - 1]);
        *out[k] = chance_at(s.low + (i - 1 + into) * step);
    }
}

static void count_uses(misled_fitting *f, uint32_t source)
{
    learn_instrument *x = &f->m->all[source];
    for (const learn_together *t = f->m->groups; t != NULL; t = t->next) {
        if (!tells_of(t, source)) continue;
        const double cases = t->count[LEARN_CURED] + t->count[LEARN_HANDED_OVER];
        double misled;
        group_chance(f, t, source, &misled);
        x->misled += cases * misled;
        for (uint32_t i = 0; i < t->latents; i++) x->uses += t->source[i] == source ? cases : 0;
    }
}

/* ---- all of them ---- */

static void use_rows(learn_misled *m)
{
    for (learn_together *t = m->groups; t != NULL; t = t->next)
        for (uint32_t i = 0; i < t->read_count; i++) {
            misled_read *r = &t->reads[i];
            const uint32_t ways = 1U << r->mishaps;
            for (uint32_t s = 0; s < READ_SORTS; s++)
                for (uint32_t h = 0; h < ways; h++) {
                    double sum = 0;
                    for (uint32_t a = 0; a < r->atoms; a++)
                        sum += r->row->fitted[a] * r->says[((size_t)s * r->atoms + a) * ways + h];
                    chance_of_sort(r, s)[h] = sum;
                }
        }
}

static bool is_told(const learn_misled *m, uint32_t source)
{
    for (const learn_together *t = m->groups; t != NULL; t = t->next)
        if (tells_of(t, source)) return m->all[source].written > 0;
    return false;
}

void learn_misled_fit(arena *scratch, learn_misled *m, const learn_weights *w)
{
    enum { ROUNDS_MOST = 100 };
    const double enough = 1e-8;
    misled_fitting f = {m, w, ARENA_ARRAY(scratch, double, m->count)};
    double moved = 1;
    for (uint32_t i = 0; i < m->count; i++) {
        m->all[i] = (learn_instrument){.written = m->all[i].written, .mean = m->all[i].written};
        f.wrong[i] = fmin(m->all[i].written, chance_at(ODDS_MOST));
    }
    use_rows(m);
    for (int round = 0; round < ROUNDS_MOST && moved > enough; round++) {
        moved = 0;
        for (uint32_t i = 0; i < m->count; i++) {
            if (!is_told(m, i)) continue;
            const double now = climb(&f, i);
            moved = fmax(moved, fabs(now - f.wrong[i]));
            f.wrong[i] = now;
        }
    }
    for (uint32_t i = 0; i < m->count; i++) {
        if (!is_told(m, i)) continue;
        m->all[i].mean = f.wrong[i];
        judge(&f, scratch, i);
        count_uses(&f, i);
    }
}
