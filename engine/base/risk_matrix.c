/* The matrix of severity and probability. */
#include "base/risk_matrix.h"

#include <assert.h>

#define H RISK_HIGH
#define S RISK_SERIOUS
#define M RISK_MEDIUM
#define L RISK_LOW

/* The standard sets eliminated hazards apart from the four bands. Nothing is left to guard against
 * there, so they count as Low here: the lowest gate, no price. */
static const risk_level bands[PROBABILITY_COUNT][SEVERITY_COUNT] = {
    /* clang-format off */
    /*                          catastrophic, critical, marginal, negligible */
    [PROBABILITY_FREQUENT]   = {H, H, S, M},
    [PROBABILITY_PROBABLE]   = {H, H, S, M},
    [PROBABILITY_OCCASIONAL] = {H, S, M, L},
    [PROBABILITY_REMOTE]     = {S, M, M, L},
    [PROBABILITY_IMPROBABLE] = {M, M, M, L},
    [PROBABILITY_ELIMINATED] = {L, L, L, L},
    /* clang-format on */
};

risk_level risk_of(risk_severity severity, risk_probability probability)
{
    assert(severity < SEVERITY_COUNT && probability < PROBABILITY_COUNT);
    return bands[probability][severity];
}
