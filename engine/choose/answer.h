/* A question in thought: its minutes, and what is left of the weights after each answer. */
#ifndef TT_CHOOSE_ANSWER_H
#define TT_CHOOSE_ANSWER_H

#include "choose/choose.h"

double minutes_of(const question_option *q);

/* Weights after answer y; the second returns their sum. */
void weights_of_answer(const prediction *seen, const double *w, uint32_t cause_count, uint32_t y,
                       double *out);
double weights_after(const prediction *seen, const double *w, uint32_t cause_count, uint32_t y,
                     double *out);

/* Where rows do not sum to 1 (facts that move the prior), what the answers' values are scaled by so
 * that no weight is won or lost. */
double scale_of_answers(const prediction *seen, const double *w, uint32_t cause_count,
                        double *room);

#endif
