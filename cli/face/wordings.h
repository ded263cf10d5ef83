/* The wordings that several places share, so that the same thing reads the same everywhere. */
#ifndef TT_CLI_WORDINGS_H
#define TT_CLI_WORDINGS_H

#include "telltale.h"

/* "72%", "under 1%", "over 99%"; freed by the caller. */
char *percent_words(double chance);
/* "very likely", "likely", "quite possible", "possible", "unlikely". */
const char *chance_words(double chance);
/* "about 5 minutes", "under a minute", "about 2 hours"; freed by the caller. */
char *minutes_words(double minutes);
const char *standing_words(
    tt_standing standing); /* as in `rank --json`: "likely", "possible", "not yet", ... */
const char *
outcome_words(tt_outcome outcome); /* "gone", "better", "no change", "could not do it" */
/* "gone", "better", "no-change", "could-not", "worse": as kept in a case. TT_WORSE + 1 for no such word.
 */
const char *outcome_name(tt_outcome outcome);
tt_outcome outcome_of_name(const char *name);
const char *cause_words(const tt_cause *cause); /* also for what is not listed */

#endif
