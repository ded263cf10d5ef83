/* Our own words to people, in English. X(id, text); inserts are {1} … {9}, see catalogue.h. */
#ifndef TT_SHOW_TEXTS_EN_H
#define TT_SHOW_TEXTS_EN_H

#define TEXTS_EN(X) \
    /* ---- figures ---- */ \
    X(TEXT_UNDER_A_MINUTE, "under a minute") \
    X(TEXT_ABOUT_A_MINUTE, "about a minute") \
    X(TEXT_ABOUT_MINUTES, "about {1} minutes") \
    X(TEXT_ABOUT_AN_HOUR, "about an hour") \
    X(TEXT_ABOUT_HOURS, "about {1} hours") \
    X(TEXT_ABOUT_HOURS_MINUTES, "about {1} h {2} min") \
    X(TEXT_UNDER_ONE_PERCENT, "under 1 %") \
    X(TEXT_OVER_NINETYNINE_PERCENT, "over 99 %") \
    X(TEXT_PERCENT, "{1} %") \
    X(TEXT_VERY_LIKELY, "very likely") \
    X(TEXT_LIKELY, "likely") \
    X(TEXT_FAIR_CHANCE, "a fair chance") \
    X(TEXT_SMALL_CHANCE, "a small chance") \
    X(TEXT_UNLIKELY, "unlikely") \
    X(TEXT_WITH_CHANCE, "{1} ({2}, {3})") \
    X(TEXT_CAUSE_CHANCE, "{1} ({2})") \
    X(TEXT_NAMED, "{1}: {2}") \
    X(TEXT_FROM_TO, "{1} {2} before, {3} after") \
    X(TEXT_ASKED_ANSWERED, "{1} {2}") \
    /* ---- words of ours ---- */ \
    X(TEXT_WORD_DANGER, "something is dangerous, or somebody is hurt") \
    X(TEXT_WORD_UNSURE, "I looked, and can't tell") \
    X(TEXT_WORD_CANNOT, "I can't look or do that") \
    X(TEXT_WORD_WHY, "why is this asked?") \
    X(TEXT_WORD_KNOWN, "what is known so far") \
    X(TEXT_WORD_CAUTIONS, "how to keep out of harm") \
    X(TEXT_WORD_CHANGE, "change an answer") \
    X(TEXT_WORD_BACK, "take the last step back") \
    X(TEXT_WORD_STOP, "stop, go on another time") \
    X(TEXT_WORD_HOLD, "stop, and leave a note") \
    X(TEXT_WORD_HAND, "pass it on to somebody") \
    X(TEXT_WORD_HELP, "show these words") \
    X(TEXT_WORD_LINE, "{1}: {2}") \
    X(TEXT_THESE_WORDS, "Type the number beside your answer, or the answer itself. These words always work:") \
    X(TEXT_COLON, "If one of them is also an answer, the answer counts. Then put a colon before the word, like :stop.") \
    X(TEXT_KEPT_AT_ONCE, "Every answer is kept at once. You can close this window at any time.") \
    X(TEXT_READ_ON, "Go on when you have read this.") \
    X(TEXT_GO_ON, "Go on") \
    X(TEXT_NO_ANSWER_HERE, "That is no answer here.") \
    X(TEXT_NO_NUMBER_HERE, "No number is asked for here.") \
    X(TEXT_NONE_OF_THE_ANSWERS, "That is none of the answers. Type a number from the list, the words beside it, or one of the words below.") \
    X(TEXT_NOTHING_SAID, "Type a number from the list, or what you see. If you can't tell, type unsure.") \
    X(TEXT_GIVEN_WRONG, "Not taken, and nothing of this message: '{1}' is no question here, or this is no answer to it.") \
    X(TEXT_DOES_NOT_FIT, "That does not fit this question.") \
    X(TEXT_NOT_NOW, "That can't be told now: the case has gone on meanwhile.") \
    X(TEXT_NO_ANSWERS_FILE, "{1} can't be taken: it does not answer the questions of these rules.") \
    X(TEXT_ONE_BACK, "One step back.") \
    X(TEXT_NOTHING_BACK, "There is no step to take back.") \
    X(TEXT_LOOK_ONLY, "You only look at this case, so nothing that you say is kept. If there is danger: stop, keep away and call. Then take the case up, and say so.") \
    X(TEXT_OUT_OF_MEMORY, "This machine is out of memory. What was kept is safe. Your last reply may not have been taken: look, and say it again.") \
    X(TEXT_NOBODY_GOES_ON, "Nothing of this case is kept, so nobody can go on with it.") \
    X(TEXT_WHICH_HELP, "Which help do you need?") \
    X(TEXT_HELP_DANGER, "There is danger, or somebody is hurt") \
    X(TEXT_HELP_HOW, "How does this work?") \
    X(TEXT_HELP_NEITHER, "Neither, go on") \
    /* ---- opening ---- */ \
    X(TEXT_SITE, "Site: {1}") \
    X(TEXT_CASE_NUMBER, "Case number: {1}") \
    X(TEXT_CAUTIONS_AT, "How to keep out of harm: type cautions.") \
    X(TEXT_BEFORE_YOU_BEGIN, "Before you begin:") \
    X(TEXT_NO_CAUTIONS, "These rules give no cautions. Local codes, the equipment's manuals and safety data sheets hold.") \
    /* ---- danger ---- */ \
    X(TEXT_DANGER_FROM, "Danger from:") \
    X(TEXT_RISK, "Risk: {1}") \
    X(TEXT_RISK_WITH, "Risk: {1}; with what follows: {2}") \
    X(TEXT_WEAR, "Wear:") \
    X(TEXT_ISOLATE_FIRST, "First switch off and lock, in this order:") \
    X(TEXT_FIRST_TELL, "Before anything is switched off:") \
    X(TEXT_THEN_RELEASE, "Then let go what is stored:") \
    X(TEXT_THEN_PROVE, "Then prove that nothing is left:") \
    X(TEXT_THEN_RESTORE, "When the work is done, give it back:") \
    X(TEXT_TRIED_FIRST, "Before this one tries: {1}") \
    X(TEXT_ONCE_RUNNING, "Once it runs again:") \
    X(TEXT_AFTERWARDS, "Afterwards:") \
    X(TEXT_RUNS_MEANWHILE, "It runs while you do this: {1}") \
    X(TEXT_RUNS, "It runs while you do this.") \
    X(TEXT_STOPPED_MEANWHILE, "It is stopped while you do this.") \
    X(TEXT_WHOLE_LOCKOUT, "Show all of it first") \
    X(TEXT_BEGIN_PUT_BACK, "I begin: make it safe, then put it back") \
    X(TEXT_PUT_BACK_SAFELY, "It was given back, so it is made safe once more before it is put back.") \
    X(TEXT_STOP_PROMPT, "STOP. Nothing else is done until this is safe.") \
    X(TEXT_DO_NOW, "Do this now:") \
    X(TEXT_THEN, "Then:") \
    X(TEXT_CALL, "Call:") \
    X(TEXT_CALL_ROLE, "Call: {1}") \
    X(TEXT_CONTACT, "{1}: {2}") \
    X(TEXT_CONTACT_HOURS, "{1} ({2})") \
    X(TEXT_EMERGENCY_NUMBER, "Somebody is hurt, or it burns: {1} first") \
    X(TEXT_LOCAL_EMERGENCY, "Somebody is hurt, or it burns: your local emergency number first") \
    X(TEXT_TELL_THEM, "Tell them:") \
    X(TEXT_TELL_PLACE, "Place: {1}") \
    X(TEXT_TELL_WHERE, "Where you are, and how to get in") \
    X(TEXT_TELL_WHAT, "What happened, and who is hurt") \
    X(TEXT_TELL_WORDS, "What happened: “{1}”") \
    X(TEXT_TELL_PRODUCTS, "Which products are there; have their safety data sheets at hand") \
    X(TEXT_TELL_NUMBER, "Case number: {1}") \
    X(TEXT_LEAVE_LOCKS, "Leave the locks on. Done so far:") \
    X(TEXT_CHOICE_WAIT_SAFE, "I do this now, and wait for help") \
    X(TEXT_CHOICE_MISTAKEN, "No, nothing like that") \
    X(TEXT_CHOICE_SAFE_NOW, "It is over: ask me about danger again") \
    X(TEXT_CHOICE_MADE_SAFE, "I was called, and made it safe: close the case") \
    X(TEXT_STAY_AWAY, "Stay away from it, keep everybody else away, and wait for help.") \
    X(TEXT_ASKED_FOR_WORDS, "You said: “{1}”. So first:") \
    /* ---- what is wrong ---- */ \
    X(TEXT_WHAT_IS_WRONG, "What is wrong? Say it in your own words, or type a number.") \
    X(TEXT_WHAT_ELSE, "What else is wrong? Say it in your own words, or type a number.") \
    X(TEXT_WHERE_IS_IT, "Where do you see it? Type a number, or say it in other words.") \
    X(TEXT_ELSEWHERE, "At another place, or at several") \
    X(TEXT_WHOLE_LIST, "I don't know: show me the whole list") \
    X(TEXT_ANOTHER_PLACE, "It is at another place") \
    X(TEXT_NONE_OF_THESE, "None of these") \
    X(TEXT_IS_IT_THIS, "Is it this: {1}?") \
    X(TEXT_YES, "Yes") \
    X(TEXT_NO, "No") \
    X(TEXT_NO_BUT, "No: {1}") \
    X(TEXT_OTHER_WORDS, "Then try other words, or type a number from the list.") \
    X(TEXT_NOT_UNDERSTOOD, "That was not understood. Choose from the list, or say it in other words.") \
    X(TEXT_WHICH_ONE, "Which {1} is it? If it is several, type their numbers, like 1,2.") \
    X(TEXT_ALL_OF_THEM, "All of them") \
    X(TEXT_NOT_SURE_WHICH, "Not sure which") \
    X(TEXT_NOT_OF_THESE, "That can't be said of these.") \
    X(TEXT_WHICH_IS_MEANT, "Which is meant by “{1}”?") \
    X(TEXT_WAS_NOW, "{1} It was: {2}. Now: {3}.") \
    X(TEXT_UNDERSTOOD, "Understood: {1} {2}.") \
    X(TEXT_NOTED, "Noted: “{1}”.") \
    X(TEXT_NOT_TAKEN, "“{1}”: {2}") \
    X(TEXT_NOW_PUT_BACK, "Now put it back:") \
    X(TEXT_TAKES, "This takes {1}.") \
    X(TEXT_FOR_WHOEVER_COMES, "It is asked for whoever comes next.") \
    X(TEXT_READ_WITH, "Use {1}.") \
    /* ---- where it stands ---- */ \
    X(TEXT_POINTS_TO, "What it points to:") \
    X(TEXT_NOT_LISTED, "Something that these rules don't list") \
    X(TEXT_TWO_FAULTS, "Both of these: {1}, and {2} ({3})") \
    X(TEXT_FITS_NONE, "The answers fit none of the listed faults well. It may be something that these rules don't know.") \
    X(TEXT_PROBABLY_NONE, "Probably none of these: what was tried should have helped. It is more likely something that these rules don't list.") \
    X(TEXT_NOTHING_WRONG, "Nothing here is out of order, as far as it was looked at.") \
    X(TEXT_LIKELY_SET, "With a chance of 9 in 10 it is one of the first {1}.") \
    X(TEXT_FITS_NOTHING, "The answers so far fit nothing that these rules list.") \
    X(TEXT_ONLY_ONE_LISTED, "These rules list nothing else that it could be.") \
    X(TEXT_ALL_RULED_OUT, "The answers rule out every listed fault. One of them may be mistaken.") \
    X(TEXT_FIXES_LIKELY, "Likely to help, the safest first:") \
    X(TEXT_FIXES_POSSIBLE, "May help:") \
    X(TEXT_FIXES_NOT_YET, "Not yet worth it:") \
    X(TEXT_FIXES_OTHER_ROLE, "For somebody else to do:") \
    X(TEXT_FIXES_HELD, "Nothing is to be tried until danger is ruled out. These come later:") \
    X(TEXT_FIX_IN_LIST, "{1} ({2}, {3} risk, {4}, {5})") \
    X(TEXT_FIXES_ORDER, "Fixes, in the order to try them (chance to help, risk, time, who):") \
    X(TEXT_FIXES_MORE, "And {1} more, less likely to help.") \
    X(TEXT_ASK_NEXT, "Ask next: {1}") \
    X(TEXT_DO_NEXT, "Do next: {1}") \
    X(TEXT_STOP_NOW, "STOP: {1}") \
    X(TEXT_CALL_NOW, "Call: {1}.") \
    X(TEXT_NO_FIXES, "These rules know no fix for it.") \
    X(TEXT_KNOWN_SO_FAR, "What is known so far:") \
    X(TEXT_NOTHING_KNOWN, "Nothing is known so far.") \
    X(TEXT_FOLLOWS, "From this follows:") \
    X(TEXT_KNOWN_OF_SITE, "Known of this site:") \
    X(TEXT_KNOWN_OF_EXAMPLE, "Known of the example site:") \
    X(TEXT_FACTS_COUNTED, "{1} facts, as its file says") \
    X(TEXT_IT_IS_ABOUT, "It is about:") \
    X(TEXT_ONE_UNTOLD, "{1} question that nobody could answer") \
    X(TEXT_SOME_UNTOLD, "{1} questions that nobody could answer") \
    X(TEXT_FACT_STALE, "{1} (before a fix changed things)") \
    X(TEXT_FACT_OF_FIX, "{1} (as a fix left it)") \
    X(TEXT_FACT_SOURCE, "{1} ({2})") \
    X(TEXT_WHY_ASKED, "Why this is asked:") \
    X(TEXT_WHY_NARROWS, "It narrows down what is wrong.") \
    X(TEXT_WHY_MORE, "More, for whoever writes the rules") \
    X(TEXT_WHY_RATHER, "Why rather this: {1}; than this: {2}") \
    X(TEXT_WHY_STOP, "What was said asks for this stop. Once it is over, say so, and answer the question about danger again.") \
    X(TEXT_SIGN_START, "How often it happens, before any answer") \
    X(TEXT_SIGN_FACTS, "The place and the day, told or as they mostly are") \
    X(TEXT_SIGN_FIXES, "Fixes that did not help") \
    X(TEXT_SIGN_FOR, "{1}: {2} sign for it") \
    X(TEXT_SIGN_AGAINST, "{1}: {2} sign against it") \
    /* ---- why, for whoever writes the rules ---- */ \
    X(TEXT_WHY_TITLE, "Why rather {1} ({2}) than {3} ({4}). In decibels: 3 is twice as likely, 10 ten times, 20 a hundred times; with a minus, as much less:") \
    X(TEXT_WHY_BAR, "{1} {2}") \
    X(TEXT_WHY_TOGETHER, "{1} all together, {2} times as likely: {3}") \
    X(TEXT_WHY_ONE_OUT, "All together, ruled out: {1}") \
    X(TEXT_WHY_RULED_OUT, "ruled out") \
    X(TEXT_WHY_OVER_THOUSAND, "over 1000") \
    X(TEXT_WHY_TWO_FAULTS, "The chances also count two faults at once; the decibels take one at a time.") \
    X(TEXT_WHY_MISSING, "Without an answer so far, and telling the two apart:") \
    X(TEXT_WHY_ANSWER, "{1} if '{2}'") \
    X(TEXT_WHY_AND, "{1}, {2}") \
    X(TEXT_WHY_OR, "{1} or {2}") \
    X(TEXT_WHY_QUOTED, "'{1}'") \
    X(TEXT_WHY_NO_ANSWER, "no answer") \
    X(TEXT_WHY_TURNS, "What alone would turn it:") \
    X(TEXT_WHY_FORWARD, "What alone would bring it forward:") \
    X(TEXT_WHY_OTHER_ANSWER, "Another answer: {1} {2} instead of '{3}'") \
    X(TEXT_WHY_QUESTION, "One question more: {1} {2}") \
    X(TEXT_WHY_NUMBER, "Another word: {1} instead of '{2}' as {3} of {4} ({5})") \
    X(TEXT_WHY_NO_RULES, "Without these rules: {1}") \
    X(TEXT_WHY_NO_FOCUS, "If it were about no piece of equipment by name") \
    X(TEXT_WHYF_FIRST, "Why not first: {1}; but: {2}") \
    X(TEXT_WHYF_NONE, "Why not first: {1}; and nothing else is worth trying yet") \
    X(TEXT_WHYF_TRIED, "It was tried already.") \
    X(TEXT_WHYF_FORBIDDEN, "It is too dangerous for everybody, also with its protection: somebody is called.") \
    X(TEXT_WHYF_ROLE, "It is the work of: {1}") \
    X(TEXT_WHYF_RULE, "A rule in force holds or skips it: {1}") \
    X(TEXT_WHYF_ONLY_WHEN, "Its 'only-when' does not hold.") \
    X(TEXT_WHYF_ONLY_WHEN_OPEN, "Whether its 'only-when' holds is not known yet.") \
    X(TEXT_WHYF_SETTING, "Its setting can't be stepped from where it is: {1} is 'within'") \
    X(TEXT_WHYF_AFTER, "By 'after' something else is tried first: {1}") \
    X(TEXT_WHYF_WORTH, "It helps in {1}, and with its risk ({2}) it is worth trying from {3} on.") \
    X(TEXT_WHYF_RISK, "Likely fixes come by risk: {1} comes before {2}.") \
    X(TEXT_WHYF_PACE, "The other one helps more for each minute: {1} in {2}, this one {3} in {4} (with the way there and the price of a needless job).") \
    X(TEXT_WHYF_TURNS, "What alone would put it first:") \
    X(TEXT_WHYF_TAKES, "'takes' of {1}: {2} or less instead of {3}") \
    X(TEXT_WHYF_CURES, "'cures' of {1}, {2}: {3} or more instead of {4}") \
    X(TEXT_WHYF_CURES_LESS, "'cures' of {1}, {2}: {3} or less instead of {4}") \
    X(TEXT_WHYF_OFTEN, "{1}: {2} times as likely as it is") \
    X(TEXT_WHYF_NOTHING, "No other time and no other chance.") \
    X(TEXT_WHY_NOTHING_TURNS, "Nothing: no other answer, no question more, and no other word for a number.") \
    X(TEXT_WHICH_WAS_WRONG, "Which answer was wrong?") \
    X(TEXT_OF_THIS_SITE, "Something known of this site") \
    X(TEXT_CHANGE_NOTHING, "None of them: change nothing") \
    X(TEXT_REVIEW, "Before you begin: is all of this right?") \
    X(TEXT_REVIEW_RIGHT, "Yes, all of it") \
    X(TEXT_REVIEW_CHANGE, "No, something is wrong") \
    /* ---- fixes ---- */ \
    X(TEXT_TRY_THIS, "Try this: {1}") \
    X(TEXT_FIX_STANDING, "Chance to help: {1}, {2}. Time: {3}. Who: {4}.") \
    X(TEXT_ISOLATE_ONE, "One thing is switched off and locked first. It comes next, by itself.") \
    X(TEXT_ISOLATE_SOME, "{1} things are switched off and locked first. They come next, one by one.") \
    X(TEXT_YOU_NEED, "You need:") \
    X(TEXT_COST, "Cost: {1}") \
    X(TEXT_CANT_BE_UNDONE, "This can't be undone.") \
    X(TEXT_DO_TOGETHER, "and under the same lockout, which counts once: {1}") \
    X(TEXT_TWO_FIXES, "{1}; and under the same lockout: {2}") \
    X(TEXT_UNDER_SAME_LOCKOUT, "Under the same lockout, which then counts once and saves {2}: {1} You are asked before anything is given back.") \
    X(TEXT_STILL_LOCKED, "Leave everything locked. Do this too before it is given back and tried out? {1}") \
    X(TEXT_LOCKOUT_COUNTS_ONCE, "They are done together, and the lockout counts once. One answer at the end is for both.") \
    X(TEXT_DO_THIS_TOO, "I do this too, with everything still locked") \
    X(TEXT_DO_THIS_TOO_DRESSED, "I have all of this on, and do this too, with everything still locked") \
    X(TEXT_IF_IN_VAIN, "If they do not help, it is put back: {1}") \
    X(TEXT_GIVE_BACK_FIRST, "No: give it back, and try it out") \
    X(TEXT_BEGIN, "I begin") \
    X(TEXT_BEGIN_DRESSED, "I have all of this on, and begin") \
    X(TEXT_CANT_DO_FIX, "I can't do this, or must not") \
    X(TEXT_LOCK_RULE, "Your own lock, and your own key in your pocket. If you may not do that, or it can't be locked: I can't do this.") \
    X(TEXT_STEP_AT_MOST, "Step {1} of at most {2}. It was found at {3}.") \
    X(TEXT_SET_FROM_TO, "Set it from {1} to {2}.") \
    X(TEXT_DONE_IT, "Done") \
    X(TEXT_CANT_DO_STEP, "I can't do this") \
    X(TEXT_DID_IT_HELP, "{1}: did it help?") \
    X(TEXT_CHOICE_GONE, "Yes, the trouble is gone") \
    X(TEXT_CHOICE_BETTER, "Better, but not gone") \
    X(TEXT_CHOICE_NO_CHANGE, "No change") \
    X(TEXT_CHOICE_COULD_NOT, "I could not do it") \
    X(TEXT_CHOICE_WORSE, "Worse, or something new happened") \
    X(TEXT_OUTCOME_GONE, "the trouble is gone") \
    X(TEXT_OUTCOME_BETTER, "better, but not gone") \
    X(TEXT_OUTCOME_NO_CHANGE, "no change") \
    X(TEXT_OUTCOME_COULD_NOT, "could not be done") \
    X(TEXT_OUTCOME_WORSE, "worse, or something new") \
    X(TEXT_LOCKS_OFF, "Tools out, guards on, people clear. Then take off your own lock, only yours, and tell them.") \
    X(TEXT_UNDO_THESE, "Leave it as you found it. Undo these, the last first:") \
    X(TEXT_PUT_BACK_FIRST, "{1}: the trouble is not gone. Before anything else is tried, put it back:") \
    X(TEXT_FOUND_STANDS, "It was found at {1} and stands at {2}.") \
    X(TEXT_IS_IT_PUT_BACK, "Is it put back?") \
    X(TEXT_IS_AT_AGAIN, "Yes, it is at {1} again") \
    X(TEXT_IS_AS_FOUND, "Yes, it is as it was found") \
    X(TEXT_CANT_PUT_BACK, "I can't put it back") \
    X(TEXT_LEAVE_AS_IS, "No, leave it as it is now") \
    X(TEXT_WAS_TRIED, "What was tried:") \
    X(TEXT_BEFORE_AFTER, "Before and after:") \
    X(TEXT_NOT_GONE, "the trouble was not gone") \
    X(TEXT_TRIED_PUT_BACK, "{1}; put back as found") \
    X(TEXT_TRIED_UNDER_WAY, "{1}; not finished") \
    X(TEXT_DONE, "{1}: done") \
    X(TEXT_DONE_FOR_GOOD, "{1}: done, can't be undone") \
    X(TEXT_DIFFERENT, "Different from before:") \
    X(TEXT_SEE_PUT_BACK, "See that this was put back:") \
    X(TEXT_PUT_BACK_AFTER, "{1} (after: {2})") \
    X(TEXT_WAS_SET, "It was set from {1} to {2}; see how it stands now.") \
    /* ---- rounds, and what is good ---- */ \
    X(TEXT_ROUND_DAILY, "The daily round: {1} things to look at, {2}.") \
    X(TEXT_ROUND_WEEKLY, "The weekly round, the daily one with it: {1} things to look at, {2}.") \
    X(TEXT_ROUND_MONTHLY, "The monthly round, the weekly and the daily one with it: {1} things to look at, {2}.") \
    X(TEXT_ROUND_NOTHING, "These rules say of nothing that it is looked at on such a round.") \
    X(TEXT_ROUND_SKIPPED, "The last round here was on {1}. Left out since: {2}.") \
    X(TEXT_ROUND_FIRST, "No round of this site is kept yet.") \
    X(TEXT_RECORD_BEGINS, "What good looks like here: {1} things to read, {2}. Only while everything runs well.") \
    X(TEXT_RECORD_NOTHING, "These rules say of no reading what its good value is.") \
    X(TEXT_WALK_ORDER, "That is all. Everything is in order.") \
    X(TEXT_WALK_ORDER_BUT, "That is all. What could be looked at is in order.") \
    X(TEXT_WALK_OFF, "That is all, and not everything is in order. Look for the fault now?") \
    X(TEXT_OUT_OF_ORDER, "Not in order:") \
    X(TEXT_NOT_LOOKED_AT, "Nobody could look at this:") \
    X(TEXT_CLOSE_ROUND, "Close the round") \
    X(TEXT_LOOK_FOR_FAULT, "Look for the fault now, with what was seen") \
    X(TEXT_CLOSE_DRIFTED, "Close the round; somebody sees to it later") \
    X(TEXT_KEEP_AS_GOOD, "Is this what good looks like here? Later readings are held against it.") \
    X(TEXT_FOUND_GOOD, "Found good today:") \
    X(TEXT_GOOD_BEFORE, "{1} (until now {2})") \
    X(TEXT_KEEP_GOOD, "Yes, write it down as what is good here") \
    X(TEXT_DROP_GOOD, "No, write down nothing") \
    X(TEXT_ROUND_IN_ORDER, "The round is done: in order.") \
    X(TEXT_ROUND_DRIFTED, "The round is done: not everything is in order.") \
    X(TEXT_RECORDED, "What is good is recorded.") \
    X(TEXT_GOOD_ON, "{1} was found good on {2}; it is {3} now.") \
    X(TEXT_GOOD_HERE, "{1} is good here; it is {2} now.") \
    X(TEXT_CREPT_UP, "{1} It has crept up, about {2} a week.") \
    X(TEXT_CREPT_DOWN, "{1} It has crept down, about {2} a week.") \
    X(TEXT_JUMPED, "{1} It jumped, between {2} and {3}.") \
    X(TEXT_JUMPED_TODAY, "{1} It jumped since {2}.") \
    /* ---- somebody else ---- */ \
    X(TEXT_CALL_PROMPT, "There is nothing left here that is worth trying yourself. Call somebody, and wait for them.") \
    X(TEXT_CALL_PUT_BACK, "Nothing else is tried until this is put back: {1}") \
    X(TEXT_READ_OUT, "Read this out to them:") \
    X(TEXT_THEY_MAY_BEGIN, "They may begin with: {1}") \
    X(TEXT_HARDLY_LIKELY, "Hardly likely by the answers, so not to begin with:") \
    X(TEXT_PARTS_TO_BRING, "Parts that they may need:") \
    X(TEXT_DONT_TOUCH, "Until they come, leave alone what is locked, what was set, and what they are called for.") \
    X(TEXT_CHOICE_WAIT, "I called them, and wait for them") \
    X(TEXT_CHOICE_PUT_BACK_NOW, "It is put back now") \
    X(TEXT_CHOICE_CLOSE, "Close the case; nobody goes on with it") \
    X(TEXT_TO_WHOM, "To whom does it go? The name of a post or a desk.") \
    X(TEXT_TO_NOBODY, "To nobody in particular") \
    X(TEXT_A_NOTE, "A note for whoever goes on?") \
    X(TEXT_NO_NOTE, "No note") \
    X(TEXT_TAKEN_OVER, "Somebody has taken this case over.") \
    X(TEXT_LEAVE_TO_THEM, "Leave it to them") \
    X(TEXT_GO_ON_TOO, "Go on too") \
    X(TEXT_RULES_CHANGED, "The rules have changed since this case was last worked on.") \
    X(TEXT_SITE_CHANGED, "What is said about the site has changed since this case was last worked on.") \
    X(TEXT_GO_ON_AS_NOW, "Go on with what is there now") \
    X(TEXT_STOP_HERE, "Stop here") \
    X(TEXT_ANSWERED_DIFFERENTLY, "This was answered differently by people who did not know of each other. Which is right?") \
    X(TEXT_REPORTED_DIFFERENTLY, "This fix was reported on differently by people who did not know of each other. Which is right?") \
    X(TEXT_ASK_AGAIN, "Ask it again") \
    X(TEXT_MEANWHILE, "Meanwhile:") \
    X(TEXT_NOTE_LEFT, "A note was left:") \
    X(TEXT_TROUBLE, "Trouble: {1}") \
    X(TEXT_POINTS_TO_ONE, "Points to: {1} ({2})") \
    X(TEXT_DIFFERENT_ONE, "Different from before: {1}") \
    X(TEXT_TO_PUT_BACK_ONE, "To be put back: {1}") \
    X(TEXT_LAST_DONE, "What was done last:") \
    X(TEXT_FIX_UNDER_WAY, "This was begun, and nobody told how it ended. Locks may be on:") \
    X(TEXT_WHO_WHAT, "{1} {2}: {3}") \
    X(TEXT_SOMEBODY, "somebody") \
    X(TEXT_LEFT_OUT, "Left out, because it does not fit the rules as they are now: {1} {2}") \
    X(TEXT_SAID_UNSURE, "not sure") \
    X(TEXT_SAID_CANNOT, "can't look there") \
    X(TEXT_SAID_NOT, "some of it ruled out") \
    X(TEXT_SAID_GUESS, "a guess") \
    X(TEXT_DID_TO, "{1} to {2}") \
    X(TEXT_DID_COMPLAIN, "the trouble: {1}") \
    X(TEXT_DID_PUT_BACK, "put back") \
    X(TEXT_DID_LEAVE_SO, "left as it is now") \
    X(TEXT_DID_COME_BACK, "it helped, and the trouble came back") \
    X(TEXT_DID_BEGIN_FIX, "begun") \
    X(TEXT_DID_STEP, "done: {1}") \
    X(TEXT_DID_STEP_BACK, "went back before: {1}") \
    X(TEXT_DID_SAY_DANGER, "told of danger: “{1}”") \
    X(TEXT_DID_TOUCH_DANGER, "told of danger") \
    X(TEXT_DID_RECHECK, "said: “{1}”; asked about danger again") \
    X(TEXT_DID_RECHECK_WORSE, "is asked about danger again") \
    X(TEXT_DID_SAY, "said: “{1}”") \
    X(TEXT_DID_MAKE_SAFE, "made safe by {1}") \
    X(TEXT_DID_WAIT, "called somebody, and waits") \
    X(TEXT_DID_JOIN, "joined") \
    X(TEXT_DID_TAKE_OVER, "took the case over") \
    X(TEXT_DID_RESUME, "took the case up again") \
    X(TEXT_DID_HOLD, "put the case on hold") \
    X(TEXT_DID_HAND_OVER, "handed the case over") \
    X(TEXT_DID_BACK, "took a step back") \
    X(TEXT_DID_SETTLE, "settled which answer is right") \
    X(TEXT_DID_CLOSE, "closed the case") \
    X(TEXT_DID_BEGIN, "began the case") \
    X(TEXT_DID_STOP, "stopped") \
    X(TEXT_DID_NO_COMPLAINT, "said that it is nothing of the list") \
    X(TEXT_DID_REVIEW, "looked over the answers") \
    X(TEXT_DID_CONFIRM, "said what it was: {1}") \
    X(TEXT_DID_PAUSE, "went on after a pause") \
    X(TEXT_DID_SITE, "said what equipment there is") \
    /* ---- what happened, on a sheet ---- */ \
    X(TEXT_TOLD_TROUBLE, "What is wrong") \
    X(TEXT_TOLD_NONE_OF_LIST, "none of the list") \
    X(TEXT_TOLD_FILE, "Answers came in a file") \
    X(TEXT_TOLD_WAS_IT, "Was that the cause?") \
    X(TEXT_TOLD_CALLED, "somebody else goes on") \
    X(TEXT_TOLD_STOPPED, "stopped for danger") \
    X(TEXT_TOLD_YES, "yes") \
    X(TEXT_TOLD_OTHER, "no, it was another one") \
    X(TEXT_TOLD_NOT_LISTED, "no, something that these rules don't list") \
    X(TEXT_TOLD_BY, "{1} ({2}, {3})") \
    X(TEXT_TOLD_BUT, "{1}; but: {2}") \
    /* ---- ends ---- */ \
    X(TEXT_WAS_THAT_IT, "Was that the cause: {1}?") \
    X(TEXT_NO_SOMETHING_ELSE, "No, it was something else") \
    X(TEXT_NOT_SURE, "Not sure") \
    X(TEXT_WHAT_WAS_IT, "What was it?") \
    X(TEXT_SHOW_ALL, "Another one: show them all") \
    X(TEXT_THANKS_KEPT, "Thank you. That is kept with the case.") \
    X(TEXT_THANKS_LATER, "Thank you. Whoever finds out later can still say so.") \
    X(TEXT_WHO_CONFIRMS, "Whether that was the cause is for the {1} to say, who can take up this case for it.") \
    X(TEXT_IS_CLOSED, "This case is closed.") \
    X(TEXT_LEAVE_CLOSED, "Leave it closed") \
    X(TEXT_REOPEN_MISTAKE, "Closing it was a mistake: open it again") \
    X(TEXT_CAME_BACK, "It helped, and the trouble came back") \
    X(TEXT_SAY_CAUSE, "Say what the cause was") \
    X(TEXT_WHAT_HELPED, "The trouble is gone. What helped: {1}") \
    X(TEXT_MOST_LIKELY_WAS, "What it most likely was: {1}") \
    X(TEXT_CASE_CLOSED, "The case is closed.") \
    X(TEXT_CASE_WAITS, "The case stays open, and waits for them.") \
    X(TEXT_NO_CASE_KEPT, "Nothing was said, so no case is kept.") \
    X(TEXT_CASE_LOOKED_AT, "The case is as it was.") \
    X(TEXT_STOPPED_UNKEPT, "Stopped. Nothing of this case is kept.") \
    X(TEXT_STOPPED_PARTLY_KEPT, "Stopped. Not all that was said could be kept: whoever goes on has to ask for the last of it again.") \
    X(TEXT_CASE_STOPPED, "Stopped. The case stays open.") \
    X(TEXT_UNFINISHED, "Begun, and not finished: {1}") \
    X(TEXT_IF_LEFT_SO, "If it is left so: {1}") \
    X(TEXT_OWN_LOCK, "Take your own lock off when everybody is clear, or leave it on and tell whoever comes next.") \
    X(TEXT_NOT_KEPT, "This could not be kept: the disk is full or can't be written. The case goes on here, but it is not on the disk.")

#endif
