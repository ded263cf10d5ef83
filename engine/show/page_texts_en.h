/* What faces say around a turn, in English. X(id, text); inserts as in texts_en.h. */
#ifndef TT_SHOW_PAGE_TEXTS_EN_H
#define TT_SHOW_PAGE_TEXTS_EN_H

#define PAGE_TEXTS_EN(X) \
    /* ---- on every page ---- */ \
    X(PAGE_PRACTICE, "PRACTICE: the example site") \
    X(PAGE_NOT_KEPT, "NOT KEPT: nobody can go on with this later.") \
    X(PAGE_DANGER, "DANGER") \
    X(PAGE_WARNING, "WARNING") \
    X(PAGE_CAUTION, "CAUTION") \
    X(PAGE_NOTICE, "NOTICE") \
    X(PAGE_DANGER_FIRST, "Danger first:") \
    X(PAGE_SIGNAL, "{1}: {2}") \
    X(PAGE_STEP_OF, "{1}: {2} of {3}") \
    X(PAGE_WEAR, "WEAR: {1}") \
    X(PAGE_AND, "; ") \
    /* ---- around what is asked ---- */ \
    X(PAGE_QUESTION, "Question {1}") \
    X(PAGE_QUESTION_LEFT, "Question {1}, {2} left") \
    X(PAGE_AT_PLACE, "{1}. At: {2}") \
    X(PAGE_PLACE, "At: {1}") \
    X(PAGE_BECAUSE, "Why: {1}") \
    X(PAGE_PICTURE, "Picture: {1}") \
    X(PAGE_TYPE_NUMBER, "Type the number.") \
    X(PAGE_TYPE_NUMBER_IN, "Type the number in {1}, or with the unit that you read.") \
    X(PAGE_TYPE_PARTS_TO, "Type it such as 1:50, which is 1 part of product to 50 of water.") \
    X(PAGE_TYPE_PARTS_IN, "Type it such as 1 in 50, which is 1 part of product in 50 of the mix.") \
    X(PAGE_TYPE_COUNT, "Type how many.") \
    X(PAGE_TYPE_SEVERAL, "Type several numbers with commas, like 1,2.") \
    X(PAGE_WORDS, "Or type: {1}") \
    X(PAGE_COMMA, ", ") \
    X(PAGE_MORE, "Enter: more") \
    X(PAGE_MORE_OR, "Enter: more. Or type: {1}") \
    X(PAGE_TWO, "{1}, {2}") \
    X(PAGE_ENTER, "Enter: {1}") \
    X(PAGE_TOO_LONG, "That line is too long. Say it in fewer words.") \
    /* ---- with a caller on the line ---- */ \
    X(PAGE_SAY, "Say: “{1}”") \
    X(PAGE_SAY_CHOICES, "Say: “Is it: {1}?”") \
    X(PAGE_BETWEEN, "; ") \
    X(PAGE_LAST_BETWEEN, "; or ") \
    X(PAGE_SAY_FIRST, "Read out:") \
    X(PAGE_LEADING, "Leading: {1}") \
    X(PAGE_CONTACT, "{1}: {2}") \
    X(PAGE_CONTACT_HOURS, "{1} ({2})") \
    /* ---- to programs: what is wrong with a reply ---- */ \
    X(PROGRAM_NO_OBJECT, "A reply is a JSON object on one line, such as {\"choice\": 1}.") \
    X(PROGRAM_UNREADABLE, "A reply is a JSON object on one line, such as {\"choice\": 1}: {1}") \
    X(PROGRAM_TOO_LONG, "That line is too long: a reply has at most {1} bytes.") \
    X(PROGRAM_UNKNOWN_KEY, "\"{1}\" is no key of a reply. Write one of these: {2}.") \
    X(PROGRAM_NONE, "There is no answer in it. Write one of these: {1}.") \
    X(PROGRAM_SEVERAL, "That is more than one answer. Write one of these: {1}.") \
    X(PROGRAM_NOT_HERE, "\"{1}\" does not answer this. Write one of these: {2}.") \
    X(PROGRAM_STALE, "That replies to turn {1}, and was not counted. The last one is turn {2}.") \
    X(PROGRAM_TURN, "\"turn\" is the number of the turn that is replied to, or left out.") \
    X(PROGRAM_NOW, "\"now\" is a moment such as \"2026-11-29T09:12:00+01:00\", or left out.") \
    X(PROGRAM_CHOICE, "\"choice\" is the name or the number of a choice: {1}.") \
    X(PROGRAM_NO_SUCH_CHOICE, "\"{1}\" is none of the choices. They are: {2}.") \
    X(PROGRAM_OPTIONS, "\"options\" is a list of names of choices: {1}.") \
    X(PROGRAM_READING, "\"reading\" is a number; its unit goes in \"unit\".") \
    X(PROGRAM_UNIT, "\"unit\" is a text, such as \"psi\", and goes with \"reading\" alone; left out, it is the question's.") \
    X(PROGRAM_WORD, "\"word\" is one of these here: {1}.") \
    X(PROGRAM_ANSWER, "\"answer\" is a text, as a person would type it; a number goes as \"reading\" or \"choice\".") \
    X(PROGRAM_ANSWERS, "\"answers\" is a list of {\"question\": name} with one of \"choice\", \"reading\" and \"not\".") \
    X(PROGRAM_BEGIN, "\"begin\" is an object with \"case\", \"writer\" and \"now\", all of them texts, each of which may be left out.") \
    X(PROGRAM_BEGIN_LATE, "\"begin\" can only be the very first line, and not of a case that is taken up.") \
    X(PROGRAM_BEGIN_WRITER, "\"writer\" is made of at most 12 small letters, digits and hyphens.") \
    X(PROGRAM_BEGIN_CASE, "\"case\" is a new case's identifier, such as \"019b1b48-9420-7e45-8172-00002235a41d\".") \
    /* ---- in lists of cases ---- */ \
    X(LIST_STANDS_FILE, "answers from a file") \
    X(LIST_STANDS_SETTLED, "it was settled which answer is right") \
    X(LIST_STANDS_NO_COMPLAINT, "none of the complaints fits") \
    /* ---- what the program asks, before a case and after it ---- */ \
    X(HOST_NONE_OF_THESE, "That is none of these. Type a number from the list.") \
    X(HOST_WORD_IS_OURS, "\"{1}\" does nothing here. If it is part of a name, type the whole name.") \
    X(HOST_YES, "Yes") \
    X(HOST_NO, "No") \
    X(HOST_WHICH_BOOK, "What is it about?") \
    X(HOST_NO_CASE, "No case was begun.") \
    X(HOST_OPEN_CASES, "Is it about one of these cases?") \
    X(HOST_NEW_CASE, "No, a new case") \
    X(HOST_BOARD, "Which case? Type its number here.") \
    X(HOST_BOARD_CALLER, "{1}. Caller: {2}") \
    X(HOST_WHO_CALLS, "Who calls? It is kept beside the case, and can be erased.") \
    X(HOST_CALL_BACK, "Which number can be called back?") \
    X(HOST_TICKET, "What does another system call this case?") \
    X(HOST_NOT_SAID, "that is not said") \
    X(HOST_BOARD_EMPTY, "No case is open.") \
    X(HOST_NEW_CALL, "New call") \
    X(HOST_LOOK_ANEW, "Read the list anew") \
    X(HOST_MORE_CASES, "{1} more are open: telltale cases lists them.") \
    X(HOST_OPEN_ELSEWHERE, "This case is open elsewhere. What do you want to do?") \
    X(HOST_HELD_BY, "{1} has it open, since {2}") \
    X(HOST_MAYBE_HELD_BY, "{1} opened it {2} and did not leave it, as far as can be seen from here") \
    X(HOST_PERSON_AT, "{1} ({2})") \
    X(HOST_SOMEBODY, "somebody") \
    X(HOST_VIEW, "Only look at it") \
    X(HOST_JOIN, "Work on it together") \
    X(HOST_TAKE_OVER, "Take it over") \
    X(HOST_WHAT_IS_THERE, "Nothing says yet what equipment there is at this site. Say it now? It is asked once, and can be kept.") \
    X(HOST_NO_SUCH_FILE, "{1}: there is no such file. Say what equipment there is, and it is written there?") \
    X(HOST_SAY_SITE, "Yes, I say what is there") \
    X(HOST_LEAVE_SITE, "No, go on without it") \
    X(HOST_SITE_NAME, "What do you call this place?") \
    X(HOST_NO_NAME, "it has no name") \
    X(HOST_HOW_TO_SAY, "Say each as you call it, such as: the left {1}. Put commas between them, or say one at a time. Or type how many there are.") \
    X(HOST_SO_FAR, "So far:") \
    X(HOST_MORE_PIECES, "{1} Another one?") \
    X(HOST_NO_PIECE, "there is none") \
    X(HOST_NO_MORE, "that is all") \
    X(HOST_THERE_ARE, "There are, in this order:") \
    X(HOST_THERE_IS, "There is one:") \
    X(HOST_SITE_FINDS_NOTHING, "With that, these rules have nothing to find. If there is equipment of theirs, say which; else go on without it.") \
    X(HOST_THERE_IS_NONE, "There is no {1}.") \
    X(HOST_IS_RIGHT, "Is that right?") \
    X(HOST_SAY_AGAIN, "No, I say it again") \
    X(HOST_TWICE, "{1} is on the list already.") \
    X(HOST_KEEP_SITE, "Keep this, so that nobody is asked again?") \
    X(HOST_KEEP_HERE, "Yes, in {1}") \
    X(HOST_KEEP_ELSEWHERE, "Yes, in another file") \
    X(HOST_KEEP_NOT, "No, only for this case") \
    X(HOST_WHICH_FILE, "Which file? Type its path, such as north.yaml.") \
    X(HOST_NO_FILE, "go back") \
    X(HOST_FILE_THERE, "{1} is there already.") \
    X(HOST_LEAVE_FILE, "Leave it as it is") \
    X(HOST_WRITE_OVER, "Write over it") \
    X(HOST_WRITTEN, "What is there is written in {1}. You can change it with any editor.") \
    X(HOST_NOT_WRITTEN, "{1}: {2}") \
    X(HOST_SAID_OF_SITE, "You said about the site:") \
    X(HOST_KEEP_FACTS, "Keep this for next time, in {1}?") \
    X(HOST_FACTS_KEPT, "It is kept.") \
    X(HOST_SITE_FILE, "The site's file:") \
    X(HOST_GOOD_KEPT, "Written into {1}.") \
    X(HOST_GOOD_MERGED, "Somebody else has changed that file meanwhile: what they wrote is in it, too.") \
    X(HOST_BY_HAND, "The file can't take this as it is now. Please write it there by hand:") \
    X(HOST_SITE_GONE, "{1} is not there any more. The case goes on with what it said.") \
    X(HOST_GO_ON_WITH, "To go on with it:")

#endif
