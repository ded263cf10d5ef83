/* Figures as people say them. */
#ifndef TT_SHOW_FIGURES_H
#define TT_SHOW_FIGURES_H

#include "base/arena.h"

const char *count_words(arena *keep, unsigned count);      /* "12" */
const char *minutes_words_of(arena *keep, double minutes); /* "about 8 minutes", "about 1 h 30 min" */

#endif
