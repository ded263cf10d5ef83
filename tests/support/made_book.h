/* Books of any size, the same for the same numbers: to measure with. */
#ifndef TT_SUPPORT_MADE_BOOK_H
#define TT_SUPPORT_MADE_BOOK_H

#include "base/arena.h"
#include "base/str.h"

/* As large books mostly are: a fifth of the entries each are questions, symptoms, causes, fixes and
 * rules; each cause has signs and a fix. */
str made_book(arena *keep, uint32_t entries);

#endif
