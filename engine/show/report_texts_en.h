/* What is said of many cases, of what they teach and of made-up calls, in English. X(id, text);
 * inserts as in texts_en.h. */
#ifndef TT_SHOW_REPORT_TEXTS_EN_H
#define TT_SHOW_REPORT_TEXTS_EN_H

/* clang-format off */

#define REPORT_TEXTS_EN(X) \
    /* ---- a list of cases ---- */ \
    X(CASES_OPEN, "open") \
    X(CASES_ON_HOLD, "on hold") \
    X(CASES_WAITING, "waiting for somebody who was called") \
    X(CASES_CLOSED, "closed, the trouble is gone") \
    X(CASES_CALLED, "closed, somebody was called") \
    X(CASES_STOPPED, "closed, stopped for safety") \
    X(CASES_MADE_SAFE, "closed, made safe") \
    X(CASES_UNREADABLE, "with nothing in it that can be read") \
    X(CASES_UNKNOWN_TIME, "an unknown time") \
    X(CASES_UNDER_A_MINUTE, "under a minute") \
    X(CASES_MINUTES, "{1} min") \
    X(CASES_HOURS, "{1} h {2} min") \
    X(CASES_DAYS, "{1} d {2} h") \
    X(LINE_CASE, "{1}  {2}: {3}. {4}") \
    X(LINE_SOMEWHERE, "no site said") \
    X(LINE_NO_TROUBLE, "trouble not said yet") \
    X(LINE_DANGER, "DANGER. {1}") \
    X(LINE_YOURS, "Yours, since {1}") \
    X(LINE_FOR_YOU, "For you, since {1}") \
    X(LINE_FOR, "For {1}, since {2}") \
    X(LINE_NOBODYS, "Nobody's, since {1}") \
    X(LINE_WAITING, "Waiting for {1}, since {2}") \
    X(LINE_WAITING_UNTIL, "Waiting for {1} until {2}") \
    X(LINE_SOMEBODY, "somebody") \
    X(LINE_WITH, "With {1} since {2}") \
    X(LINE_LEFT, "Left by {1}, {2}") \
    X(LINE_TICKET, "ticket {1}") \
    X(LINE_CALLER, "Caller: {1}") \
    X(LINE_ERASED, "Cases of which caller, number and ticket were erased: {1}. Copies of this folder keep theirs until it is done there too.") \
    X(LINE_NOTE, "{1}: {2}") \
    X(LINE_ENDED, "{1}, {2}") \
    X(LINE_CAUSE, "{1}, {2}: {3}") \
    X(CASES_CASE, "Case {1}, {2}") \
    X(CASES_BEGAN, "Began: {1}") \
    X(CASES_DONE, "done") \
    X(CASES_ROUND, "Kind: {1} round") \
    X(CASES_KIND, "Kind: {1}") \
    X(CASES_BOOK, "Book: {1}") \
    X(CASES_SITE, "Site: {1}") \
    X(CASES_COMPLAINT, "Complaint: {1}") \
    X(CASES_COMPLAINT_SAID, "Complaint: {1} (said: {2})") \
    X(CASES_FOR, "For: {1}") \
    X(CASES_UNTIL, "Until: {1}") \
    X(CASES_NOTE, "Note: {1}") \
    X(CASES_SOMEBODY_HERE, "somebody at this computer") \
    X(CASES_PERSON_AT, "{1} ({2})") \
    X(CASES_WITH, "With: {1}, since {2}") \
    X(CASES_LEFT_BY, "Left by: {1}, {2}") \
    X(CASES_NEXT, "Next: {1}") \
    X(CASES_LAST_STEP, "Last step: {1}") \
    X(CASES_ANSWERS, "Answers: {1}. Fixes tried: {2}") \
    X(CASES_GO_ON, "To go on, type:") \
    X(CASES_CAUSE_TO_SETTLE, "Cause: to settle, different ones were named") \
    X(CASES_CAUSE_CONFIRMED, "Cause: {1} (confirmed)") \
    X(CASES_CAUSE_LIKELY, "Cause: {1} (likely)") \
    X(CASES_CAUSE_NOT_KEPT, "Cause: not kept") \
    X(CASES_ENDED, "Ended: {1}") \
    X(CASES_ENDED_AFTER, "Ended: {1}, after {2}") \
    X(CASES_LEFT_OUT, "Left out: {1} lines that can't be used, in {2}") \
    X(CASES_FOLDER, "Folder: {1}") \
    X(CASES_COUNT, "Cases: {1}") \
    X(CASES_COUNT_OF, "{1}: {2}") \
    X(CASES_CAUSES, "What it was, where the trouble is gone:") \
    X(CASES_COUNT_OF_CAUSE, "{1}: {2}, {3} of them confirmed") \
    X(CASES_IN_MONTH, "{1}: {2}: {3}, {4} of them confirmed") \
    X(CASES_TIME_OF_CAUSE, "time: median {1}, quartiles {2} and {3} (of {4})") \
    X(CASES_TIME, "From the beginning until the trouble was gone: median {1}, quartiles {2} and {3} (of {4})") \
    X(CASES_CAUSE_UNKNOWN, "not kept, or nobody knows") \
    X(CASES_BAD_LINES, "Lines that can't be used: {1}") \
    /* ---- what cases teach ---- */ \
    X(COMPARE_EDITS, "Entries that differ: {1}.") \
    X(COMPARE_OF, "{1}: {2} of {3} come out otherwise.") \
    X(COMPARE_WORKED, "Worked cases") \
    X(COMPARE_STORED, "Cases that were kept") \
    X(COMPARE_CALLS, "Made-up calls") \
    X(COMPARE_ONE_SIDED, "Worked cases of one edition only: {1} of the older, {2} of the newer.") \
    X(COMPARE_CASE, "{1} ({2} % of the chances lie elsewhere)") \
    X(COMPARE_KEPT, "Case {1}") \
    X(COMPARE_CALL, "Call {1}") \
    X(COMPARE_LEADS, "leads: {1}, {2}; before: {3}, {4}") \
    X(COMPARE_NEXT, "comes next: {1}; before: {2}") \
    X(COMPARE_PATH, "goes another way after {1} steps: {2}; before: {3}") \
    X(COMPARE_FIXES, "fixes: {1}; before: {2}") \
    X(COMPARE_CAUTIONS, "cautions: {1}; before: {2}") \
    X(COMPARE_PASSES, "comes out as expected now, and did not before") \
    X(COMPARE_FAILS, "does not come out as expected now, and did before") \
    X(COMPARE_NOT_PLAYED, "can't be played with the {1} edition") \
    X(COMPARE_OLDER, "older") \
    X(COMPARE_NEWER, "newer") \
    X(COMPARE_BY_EACH, "by: {1}") \
    X(COMPARE_BY_ALL, "only together, by: {1}") \
    X(COMPARE_NOTHING, "none") \
    X(COMPARE_MORE, "And {1} more, which moved less.") \
    X(TRY_FAILED, "FAILED {1} ({2})") \
    X(TRY_MORE_AT, "Name a case after the book to see why it came out so.") \
    X(TRY_UNTOUCHED, "No worked case touches:") \
    X(TRY_COVERS, "Touched: {1} of {2} rules, {3} of {4} symptoms, {5} of {6} causes, {7} of {8} fixes. With --held: which numbers they hold.") \
    X(TRY_ALL_PASSED, "All {1} worked cases came out as expected.") \
    X(TRY_SOME_PASSED, "{1} of {2} worked cases came out as expected, {3} did not.") \
    X(TRY_HELD, "{1} of {2} numbers are held: if one is turned round, some worked case comes out otherwise.") \
    X(TRY_NOT_HELD, "No worked case would notice:") \
    X(TRY_NUMBER, "{1} of {2}: {3}, turned to {4} ({5})") \
    X(LEARN_LOOKED_AT, "{1} cases looked at, {2} learned from.") \
    X(LEARN_NOT_FROM, "Not learned from:") \
    X(LEARN_OF_OTHERS, "{1} about other books") \
    X(LEARN_OPEN, "{1} not closed") \
    X(LEARN_NOT_GONE, "{1} handed on to somebody: how they ended is not known") \
    X(LEARN_BETTER, "{1} better, but not gone on the way: more than one thing may have been wrong") \
    X(LEARN_UNCONFIRMED, "{1} nobody confirmed the cause, or two named different ones") \
    X(LEARN_NOT_LISTED, "{1} something that the rules don't list: worth a look, a rule may be missing") \
    X(LEARN_UNKNOWN, "{1} of a cause that the rules no longer have") \
    X(LEARN_BROKEN, "{1} can't be read, or can't be replayed with these rules") \
    X(LEARN_BEFORE, "{1} in the numbers already: confirmed until {2}, which the book says in learned-until") \
    X(LEARN_OF_CURED, "The numbers are those of cured calls: of {1} handed over nobody said what it was. Whoever was called can: telltale ask --case.") \
    X(LEARN_HANDED_OVER, "Of {1} cases handed over the cause of {2} is known. Each counts {3} times as much as a cured one, so that both kinds have their share.") \
    X(LEARN_HANDED_OVER_HELD, "Of {1} cases handed over the cause of {2} is known. Each counts {3} times as much as a cured one and would have to count more: the numbers lean towards what is cured.") \
    X(LEARN_STAYS, "stays {1}") \
    X(LEARN_STAYS_AS_IT_IS, "stays as it is") \
    X(LEARN_CHANGES, "{1} -> {2}") \
    X(LEARN_LEFT_OUT, "left out") \
    X(LEARN_INTERVAL, "{1} % -> {2} %, 95 % sure between {3} and {4} %") \
    X(LEARN_INTERVAL_CLEAR, "{1} % -> {2} %, 95 % sure between {3} and {4} %; the cases speak clearly against the old number") \
    X(LEARN_SHARE, "share of calls {1} % -> {2} %, 95 % sure between {3} and {4} %") \
    X(LEARN_SHARE_CLEAR, "share of calls {1} % -> {2} %, 95 % sure between {3} and {4} %; the cases speak clearly against the old number") \
    X(LEARN_OF_CASES, "{1} of {2} cases") \
    X(LEARN_OF_ANSWERS, "{1} of {2} answers") \
    X(LEARN_CAUSE_AT, "{1} ({2})") \
    X(LEARN_SYMPTOM_AT, "{1}: {2} ({3})") \
    X(LEARN_OTHERWISE_AT, "{1}: otherwise ({2})") \
    X(LEARN_ANSWERS_COUNT, "How much the answers count. Signs of one fault go together, and each taken for news of its own makes the chances too sure:") \
    X(LEARN_ANSWERS_COUNT_AT, "answers-count ({1})") \
    X(LEARN_COUNT_OF_CASES, "{1} cases") \
    X(LEARN_HOW_OFTEN, "How often a cause is met, apart from what rules make of it in a case. Those without a case mostly keep their number; their share falls:") \
    X(LEARN_SHOWN_BY, "How often a symptom is shown by a cause:") \
    X(LEARN_OTHERWISE, "How often a symptom is shown otherwise:") \
    X(LEARN_WOULD_CHANGE, "What would change:") \
    X(LEARN_TRIALS, "worked cases that come out as expected: {1} of {2} -> {3} of {2}") \
    X(LEARN_TRIAL, "{1} ({2}): {3}") \
    X(LEARN_MADE_UP, "In {1} made-up calls, drawn from the numbers as they are -> as they would be:") \
    X(LEARN_LEADS, "the right cause leads at the first fix: {1} % ({2} to {3}) -> {4} % ({5} to {6})") \
    X(LEARN_QUESTIONS, "questions a call: {1} ± {2} -> {3} ± {4}") \
    X(LEARN_MINUTES, "minutes a call: {1} ± {2} -> {3} ± {4}") \
    X(LEARN_TOO_FEW, \
      "There is nothing to show yet: the rules have {1} causes, and it takes about 4 confirmed cases for each on the mean, {2} in all, " \
      "before cases know better than an author.") \
    X(LEARN_WARNINGS, "With these numbers 'check' would warn of {1} more things than it does now.") \
    X(LEARN_WORTH_IT, "It is worth having from about 12 cases a cause on the mean, {1} in all.") \
    X(LEARN_NOTHING_CHANGED, "Nothing has been changed. With --patch this becomes a patch that you can read, shorten and apply.") \
    /* ---- made-up calls ---- */ \
    X(REHEARSE_NO_CALL, "{1}: no such call") \
    X(REHEARSE_SHARE, "{1}: {2} % ({3} to {4})") \
    X(REHEARSE_SHARE_OF_FEW, "{1}: {2} % ({3} to {4}); too few calls to tell") \
    X(REHEARSE_MEAN, "{1}: {2} ± {3}") \
    X(REHEARSE_MEAN_OF_FEW, "{1}: {2} ± {3}; too few calls to tell") \
    X(REHEARSE_MEAN_OF_ONE, "{1}: {2}; too few calls to tell") \
    X(REHEARSE_BOOK, "{1}, edition {2}") \
    X(REHEARSE_CALLS, "{1} made-up calls as {2}, seed {3}.") \
    X(REHEARSE_MISREAD, "{1} % more answers are wrong than the book says.") \
    X(REHEARSE_NUMBERS_OFF, "The book's numbers are off by up to {1} %.") \
    X(REHEARSE_INTERVALS, "Behind each figure stands where it would lie 95 times in 100.") \
    X(REHEARSE_AT_FIRST_FIX, "When the first fix is begun, or somebody is called, the right cause") \
    X(REHEARSE_LEADS, "leads") \
    X(REHEARSE_AMONG_THREE, "is among the first three") \
    X(REHEARSE_AT_BEST, "Against what could be done at best, in {1} calls") \
    X(REHEARSE_KNOWN_LEADS, "the right cause leads at the first fix with every answer known before") \
    X(REHEARSE_OURS_LEADS, "it leads there as telltale asks") \
    X(REHEARSE_MISSED, "points that it misses") \
    X(REHEARSE_OVER_CLAIRVOYANT, "minutes over those of somebody who knows what is wrong") \
    X(REHEARSE_KNOWN_OVER_CLAIRVOYANT, "the same with every answer known before, at no minutes") \
    X(REHEARSE_RATIO, "{1}: {2} ± {3}") \
    X(REHEARSE_RATIO_OF_FEW, "{1}: {2} ± {3}; too few calls to tell") \
    X(REHEARSE_OVER, "Handed over, and played on to the end with whoever is called: {1} calls") \
    X(REHEARSE_OVER_CURED, "cured in the end") \
    X(REHEARSE_OVER_NOBODY, "nobody is left to be called") \
    X(REHEARSE_OVER_BEFORE, "minutes worked before") \
    X(REHEARSE_OVER_AFTER, "minutes worked by whoever is called") \
    X(REHEARSE_OVER_BOTH, "minutes worked by all") \
    X(REHEARSE_OVER_WAITED, "minutes of waiting") \
    X(REHEARSE_WORKED, "Minutes worked in a call, waiting aside") \
    X(REHEARSE_WORKED_AS, "as {1}, in {2} calls") \
    X(REHEARSE_PLACE_CHANGES, "changes of place") \
    X(REHEARSE_SET, "The fewest causes that hold 90 % of the chances, at the first fix") \
    X(REHEARSE_SET_HELD, "what is wrong is among them") \
    X(REHEARSE_SET_CAUSES, "causes") \
    X(REHEARSE_SET_SAID, "They were said to hold {1} % on the mean: {2} points off. By luck alone it would be {3} if every chance were right, and above {4} once in twenty.") \
    X(REHEARSE_KIND, "{1}: {2}") \
    X(REHEARSE_LEADS_AT_FIRST_FIX, "leads at the first fix") \
    X(REHEARSE_CURED, "cured") \
    X(REHEARSE_MINUTES, "minutes") \
    X(REHEARSE_ONE_CAUSE, "Calls with one cause") \
    X(REHEARSE_TWO_CAUSES, "Calls with two causes") \
    X(REHEARSE_NOT_LISTED, "Calls with something that is not listed") \
    X(REHEARSE_BLAMED, "blamed on a listed cause") \
    X(REHEARSE_BLAMED_SURELY, "blamed on it with 90 % or more") \
    X(REHEARSE_ENDS, "How the calls end") \
    X(REHEARSE_CALLED, "somebody is called") \
    X(REHEARSE_STOPPED, "stopped for danger") \
    X(REHEARSE_QUESTIONS, "questions") \
    X(REHEARSE_MINUTES_MORE, "minutes more") \
    X(REHEARSE_WAYS, "Questions and minutes to the end; a call-out counts as {1} minutes") \
    X(REHEARSE_AS_WE_ASK, "As telltale asks") \
    X(REHEARSE_IN_ORDER, "Asking in the order of the names, until it would fix or call") \
    X(REHEARSE_EVERYTHING, "Asking everything, then fixing") \
    X(REHEARSE_LOW_RISK, "low risk") \
    X(REHEARSE_MEDIUM_RISK, "medium risk") \
    X(REHEARSE_SERIOUS_RISK, "serious risk") \
    X(REHEARSE_NEEDLESS, "Fixes in 100 calls that could not have helped") \
    X(REHEARSE_QUICKEST_FIRST, "With the quickest fixes first there would be more of them") \
    X(REHEARSE_SAFEST_COSTS, "Safest first costs, against that") \
    X(REHEARSE_MINUTES_A_CALL, "minutes a call") \
    X(REHEARSE_CALIBRATION, \
      "How far the chances can be believed: of the calls in which the leading cause had, at the first fix,") \
    X(REHEARSE_BIN, "{1} to {2} % ({3} calls, mean {4} %), it was right in") \
    X(REHEARSE_BIN_OF_ONE, "{1} to {2} % (1 call, mean {4} %), it was right in") \
    X(REHEARSE_OFF_BY, "On the mean a chance is off by {1} points. By luck alone it would be {2} if every one were right, and above {3} once in twenty.") \
    X(REHEARSE_SURPRISE, \
      "What was wrong came as a surprise of {1} ± {2} bits: 0 if the right cause has 100 %, 1 if it has 50, 2 if it has 25. " \
      "Less is better.") \
    X(REHEARSE_ONE_FIX, "One fix serves both.") \
    X(REHEARSE_NO_QUESTION, "No question that this role may answer tells them apart.") \
    X(REHEARSE_QUESTION, "{1} tells them apart best: {2}") \
    X(REHEARSE_CONFUSED, "Taken for each other most often, at the first fix") \
    X(REHEARSE_BLAMED_FOR, "{1}; blamed: {2}") \
    X(REHEARSE_OF_ITS_CALLS, "{1} of its {2} calls ({3} to {4} %)") \
    /* ---- the bench ---- */ \
    X(BENCH_TITLE, "Bench: {1}") \
    X(BENCH_SAVE, "Save {1}") \
    X(BENCH_NO_FAULTS, "No faults.") \
    X(BENCH_NOT_PLAYED, "The cases can't be played before the errors are mended.") \
    X(BENCH_CASES, "Cases: {1} of {2} came out as expected.") \
    X(BENCH_FAILED, "{1} ({2}): {3}") \
    X(BENCH_MORE, "and {1} more") \
    X(BENCH_NOTHING_MOVED, "Nothing has moved since the last save.") \
    X(BENCH_MOVED, "What has moved since the last save:") \
    X(BENCH_NEW_CASE, "{1}, new: {2} leads with {3}, {4}") \
    X(BENCH_GONE_CASE, "{1} is there no longer") \
    X(BENCH_OTHER_LEADS, "{1}: {2} led with {3}, now {4} with {5}") \
    X(BENCH_CHANCE, "{1}: {2} leads, with {3} before, now {4}") \
    X(BENCH_NOW, "now {1}") \
    X(BENCH_AS_EXPECTED, "as expected") \
    X(BENCH_NOT_AS_EXPECTED, "not as expected") \
    X(BENCH_WAITS, "Waiting for the next save; Ctrl-C ends.") \
    X(BENCH_FOLDER, "Folder") \
    X(BENCH_SAVES, "Saves seen") \
    X(BENCH_ERRORS, "Errors") \
    X(BENCH_WARNINGS, "Warnings") \
    X(BENCH_CASES_OF, "Cases as expected") \
    X(BENCH_SO_MANY_OF, "{1} of {2}") \
    X(BENCH_CHECK, "What check says") \
    X(BENCH_FAULT_LEAD, "{1} {2} {3}:") \
    X(BENCH_MOVED_HEADING, "What has moved since the last save") \
    X(BENCH_MOVED_CAPTION, "Cases that came out otherwise, what matters most first") \
    X(BENCH_CASES_HEADING, "Worked cases") \
    X(BENCH_CASES_CAPTION, "Worked cases, those that did not come out as expected first") \
    X(BENCH_CASE, "Case") \
    X(BENCH_LED, "Led before") \
    X(BENCH_WITH, "With") \
    X(BENCH_LEADS, "Leads now") \
    X(BENCH_WITH_NOW, "Chance") \
    X(BENCH_VERDICT, "What came of it") \
    X(BENCH_PLACE, "Where") \
    X(BENCH_NO_LONGER, "there no longer") \
    /* ---- …as a page ---- */ \
    X(REHEARSE_PAGE_TITLE, "Rehearsal: {1}") \
    X(REHEARSE_PAGE_CALLS, "Made-up calls") \
    X(REHEARSE_PAGE_ROLE, "Who asks") \
    X(REHEARSE_PAGE_SEED, "Seed") \
    X(REHEARSE_PAGE_MISREAD, "More wrong answers") \
    X(REHEARSE_PAGE_OFF, "The book's numbers are off by up to") \
    X(REHEARSE_PAGE_PICTURE, "{1}; the table below has the same figures") \
    X(REHEARSE_PAGE_RANGE, "{1} to {2}") \
    X(REHEARSE_PAGE_WHAT, "What") \
    X(REHEARSE_PAGE_VALUE, "Figure") \
    X(REHEARSE_PAGE_WHERE, "95 in 100 times") \
    X(REHEARSE_PAGE_OF, "Calls") \
    X(REHEARSE_PAGE_RIGHT, "How often it is right") \
    X(REHEARSE_PAGE_RIGHT_CAPTION, "Shares of the calls") \
    X(REHEARSE_PAGE_LEADS, "The right cause leads when the first fix is begun") \
    X(REHEARSE_PAGE_THREE, "It is among the first three then") \
    X(REHEARSE_PAGE_HELD, "It is among the fewest causes that hold 90 %") \
    X(REHEARSE_PAGE_CURED, "The trouble is gone without calling anybody") \
    X(REHEARSE_PAGE_CALLED, "Somebody is called") \
    X(REHEARSE_PAGE_STOPPED, "Stopped for danger") \
    X(REHEARSE_PAGE_BELIEVED, "How far the chances can be believed") \
    X(REHEARSE_PAGE_BELIEVED_SAYS, "Across: the chance of the leading cause when the first fix is begun. Up: in how many of those calls it was there. Dots on the slanting line are chances that can be believed; above it they are too low, below it too high. The larger a dot, the more calls.") \
    X(REHEARSE_PAGE_FLOOR, "On the mean a chance is off by {1} points. If every chance were exactly right, so many calls would show {2} points by luck alone, and above {3} once in twenty: only what is above that says something of the book.") \
    X(REHEARSE_PAGE_BINS_CAPTION, "Chances that were said, and how often they came true") \
    X(REHEARSE_PAGE_SAID, "Said") \
    X(REHEARSE_PAGE_MEAN, "On the mean") \
    X(REHEARSE_PAGE_WAS_RIGHT, "It was there") \
    X(REHEARSE_PAGE_CONFUSED, "What is taken for what") \
    X(REHEARSE_PAGE_NONE_CONFUSED, "In these calls no cause led in place of the one that was there.") \
    X(REHEARSE_PAGE_GRID_SAYS, "In rows what was wrong, in columns, under the same numbers, what led in its place when the first fix was begun. The area of a dot is the share of the row's calls. Only the pairs that came most often are drawn.") \
    X(REHEARSE_PAGE_PAIRS_CAPTION, "Pairs that came most often") \
    X(REHEARSE_PAGE_WRONG, "What was wrong") \
    X(REHEARSE_PAGE_LED, "What led") \
    X(REHEARSE_PAGE_SHARE, "Of its calls") \
    X(REHEARSE_PAGE_TELLS, "What tells them apart best") \
    X(REHEARSE_PAGE_AND, "{1} {2}") \
    X(REHEARSE_PAGE_BEST, "Against what could be done at best") \
    X(REHEARSE_PAGE_BEST_SAYS, "Somebody who knows for certain what is wrong, and may do no more than this role, has the fewest minutes that there can be. With every answer known before, at no minutes, nobody ranks better on the mean.") \
    X(REHEARSE_PAGE_BEST_CAPTION, "The right cause leads when the first fix is begun") \
    X(REHEARSE_PAGE_KNOWN, "Every answer known before") \
    X(REHEARSE_PAGE_OURS, "As telltale asks, in the same calls") \
    X(REHEARSE_PAGE_RATIO_CAPTION, "Minutes of a call, for each minute of somebody who knows what is wrong") \
    X(REHEARSE_PAGE_SET_SAYS, "The fewest causes that hold 90 % were said to hold {1} % on the mean, and held what was wrong in {2} %. If every chance were right, so many calls would be {3} points off by luck alone, and above {4} once in twenty.") \
    X(REHEARSE_PAGE_OVER, "What happens when somebody is called") \
    X(REHEARSE_PAGE_OVER_SAYS, "Calls that are handed over are played on to the end: whoever is called goes on with all that was told. Waiting is no work: on the mean it is {1} minutes of each of these calls.") \
    X(REHEARSE_PAGE_OVER_CAPTION, "How calls that are handed over end") \
    X(REHEARSE_PAGE_OVER_CURED, "Cured in the end") \
    X(REHEARSE_PAGE_OVER_NOBODY, "Nobody is left to be called") \
    X(REHEARSE_PAGE_WORK_CAPTION, "Minutes worked in a call that is handed over") \
    X(REHEARSE_PAGE_OVER_BEFORE, "Before somebody is called") \
    X(REHEARSE_PAGE_OVER_AFTER, "By whoever is called") \
    X(REHEARSE_PAGE_OVER_BOTH, "By all together") \
    X(REHEARSE_PAGE_CLAIRVOYANT, "Knowing what is wrong") \
    X(REHEARSE_PAGE_TAKES, "What a call takes") \
    X(REHEARSE_PAGE_TAKES_SAYS, "The same calls, played in six ways, with the same luck; a call-out counts as {1} minutes. The second, third and fourth were played with every fifth call only.") \
    X(REHEARSE_PAGE_SOONEST, "Asking as telltale does, with the quickest fixes first") \
    X(REHEARSE_PAGE_MINUTES_CAPTION, "Minutes of a call") \
    X(REHEARSE_PAGE_QUESTIONS_CAPTION, "Questions of a call") \
    X(REHEARSE_PAGE_SAFETY, "What safety costs") \
    X(REHEARSE_PAGE_PRICE, "With the safest fixes first a call takes {1} minutes more (± {2}) than with the quickest first. What that is worth: how many fixes people do that could not have helped, by their risk.") \
    X(REHEARSE_PAGE_NEEDLESS_OWN, "{1}, safest first") \
    X(REHEARSE_PAGE_NEEDLESS_QUICK, "{1}, so many more with the quickest first") \
    X(REHEARSE_MOVING, "Numbers of the book that move the minutes of a call most, if the truth were 30 % below or above what is written") \
    X(REHEARSE_MOVING_OFTEN, "how often {1} occurs: {2}") \
    X(REHEARSE_MOVING_SHOWN, "{1} shown by {2}: {3}") \
    X(REHEARSE_MOVING_OTHERWISE, "{1} otherwise: {2}") \
    X(REHEARSE_MOVING_CURES, "{1} cures {2}: {3}") \
    X(REHEARSE_MOVING_BY, "below {1} ± {2}, above {3} ± {4} minutes ({5})") \
    X(REHEARSE_MOVING_NONE, "So few calls can't tell. Play more: --calls 5000") \
    X(REHEARSE_PAGE_MOVING, "Which numbers matter") \
    X(REHEARSE_PAGE_MOVING_SAYS, "Minutes that a call would take more, if the truth were 30 % below or above one number of the book and all were asked and tried by the book as it is. Weigh these first.") \
    X(REHEARSE_PAGE_MOVING_CAPTION, "Numbers that move the minutes of a call most") \
    X(REHEARSE_PAGE_NUMBER, "Number") \
    X(REHEARSE_PAGE_AT, "Where") \
    X(REHEARSE_PAGE_BELOW, "30 % below") \
    X(REHEARSE_PAGE_ABOVE, "30 % above") \
    X(REHEARSE_PAGE_MORE, "{1} ± {2}") \
    X(REHEARSE_ENOUGH, "For 2 points up or down play about {1} calls: --calls {1}")

/* clang-format on */

#endif
