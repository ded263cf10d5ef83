/* One desk on a case, begun on a morning: what most tests of the conversation start from. */
#ifndef TT_SUPPORT_ONE_DESK_H
#define TT_SUPPORT_ONE_DESK_H

#include "talk_kit.h"

#define DESK_MORNING "2026-11-29T09:00:00+01:00"

typedef struct one_desk {
    tt_book *b;
    record_folder *f;
    told_talk east;
} one_desk;

/* The book becomes the desk's. */
one_desk *one_desk_new(tt_book *b);
/* Set-up and tear-down of cmocka: a case of the shipped foam book, at the danger question. */
int foam_desk(void **state);
int one_desk_end(void **state);

/* From the complaint to the question that a loud hiss leads to: what the foam-air gauge reads. */
void hear_hiss(told_talk *t);
/* From the danger question to the first fix of the foam book: pressure to be set down. */
void reach_foam_fix(told_talk *t);
/* From the danger page or the danger question; `safe`: the safe answer. */
void say_it_is_safe(told_talk *t, const char *safe);

/* Each of these lines is asked in turn, and done. NULL ends them. */
void goes_through(told_talk *t, const char *const *lines);
#define GOES_THROUGH(t, ...) goes_through((t), (const char *const[]){__VA_ARGS__, NULL})

#endif
