/* Figures as people say them. */
#ifndef TT_SHOW_FIGURES_H
#define TT_SHOW_FIGURES_H

#include "base/arena.h"
#include "say/catalogue.h"
#include "telltale.h"

const char *count_words(arena *keep, unsigned count); /* "12" */
/* "about 8 minutes", "about 1 h 30 min" */
const char *minutes_words_of(arena *keep, tongue in, double minutes);
/* "72 %", "under 1 %", "over 99 %" */
const char *percent_words(arena *keep, tongue in, double chance);
/* "very likely", "likely", "a fair chance", "a small chance", "unlikely" */
const char *chance_words(tongue in, double chance);
const char *risk_words(tongue in, const char *risk); /* "low" … "high", as they are said */
/* "slight" … "very strong", of a sign */
const char *strength_words(tongue in, const char *strength);
const char *outcome_words(tongue in, tt_outcome outcome);  /* "better, but not gone" */
const char *cause_words(tongue in, const tt_cause *cause); /* also of what is not listed */

#endif
