/* FIT: a distribution over atoms that honours given chances of sets of atoms and otherwise stays
 * close to a reference. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "compile/net_parts.h"

/* Disjoint sets may take this much and no more while something is uncovered. */
#define ALMOST_ALL      0.999
#define GRADIENT_ENOUGH 1e-14
#define ARMIJO          1e-4
#define ROUNDING        1e-13 /* of the objective: a smaller fall can't be told from none */
/* Where the plain way gets stuck: how much stronger the first ridge is, and the next ones weaker.
 */
#define ROUNDEST 1048576.0
#define ROUNDER  2.0
enum { NEWTON_STEPS_MAX = 60, HALVINGS_MAX = 60 };

double chance_inside(const double *p, const bool *inside, uint32_t count)
{
    double sum = 0;
    for (uint32_t a = 0; a < count; a++)
        if (inside[a]) sum += p[a];
    return sum;
}

void floor_and_normalise(double *p, uint32_t count)
{
    double sum = 0;
    for (uint32_t a = 0; a < count; a++) {
        assert(p[a] >= 0);
        if (p[a] < CHANCE_LEAST) p[a] = CHANCE_LEAST;
        sum += p[a];
    }
    for (uint32_t a = 0; a < count; a++) p[a] /= sum;
}

static uint32_t sets_that_hold(const bool *inside, uint32_t sets, uint32_t count, uint32_t atom)
{
    uint32_t holding = 0;
    for (uint32_t s = 0; s < sets; s++) holding += inside[(size_t)s * count + atom];
    return holding;
}

static bool are_disjoint(const bool *inside, uint32_t sets, uint32_t count)
{
    for (uint32_t a = 0; a < count; a++)
        if (sets_that_hold(inside, sets, count, a) > 1) return false;
    return true;
}

/* ---- closed form for disjoint sets ---- */

/* Mass of a set in q, and 0 for a set that can't occur: it gets no share. */
static double share_given(const double *target, double mass, uint32_t s)
{
    return mass > 0 ? target[s] : 0;
}

static void fit_disjoint(const double *q, uint32_t count, const bool *inside, const double *target,
                         uint32_t sets, double *out)
{
    double sum = 0, uncovered = 0;
    for (uint32_t s = 0; s < sets; s++)
        sum += share_given(target, chance_inside(q, inside + (size_t)s * count, count), s);
    for (uint32_t a = 0; a < count; a++)
        if (sets_that_hold(inside, sets, count, a) == 0) uncovered += q[a];
    double scale = 1;
    if (uncovered <= 0)
        scale = 1 / sum;
    else if (sum > ALMOST_ALL)
        scale = ALMOST_ALL / sum;
    double left = 1 - scale * sum;
    assert(scale > 0 && left > -1e-12);
    for (uint32_t a = 0; a < count; a++) out[a] = uncovered > 0 ? left * q[a] / uncovered : 0;
    for (uint32_t s = 0; s < sets; s++) {
        const bool *in = inside + (size_t)s * count;
        double mass = chance_inside(q, in, count);
        for (uint32_t a = 0; a < count; a++)
            if (in[a]) out[a] = mass > 0 ? scale * target[s] * q[a] / mass : 0;
    }
}

/* ---- ridge maximum entropy: the dual is convex, damped Newton finds its one minimum ---- */

typedef struct dual {
    const double *log_q, *target, *variance; /* variance: sigma^2 of each target */
    const bool *inside;
    uint32_t count, sets;
    double theta[NET_SYMPTOMS_MAX], gradient[NET_SYMPTOMS_MAX];
    double value, steepest; /* objective, largest |gradient| */
    double *tilted;         /* [atom] T at theta */
} dual;

/* T, objective and gradient at theta. */
static void evaluate(dual *d)
{
    double top = -INFINITY, sum = 0;
    for (uint32_t a = 0; a < d->count; a++) {
        d->tilted[a] = d->log_q[a];
        for (uint32_t s = 0; s < d->sets; s++)
            if (d->inside[(size_t)s * d->count + a]) d->tilted[a] += d->theta[s];
        top = fmax(top, d->tilted[a]);
    }
    for (uint32_t a = 0; a < d->count; a++) sum += d->tilted[a] = exp(d->tilted[a] - top);
    for (uint32_t a = 0; a < d->count; a++) d->tilted[a] /= sum;
    d->value = top + log(sum);
    d->steepest = 0;
    for (uint32_t s = 0; s < d->sets; s++) {
        double pull = d->variance[s] * d->theta[s];
        d->value += d->theta[s] * (0.5 * pull - d->target[s]);
        d->gradient[s] = chance_inside(d->tilted, d->inside + (size_t)s * d->count, d->count) -
                         d->target[s] + pull;
        d->steepest = fmax(d->steepest, fabs(d->gradient[s]));
    }
}

typedef struct square {
    double at[NET_SYMPTOMS_MAX][NET_SYMPTOMS_MAX];
} square;

static double chance_inside_both(const double *p, const bool *one, const bool *two, uint32_t count)
{
    double sum = 0;
    for (uint32_t a = 0; a < count; a++)
        if (one[a] && two[a]) sum += p[a];
    return sum;
}

