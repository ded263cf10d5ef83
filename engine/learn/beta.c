/* The beta distribution: its mass below a point, and its quantiles. */
#include "learn/beta.h"

#include <assert.h>
#include <math.h>

/* DLMF 5.11.1, Stirling's series, from where it has all digits; below, Γ(z + 1) = zΓ(z). */
double log_gamma(double z)
{
    static const double term[] = {1.0 / 12,   -1.0 / 360,      1.0 / 1260, -1.0 / 1680,
                                  1.0 / 1188, -691.0 / 360360, 1.0 / 156};
    static const double large_enough = 15, half_log_two_pi = 0.918938533204672741780;
    assert(z > 0);
    double rest = 0, sum = 0;
    for (; z < large_enough; z++) rest += log(z);
    for (int k = sizeof term / sizeof *term; k-- > 0;) sum = sum / (z * z) + term[k];
    return (z - 0.5) * log(z) - z + half_log_two_pi + sum / z - rest;
}

static double away_from_zero(double x)
{
    static const double least = 1e-300;
    return fabs(x) < least ? least : x;
}

/* The numerator number k of the continued fraction, DLMF 8.17.23. */
static double numerator(double a, double b, double x, int k)
{
    double m = k / 2;
    if (k % 2 == 0) return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
}

/* 1/(1 + d1/(1 + d2/(1 + …))), by the method of Lentz (Applied Optics 15, 1976). Steps grow with
 * the square root of the larger of a and b. */
static double fraction(double a, double b, double x)
{
    enum { STEPS_MOST = 100000 };
    static const double enough = 1e-16;
    double c = 1, d = 1 / away_from_zero(1 + numerator(a, b, x, 1)), value = d;
    for (int k = 2; k < STEPS_MOST; k++) {
        double next = numerator(a, b, x, k);
        d = 1 / away_from_zero(1 + next * d);
        c = away_from_zero(1 + next / c);
        value *= c * d;
        if (fabs(c * d - 1) < enough) break;
    }
    return value;
}

/* DLMF 8.17.22, which converges fast below the mean. */
static double from_below(double a, double b, double x)
{
    double front = a * log(x) + b * log1p(-x) + log_gamma(a + b) - log_gamma(a) - log_gamma(b);
    return exp(front) / a * fraction(a, b, x);
}

double beta_below(double a, double b, double x)
{
    assert(a > 0 && b > 0 && x >= 0 && x <= 1);
    if (x <= 0 || x >= 1) return x;
    if (x < (a + 1) / (a + b + 2)) return from_below(a, b, x);
    return 1 - from_below(b, a, 1 - x); /* DLMF 8.17.4 */
}

/* Halving always arrives, whatever the shape. */
double beta_quantile(double a, double b, double chance)
{
    assert(chance >= 0 && chance <= 1);
    double low = 0, high = 1;
    for (;;) {
        double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high) return high < 1e-300 ? 0 : middle;
        if (beta_below(a, b, middle) < chance)
            low = middle;
        else
            high = middle;
    }
}
