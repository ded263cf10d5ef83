/* The power that makes what was confirmed likeliest. */
#include "learn/reliance.h"

#include <assert.h>
#include <math.h>

#include "model/book.h"

/* Mean of the logarithm, its slope and its curvature along the power, summed over the cases. */
typedef struct score {
    double height, slope, curve;
} score;

static void add_case(score *s, const learn_verdict *v, double power, double times)
{
    double top = -INFINITY, sum = 0, mean = 0, square = 0;
    assert(v->truth < v->count);
    for (uint32_t h = 0; h < v->count; h++) top = fmax(top, v->before[h] + power * v->says[h]);
    for (uint32_t h = 0; h < v->count; h++) {
        double weight = exp(v->before[h] + power * v->says[h] - top),
               says = v->says[h] - v->says[v->truth];
        sum += weight;
        mean += weight * says;
        square += weight * says * says;
    }
    mean /= sum;
    s->height += times * (v->before[v->truth] + power * v->says[v->truth] - top - log(sum));
    s->slope -= times * mean;
    s->curve += times * (square / sum - mean * mean);
}

static score score_at(const learn_verdict *all, const learn_weights *w, double power)
{
    score s = {0, 0, 0};
    for (const learn_verdict *v = all; v != NULL; v = v->next)
        add_case(&s, v, power, w->of[v->end]);
    return s;
}

/* The slope falls all the way, so its root is found by halving. */
static double best_power(const learn_verdict *all, const learn_weights *w)
{
    double low = ANSWERS_COUNT_LEAST, high = 1;
    if (score_at(all, w, low).slope <= 0) return low;
    if (score_at(all, w, high).slope >= 0) return high;
    while (high - low > 1e-12) {
        double middle = low + (high - low) / 2;
        if (score_at(all, w, middle).slope > 0)
            low = middle;
        else
            high = middle;
    }
    return low;
}

learn_reliance learn_reliance_fit(const learn_verdict *all, const learn_weights *w, double written)
{
    static const double each_side = 1.959963984540054; /* of the normal distribution: 97.5 % */
    double cases = 0, power = best_power(all, w);
    for (const learn_verdict *v = all; v != NULL; v = v->next) cases += w->of[v->end];
    score best = score_at(all, w, power), as_written = score_at(all, w, written);
    double reach = best.curve > 0 ? each_side / sqrt(best.curve) : INFINITY;
    return (learn_reliance){.power = power,
                            .low = fmax(ANSWERS_COUNT_LEAST, power - reach),
                            .high = fmin(1, power + reach),
                            .bits =
                                cases > 0 ? (best.height - as_written.height) / cases / log(2) : 0};
}
