/* Weights of hypotheses: their sum, and what a fix takes from them. */
#ifndef TT_CHOOSE_WEIGHTS_H
#define TT_CHOOSE_WEIGHTS_H

#include "choose/choose.h"

double weights_total(const double *w, uint32_t cause_count);

/* What fix f would cure of w. */
double cured_weight(const fix_option *f, const double *w);

/* Takes what fix f cures from w. */
void fix_failed(const fix_option *f, double *w);

#endif
