/* A case in a few words, made from its records alone: its book may be gone, or be on another
 * machine. */
#ifndef TT_JOURNAL_SUMMARY_H
#define TT_JOURNAL_SUMMARY_H

#include "journal/journal.h"

/* Texts live as long as the journal. */
tt_case_summary journal_summary(const journal *j);

#endif
