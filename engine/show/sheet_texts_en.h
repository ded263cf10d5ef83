/* What stands on the sheet of a case, in English. X(id, text); inserts as in texts_en.h. */
#ifndef TT_SHOW_SHEET_TEXTS_EN_H
#define TT_SHOW_SHEET_TEXTS_EN_H

#define SHEET_TEXTS_EN(X) \
    X(SHEET_CLOSED_GONE, "Closed: the trouble is gone") \
    X(SHEET_CLOSED_CALL, "Closed: handed to somebody else") \
    X(SHEET_CLOSED_STOP, "Closed: stopped for danger") \
    X(SHEET_CLOSED, "Closed") \
    X(SHEET_OPEN, "Open") \
    X(SHEET_NO_NAME, "without a name") \
    X(SHEET_STATE, "State") \
    X(SHEET_HANDED_TO, "Handed to") \
    X(SHEET_IT_WAS, "It was") \
    X(SHEET_BEGUN, "Begun") \
    X(SHEET_LAST, "Last entry") \
    X(SHEET_SITE, "Site") \
    X(SHEET_ABOUT, "It is about") \
    X(SHEET_ASKED_BY, "Asked by") \
    X(SHEET_CALLER, "Caller") \
    X(SHEET_BOOK, "Book") \
    X(SHEET_RULES_CHANGED, "The rules have changed since this case was last worked on. This sheet goes by the rules as they are now.") \
    X(SHEET_WHAT_IS_WRONG, "What is wrong") \
    X(SHEET_NOBODY_SAID, "Nobody has said yet what is wrong, or it was none of the list.") \
    X(SHEET_TO_SETTLE, "To settle") \
    X(SHEET_HAZARDS, "What can hurt there:") \
    X(SHEET_ISOLATE, "First make it safe:") \
    X(SHEET_THEN, "Then:") \
    X(SHEET_CALL, "Call:") \
    X(SHEET_NOTHING, "Nothing: the trouble is gone.") \
    X(SHEET_WHAT_HELPED, "What helped") \
    X(SHEET_MOST_LIKELY, "What it most likely was") \
    X(SHEET_NEXT, "What comes next") \
    X(SHEET_STOP, "STOP:") \
    X(SHEET_ASK, "Ask:") \
    X(SHEET_TRY, "Try:") \
    X(SHEET_PUT_BACK, "Put back before anything else:") \
    X(SHEET_NOTHING_LEFT, "There is nothing left that is worth trying without help.") \
    X(SHEET_SEE_PUT_BACK, "See that this is put back") \
    X(SHEET_DIFFERENT, "Different from before") \
    X(SHEET_CAUTIONS, "Cautions shown") \
    X(SHEET_RESTS_ON, "What this sheet rests on") \
    X(SHEET_EDITION, "Edition") \
    X(SHEET_REVISION, "Revision") \
    X(SHEET_SITE_REVISION, "Revision of the site") \
    X(SHEET_WRITTEN_BY, "Written by") \
    X(SHEET_BARS, "How likely the first causes are; the table below has the same figures") \
    X(SHEET_ONE, "One") \
    X(SHEET_OTHER, "The other") \
    X(SHEET_CHANCE, "Chance") \
    X(SHEET_TWO_FAULTS, "Two faults at once") \
    X(SHEET_CAUSE, "Cause") \
    X(SHEET_MEANS, "What happens") \
    X(SHEET_POINTED_TO, "What the answers pointed to") \
    X(SHEET_POINTS_TO, "What it points to") \
    X(SHEET_CAUSES, "Causes, the likeliest first") \
    X(SHEET_PART, "Part") \
    X(SHEET_PART_CHANCE, "Chance that it is needed") \
    X(SHEET_PARTS, "Parts to bring") \
    X(SHEET_PARTS_CAPTION, "Parts that the causes call for") \
    X(SHEET_FIX, "Fix") \
    X(SHEET_OUTCOME, "What came of it") \
    X(SHEET_TRIED, "What was tried") \
    X(SHEET_TRIED_CAPTION, "Fixes in the order in which they were tried") \
    X(SHEET_SETTING, "Setting") \
    X(SHEET_BEFORE, "Before") \
    X(SHEET_AFTER, "After") \
    X(SHEET_WHEN, "When") \
    X(SHEET_FOR, "For") \
    X(SHEET_CHANGED, "What was changed") \
    X(SHEET_CHANGED_CAPTION, "Settings, each change in its turn") \
    X(SHEET_FIXES, "Fixes left") \
    X(SHEET_HELPS, "Chance to help") \
    X(SHEET_RISK, "Risk") \
    X(SHEET_TIME, "Time") \
    X(SHEET_WHO, "Who") \
    X(SHEET_NEEDS, "Needs") \
    X(SHEET_FIXES_CAPTION, "Fixes in the order to try them") \
    X(SHEET_ASKED, "What was asked or done") \
    X(SHEET_SAID, "What was said, or came of it") \
    X(SHEET_STEPS, "Answers in order") \
    X(SHEET_STEPS_CAPTION, "Everything that was said and done") \
    X(SHEET_FOLLOWS, "What follows from the answers") \
    X(SHEET_OF_SITE, "Known of this site") \
    X(SHEET_TITLE, "Case {1}") \
    X(SHEET_OWN_WORDS, "In their own words: {1}") \
    X(SHEET_MORE, "And {1} more, less likely.") \
    X(SHEET_SET, "set from {1} to {2}: {3}") \
    X(SHEET_LEFT_OUT, "{1} (left out: the rules no longer know it)") \
    X(SHEET_NOT_COUNTED, "{1} (does not count any more)") \
    X(SHEET_BY, "{1}:") \
    X(SHEET_PROGRAM, "telltale {1}")

#endif
