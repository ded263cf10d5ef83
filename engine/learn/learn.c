/* What was counted, as chances and credible intervals. */
#include "learn/learn.h"

#include <assert.h>
#include <math.h>

#include "learn/beta.h"

/* ---- how much a case counts ---- */

static double inverse_chance(uint32_t confirmed, uint32_t ended)
{
    assert(confirmed <= ended);
    return confirmed > 0 ? (double)ended / confirmed : 0;
}

learn_weights learn_weights_of(const uint32_t confirmed[LEARN_ENDS],
                               const uint32_t ended[LEARN_ENDS])
{
    learn_weights w = {{1, 1}, false};
    double weight[LEARN_ENDS], least = INFINITY, sum = 0, squares = 0;
    for (int e = 0; e < LEARN_ENDS; e++) {
        if (confirmed[e] == 0) return w;
        weight[e] = inverse_chance(confirmed[e], ended[e]);
        least = fmin(least, weight[e]);
    }
    for (int e = 0; e < LEARN_ENDS; e++) {
        w.held = w.held || weight[e] > LEARN_WEIGHT_MOST * least;
        weight[e] = fmin(weight[e], LEARN_WEIGHT_MOST * least);
        sum += weight[e] * confirmed[e];
        squares += weight[e] * weight[e] * confirmed[e];
    }
    for (int e = 0; e < LEARN_ENDS; e++) w.of[e] = weight[e] * sum / squares;
    return w;
}

/* ---- how sure ---- */

learn_belief learn_belief_of(double mean, double worth)
{
    static const double tail = 0.025, least = 1e-6; /* tables keep as far away from 0 and 1 */
    assert(worth > 0 && mean >= 0 && mean <= 1);
    double p = fmin(fmax(mean, least), 1 - least), yes = worth * p, no = worth * (1 - p);
    return (learn_belief){mean, beta_quantile(yes, no, tail), beta_quantile(yes, no, 1 - tail)};
}
