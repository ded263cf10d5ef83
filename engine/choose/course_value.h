/* What fixing costs to its end, and what calling somebody costs: waiting for them, and then what
 * they need at what is known by then. They fix by the same thresholds and prices, bring the parts
 * of what was likely when they were called, and call those above them in turn. Mathematics:
 * docs/mathematics.md (fixes; what a hand-over is worth). */
#ifndef TT_CHOOSE_COURSE_VALUE_H
#define TT_CHOOSE_COURSE_VALUE_H

#include "choose/fix_order.h"

/* UF(w) without these fixes, where whoever is called asks up to `asks` questions; the second of
 * weights that are known to sum to `total`. */
double fix_course_value(fix_course *run, const double *w, fix_pair without, uint32_t asks);
double fix_course_value_of(fix_course *run, const double *w, double total, fix_pair without,
                           uint32_t asks);

/* The fix that the last run began with, or NO_FIX. */
uint32_t fix_course_first(const fix_course *run);

/* UF(w) of somebody who was called: what the caller tried is not tried again. */
double fix_course_after(fix_course *run, const fix_course *caller, const double *w);

/* Minutes (unnormalised: times Σw) of calling with weights w that sum to `total`, as far along as
 * `caller` is. Those called next ask up to `asks` questions. INFINITY: certainly not below `limit`.
 */
double call_value(const fix_course *caller, const double *w, double total, uint32_t asks,
                  double limit);

/* Somebody above may be called, but it may be somebody from outside: nobody knows what they need,
 * so they are taken to need what no plan beats. */
bool may_call_outside(const fix_course *caller);

/* Who comes, and their minutes without waiting and questions. NO_CALLEE: nobody who may be called
 * is likely enough to be of use, so it is somebody else. */
uint32_t best_callee(const fix_course *caller, const double *w, double total, double *value);

/* Whom to call: as above, but whoever sends for the next level is never left without it. */
uint32_t likely_callee(const fix_course *caller, const double *w, double total);

#endif
