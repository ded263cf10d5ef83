/* A small book of two causes, and all that can happen in its calls: a twin of rehearsing that
 * goes through everything with its chance, worked out by hand, instead of drawing. It shares
 * nothing with engine/rehearse but the engine that plays. */
#ifndef TT_SUPPORT_REHEARSAL_TWIN_H
#define TT_SUPPORT_REHEARSAL_TWIN_H

#include "telltale.h"

extern const char twin_book[];
/* The same, with bananas fixed by a second role, who is called. */
extern const char twin_book_of_two[];

/* Expected per call. */
typedef struct twin_sums {
    double all; /* of chances: 1 */
    double leads, cured, called, minutes, questions, fixes, surprise;
    double needless_low, needless_medium;
    double not_listed, not_listed_blamed;
    double set_held, set_said, set_causes;
    double clairvoyant;      /* minutes */
    double over, over_cured; /* calls handed over, and cured then; of these: */
    double before, after;    /* minutes worked by the one, by the other */
} twin_sums;

/* `book` from one of them; `misread` more than it says. */
typedef struct twin_numbers {
    double apples, bananas; /* how often */
    double dark_apples, dark_bananas, dark_otherwise, loud_bananas, loud_otherwise;
    double cure_apples, cure_bananas;
} twin_numbers;
extern const twin_numbers twin_as_written;
/* The same book, played in a world where these are the numbers. */
twin_sums twin_in_world(const tt_book *book, double misread, const twin_numbers *numbers);
twin_sums twin_of_rehearsal(const tt_book *book, double misread);

#endif
