/* Why one cause rather than another, and what would turn it, in words for whoever writes the rules.
 */
#ifndef TT_SHOW_WHY_TEXT_H
#define TT_SHOW_WHY_TEXT_H

#include "show/part_list.h"

/* Each answer in decibels, what is missing, and what would turn it. */
void tell_why(part_list *parts, const tt_turning *about);

/* Why a fix does not come first, and which number would put it there. */
void tell_why_fix(part_list *parts, const tt_why_fix *why);

#endif
