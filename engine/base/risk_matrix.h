/* MIL-STD-882E (11 May 2012), Table III: how bad the harm would be and how likely it is give one of
 * four bands. */
#ifndef TT_BASE_RISK_MATRIX_H
#define TT_BASE_RISK_MATRIX_H

/* The bands of Table III. High is never offered. */
typedef enum risk_level { RISK_LOW, RISK_MEDIUM, RISK_SERIOUS, RISK_HIGH } risk_level;

/* Table I, worst first. */
typedef enum risk_severity {
    SEVERITY_CATASTROPHIC,
    SEVERITY_CRITICAL,
    SEVERITY_MARGINAL,
    SEVERITY_NEGLIGIBLE,
    SEVERITY_COUNT
} risk_severity;

/* Table II, likeliest first: levels A to F. */
typedef enum risk_probability {
    PROBABILITY_FREQUENT,
    PROBABILITY_PROBABLE,
    PROBABILITY_OCCASIONAL,
    PROBABILITY_REMOTE,
    PROBABILITY_IMPROBABLE,
    PROBABILITY_ELIMINATED,
    PROBABILITY_COUNT
} risk_probability;

risk_level risk_of(risk_severity severity, risk_probability probability);

#endif
