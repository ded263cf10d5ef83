/* What stands in a handbook, in English. X(id, text); inserts as in texts_en.h. */
#ifndef TT_SHOW_HANDBOOK_TEXTS_EN_H
#define TT_SHOW_HANDBOOK_TEXTS_EN_H

/* clang-format off */

#define HANDBOOK_TEXTS_EN(X) \
    X(HANDBOOK_TITLE, "Handbook: {1}") \
    X(HANDBOOK_CONTENTS, "Contents") \
    X(HANDBOOK_ROLES, "Who works by it") \
    X(HANDBOOK_FIRST, "Before anything else") \
    X(HANDBOOK_EMERGENCIES, "If something has happened") \
    X(HANDBOOK_PICTURE, "How signs point to causes") \
    X(HANDBOOK_SIGNS, "From the sign to the cause and its fixes") \
    X(HANDBOOK_CAUSES, "The causes") \
    X(HANDBOOK_LOCKOUTS, "How it is made safe, and given back") \
    X(HANDBOOK_LOCKOUTS_SAY, "Only whoever is trained and authorised for it goes through these, all of the lines, in this order, and puts on a lock of their own. Switched off is not locked.") \
    X(HANDBOOK_NO_LOCKOUTS, "Nothing in this book has to be isolated before work.") \
    X(HANDBOOK_LOCKOUT, "Procedure {1}: {2}") \
    X(HANDBOOK_LOCKOUT_FIRST, "First procedure {1}, {2}, all of it, and give back by it at the end.") \
    X(HANDBOOK_TELL, "Tell:") \
    X(HANDBOOK_RELEASE, "Let go what is stored:") \
    X(HANDBOOK_PROVE, "Prove that nothing is left:") \
    X(HANDBOOK_RESTORE, "After the work, give it back:") \
    X(HANDBOOK_OWN_LINES, "as these lines say") \
    X(HANDBOOK_RUNNING, "It runs meanwhile:") \
    X(HANDBOOK_PROCEDURE, "Procedure") \
    X(HANDBOOK_WEAR_COLUMN, "Wear") \
    X(HANDBOOK_FIXES, "The fixes, step by step") \
    X(HANDBOOK_QUESTIONS, "What to look at, and what is usual") \
    X(HANDBOOK_SIGN_HERE, "Read and understood") \
    X(HANDBOOK_RULE_OUT, "Whatever is wrong: rule out danger first. What is not known to be safe counts as danger.") \
    X(HANDBOOK_ONLY_SAFE, "Go on only if the answer is: {1}") \
    X(HANDBOOK_IF, "{1}:") \
    X(HANDBOOK_CALL, "{1} Call: {2}.") \
    X(HANDBOOK_CONTACTS, "Whom to call") \
    X(HANDBOOK_POST, "Who") \
    X(HANDBOOK_FOR_WHAT, "For what") \
    X(HANDBOOK_TELEPHONE, "Telephone") \
    X(HANDBOOK_HOURS, "Hours") \
    X(HANDBOOK_EMERGENCY_NUMBER, "Emergency number: {1}") \
    X(HANDBOOK_THEN, "After that:") \
    X(HANDBOOK_SOURCE, "After: {1}") \
    X(HANDBOOK_PICTURE_SAYS, "On the left what is seen, on the right what can be behind it. The thicker the line, the more often the cause shows the sign; lines below {1} are left out. The tables in the next chapter have the figures.") \
    X(HANDBOOK_PICTURE_TITLE, "Signs and their causes, part {1} of {2}; the tables in the next chapter have the same figures") \
    X(HANDBOOK_DRAWING, "Picture") \
    X(HANDBOOK_DRAWING_STEP, "Picture to step {1}") \
    X(HANDBOOK_SIGNS_SAY, "Of 100 calls with the cause, so many show the sign. Several causes may show one: the program weighs all answers together, a table can't. What shows a sign in fewer than {1} is left out. The number before a fix is its place in the chapter with the steps.") \
    X(HANDBOOK_SIGN_CAPTION, "What can be behind it") \
    X(HANDBOOK_SIGN, "Sign") \
    X(HANDBOOK_SEEN_CAPTION, "Signs, and what can be behind each") \
    X(HANDBOOK_SEEN, "What is seen when one looks") \
    X(HANDBOOK_CAUSE, "Cause") \
    X(HANDBOOK_SHOWS, "Shows it") \
    X(HANDBOOK_FIX, "Fix") \
    X(HANDBOOK_WHO, "Who") \
    X(HANDBOOK_RISK, "Risk") \
    X(HANDBOOK_RISK_WITH, "{1}; with what follows: {2}") \
    X(HANDBOOK_RISK_ABOVE, "high: not to be done as it stands") \
    X(HANDBOOK_NUMBERED, "{1}. {2}") \
    X(HANDBOOK_SHARE, "Of the calls") \
    X(HANDBOOK_MEANS, "What happens") \
    X(HANDBOOK_PART, "Part") \
    X(HANDBOOK_SPARES, "Spare parts") \
    X(HANDBOOK_CONFIRMS, "Confirmed by") \
    X(HANDBOOK_CAUSES_CAPTION, "Causes, the commonest first") \
    X(HANDBOOK_LIKEWISE, "The same holds at: {1}") \
    X(HANDBOOK_TIME, "Time") \
    X(HANDBOOK_CURES, "Against") \
    X(HANDBOOK_COST, "Costs") \
    X(HANDBOOK_HAZARDS, "What can hurt") \
    X(HANDBOOK_ISOLATE, "Switch off and lock, in this order:") \
    X(HANDBOOK_WEAR, "Wear:") \
    X(HANDBOOK_NEED, "You need") \
    X(HANDBOOK_STEPS, "Then:") \
    X(HANDBOOK_ONCE_RUNNING, "Once it runs again:") \
    X(HANDBOOK_ADJUST, "It is done a little at a time, at most {1} times, with a look after each.") \
    X(HANDBOOK_LOOK_AGAIN, "Afterwards look again:") \
    X(HANDBOOK_PUT_BACK, "If it did not help:") \
    X(HANDBOOK_CANNOT_PUT_BACK, "It can't be undone.") \
    X(HANDBOOK_QUESTION, "Question") \
    X(HANDBOOK_HOW, "How to look") \
    X(HANDBOOK_USUAL, "Usual") \
    X(HANDBOOK_QUESTIONS_CAPTION, "Questions, those about danger first") \
    X(HANDBOOK_SIGN_SAYS, "I have read this handbook. I do only what my role may do, and nothing that I am not trained and authorised for.") \
    X(HANDBOOK_SIGN_CAPTION_ROWS, "One line each") \
    X(HANDBOOK_NAME, "Name") \
    X(HANDBOOK_ROLE, "Role") \
    X(HANDBOOK_DAY, "Day") \
    X(HANDBOOK_SIGNATURE, "Signature") \
    X(HANDBOOK_RELEASED, "Released for this site") \
    X(HANDBOOK_NEVER, "This book never replaces local codes, the equipment's manual, a product's safety data sheet, or the work of a licensed trade.") \
    X(HANDBOOK_EXAMPLE_SITE, "It was printed for the example in the book, not for a site of its own: name one with --site.")

/* clang-format on */

#endif
