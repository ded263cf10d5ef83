/* The beta distribution, which is what one of the author's chances is after cases were counted.
 * Formulas: NIST Digital Library of Mathematical Functions, sections 5.11 and 8.17. */
#ifndef TT_LEARN_BETA_H
#define TT_LEARN_BETA_H

/* ln Γ(z), z > 0. The C library's may write to a variable of all threads, so it is not used here.
 */
double log_gamma(double z);

/* Chance that a Beta(a, b) is at most x: the regularised incomplete beta function I_x(a, b). a, b >
 * 0. */
double beta_below(double a, double b, double x);

/* The x with beta_below(a, b, x) = chance, to the last bits that doubles in [0, 1] have; 0 where it
 * is smaller than any. */
double beta_quantile(double a, double b, double chance);

#endif
