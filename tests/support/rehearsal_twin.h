/* A small book of two causes, and all that can happen in its calls: a twin of rehearsing that
 * goes through everything with its chance, worked out by hand, instead of drawing. It shares
 * nothing with engine/rehearse but the engine that plays. */
#ifndef TT_SUPPORT_REHEARSAL_TWIN_H
#define TT_SUPPORT_REHEARSAL_TWIN_H

#include "telltale.h"

extern const char twin_book[];

/* Expected per call. */
typedef struct twin_sums {
    double all; /* of chances: 1 */
    double leads, leads_last, cured, called, minutes, questions, fixes, surprise;
    double needless_low, needless_medium;
    double not_listed, not_listed_blamed;
} twin_sums;

/* `book` from twin_book; `misread` more than it says. */
twin_sums twin_of_rehearsal(const tt_book *book, double misread);

#endif