/* Covariance of the sets under T, plus the ridge. */
static void hessian(const dual *d, square *h)
{
    double mean[NET_SYMPTOMS_MAX];
    for (uint32_t i = 0; i < d->sets; i++) {
        const bool *in = d->inside + (size_t)i * d->count;
        mean[i] = chance_inside(d->tilted, in, d->count);
        for (uint32_t j = 0; j <= i; j++)
            h->at[i][j] =
                chance_inside_both(d->tilted, in, d->inside + (size_t)j * d->count, d->count) -
                mean[i] * mean[j];
        h->at[i][i] += d->variance[i];
    }
}

/* Lower triangle in place. The ridge keeps every pivot above rounding. */
static void cholesky(square *h, uint32_t size)
{
    for (uint32_t i = 0; i < size; i++)
        for (uint32_t j = 0; j <= i; j++) {
            double rest = h->at[i][j];
            for (uint32_t k = 0; k < j; k++) rest -= h->at[i][k] * h->at[j][k];
            if (i == j) assert(rest > 0);
            h->at[i][j] = i == j ? sqrt(rest) : rest / h->at[j][j];
        }
}

static void solve(const square *lower, uint32_t size, const double *right, double *x)
{
    for (uint32_t i = 0; i < size; i++) {
        double rest = right[i];
        for (uint32_t k = 0; k < i; k++) rest -= lower->at[i][k] * x[k];
        x[i] = rest / lower->at[i][i];
    }
    for (uint32_t i = size; i-- > 0;) {
        for (uint32_t k = i + 1; k < size; k++) x[i] -= lower->at[k][i] * x[k];
        x[i] /= lower->at[i][i];
    }
}

/* Near the minimum the objective can't show progress any more; the gradient still can. */
static bool is_better(const dual *now, double value_before, double steepest_before,
                      double wanted_fall)
{
    double noise = ROUNDING * (1 + fabs(value_before));
    if (wanted_fall > noise) return now->value <= value_before - wanted_fall;
    return now->value <= value_before + noise && now->steepest < steepest_before;
}

/* One damped step; false if no length of it helps, and then theta is as before. */
static bool newton_step(dual *d)
{
    square h;
    double step[NET_SYMPTOMS_MAX], from[NET_SYMPTOMS_MAX], slope = 0;
    hessian(d, &h);
    cholesky(&h, d->sets);
    solve(&h, d->sets, d->gradient, step);
    memcpy(from, d->theta, sizeof from);
    for (uint32_t s = 0; s < d->sets; s++) slope += step[s] * d->gradient[s];
    double value = d->value, steepest = d->steepest, length = 1;
    for (int i = 0; i < HALVINGS_MAX; i++, length *= 0.5) {
        for (uint32_t s = 0; s < d->sets; s++) d->theta[s] = from[s] - length * step[s];
        evaluate(d);
        if (is_better(d, value, steepest, ARMIJO * length * slope)) return true;
    }
    memcpy(d->theta, from, sizeof from);
    evaluate(d);
    return false;
}

static bool is_settled(const dual *d)
{
    return d->steepest < GRADIENT_ENOUGH;
}

/* True if it came to rest: at the minimum, or where rounding hides any progress. */
static bool descend(dual *d)
{
    evaluate(d);
    for (int i = 0; i < NEWTON_STEPS_MAX; i++)
        if (is_settled(d) || !newton_step(d)) return true;
    return false;
}

/* Numbers that contradict each other wildly make the objective a plane with sharp edges, where
 * Newton's steps are short. Then the minimum is followed from a round bowl (a strong ridge) to the
 * wanted one, each a start for the next. */
static void descend_from_round(dual *d, const double *variance, double *softened)
{
    d->variance = softened;
    for (uint32_t s = 0; s < d->sets; s++) d->theta[s] = 0;
    for (double more = ROUNDEST; more >= 1; more /= ROUNDER) {
        for (uint32_t s = 0; s < d->sets; s++) softened[s] = more * variance[s];
        descend(d);
    }
}

static void fit_ridge(arena *scratch, const double *q, uint32_t count, const bool *inside,
                      const double *target, uint32_t sets, double *out)
{
    assert(sets <= NET_SYMPTOMS_MAX);
    double variance[NET_SYMPTOMS_MAX], softened[NET_SYMPTOMS_MAX],
        *log_q = ARENA_ARRAY(scratch, double, count);
    for (uint32_t a = 0; a < count; a++) log_q[a] = log(q[a]); /* -inf where q is 0: stays 0 */
    for (uint32_t s = 0; s < sets; s++) {
        double sigma = fmax(0.01, 0.2 * target[s] * (1 - target[s]));
        variance[s] = sigma * sigma;
    }
    dual d = {.log_q = log_q,
              .target = target,
              .variance = variance,
              .inside = inside,
              .count = count,
              .sets = sets,
              .tilted = out};
    if (!descend(&d)) descend_from_round(&d, variance, softened);
}

void net_fit(arena *scratch, const double *q, uint32_t count, const bool *inside,
             const double *target, uint32_t symptoms, bool single_finding, double *out)
{
    assert(count > 0 && q != out);
    if (symptoms == 0)
        memcpy(out, q, count * sizeof *out);
    else if (single_finding && are_disjoint(inside, symptoms, count))
        fit_disjoint(q, count, inside, target, symptoms, out);
    else
        fit_ridge(scratch, q, count, inside, target, symptoms, out);
}
