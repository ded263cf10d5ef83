/* The values behind the next step, written down as plainly as the mathematics says them: whole
 * vectors are copied, the order is made anew after every failure, nothing is kept. Slow, and a
 * second opinion on engine/choose. */
#ifndef TT_TESTS_CHOICE_TWIN_H
#define TT_TESTS_CHOICE_TWIN_H

#include "choose/choose.h"

enum { TWIN_CAUSES = 16, TWIN_FIXES = 16 }; /* at most */

/* A course so far: fixes that failed, questions that were asked, as bits. */
typedef struct twin_course {
    uint32_t failed, asked;
} twin_course;

/* First fix of the order that is worth trying, or UINT32_MAX. */
uint32_t twin_first(const choice_input *in, arena *scratch, const double *w, twin_course so_far);

/* Minutes (unnormalised) of trying f, its price included. */
double twin_cost(const choice_input *in, uint32_t f, const double *w);

/* The fix that is done before the set-up of f is given back, or UINT32_MAX; those whose parts are
 * `brought`, as bits. Its minutes then, on the weights from before f. */
uint32_t twin_partner(const choice_input *in, arena *scratch, const double *w, uint32_t failed,
                      uint32_t f, const bool *theirs, uint32_t brought);
double twin_cost_under(const choice_input *in, uint32_t f, uint32_t g, const double *w);

/* Weights after f failed, after answer y of question q. */
void twin_fail(const choice_input *in, uint32_t f, const double *w, double *out);
void twin_answer(const choice_input *in, uint32_t q, uint32_t y, const double *w, double *out);

/* What plans of whoever may be called are made for. */
typedef struct twin_outlook {
    const double *now;  /* they sum to 1 */
    uint32_t listed;    /* questions, as bits */
    const double *walk; /* from where whoever asks stands now */
    uint32_t here;
} twin_outlook;

/* UF, where whoever is called asks up to so many questions; the best of it and of asking one or
 * more listed questions before; asking q and then that; calling. */
double twin_fix_value(const choice_input *in, arena *scratch, const twin_outlook *o,
                      const double *w, twin_course so_far, int asks);
double twin_value(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                  twin_course so_far, int ahead);
double twin_ask(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                uint32_t q, twin_course so_far, int ahead);
double twin_call(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                 uint32_t failed, int asks);

/* The same numbers in every run. */

#endif
