/* What the page in a browser says around a turn, in English. X(id, text); inserts as in texts_en.h. The page gets them by their ids. */
#ifndef TT_SHOW_PHONE_TEXTS_EN_H
#define TT_SHOW_PHONE_TEXTS_EN_H

#define PHONE_TEXTS_EN(X) \
    /* ---- on every screen ---- */ \
    X(PHONE_DANGER, "DANGER, or somebody is hurt") \
    X(PHONE_PRACTICE, "PRACTICE. This is an example, not your site.") \
    X(PHONE_NOT_KEPT, "NOT KEPT. This browser keeps nothing of this page. Copy the case before you close it.") \
    X(PHONE_FULL, "NOT KEPT. There is no room left on this device. Copy the case now.") \
    X(PHONE_BACK, "Back") \
    X(PHONE_ALOUD, "Read aloud") \
    X(PHONE_WHY, "Why?") \
    X(PHONE_ANSWERS, "My answers") \
    X(PHONE_MORE, "More") \
    X(PHONE_CASE, "Case {1}") \
    /* ---- a question ---- */ \
    X(PHONE_OWN_WORDS, "Say it in your own words") \
    X(PHONE_SEND, "Send") \
    X(PHONE_TOUCH, "Touch where it is wrong") \
    X(PHONE_NUMBER, "Number") \
    X(PHONE_DELETE, "Delete the last digit") \
    X(PHONE_THESE, "These are all") \
    X(PHONE_QUESTION, "Question {1}") \
    X(PHONE_OF, "Step {1} of {2}") \
    X(PHONE_TICK_FIRST, "Tick each line when it is done.") \
    X(PHONE_SHORT, "about {1} min left") \
    /* ---- what we think ---- */ \
    X(PHONE_THINK, "What it points to") \
    X(PHONE_KEYS, "Keys: 1 to 9 answer, B back, W why, A answers, D danger, R read aloud.") \
    X(PHONE_CALL, "Call {1}") \
    /* ---- cases ---- */ \
    X(PHONE_NEW, "Something is wrong: begin") \
    X(PHONE_GO_ON, "Go on with this") \
    X(PHONE_CASES, "Cases on this device") \
    X(PHONE_OPEN, "open") \
    X(PHONE_ENDED, "ended") \
    X(PHONE_NO_COMPLAINT, "Nothing was said yet") \
    X(PHONE_ALL_CASES, "All cases") \
    X(PHONE_ERASE, "Erase") \
    X(PHONE_ERASE_SURE, "Erase case {1}? It can't be brought back.") \
    X(PHONE_ERASE_YES, "Yes, erase it") \
    X(PHONE_NO, "No") \
    X(PHONE_TAKE_IN, "Take in a case") \
    X(PHONE_TAKE_FILE, "From a file") \
    X(PHONE_TAKE_PASTED, "Or paste it here") \
    X(PHONE_TAKE, "Take it in") \
    X(PHONE_TAKEN, "Case {1} is taken in.") \
    X(PHONE_NO_CASE, "This is no case. Nothing was taken in.") \
    X(PHONE_OTHER_WINDOW, "This case is open in another window. Go on there.") \
    X(PHONE_NAME, "Your name, for whoever goes on with the case") \
    /* ---- passing on ---- */ \
    X(PHONE_PASS_ON, "Pass the case on") \
    X(PHONE_SHARE, "Send it") \
    X(PHONE_SAVE, "Save it as a file") \
    X(PHONE_COPY, "Copy it") \
    X(PHONE_COPIED, "Copied.") \
    X(PHONE_COPY_BY_HAND, "Copy this text:") \
    X(PHONE_PRINT, "Print this screen") \
    X(PHONE_CLOSE, "Back to the case") \
    X(PHONE_STOP, "Stop, go on another time") \
    X(PHONE_HELP, "How this works") \
    X(PHONE_HARM, "How to keep out of harm") \
    X(PHONE_CHANGE, "Change an answer") \
    /* ---- when something fails ---- */ \
    X(PHONE_STOPPED, "Something went wrong, and the page began anew from what was kept. Look at the screen, and answer again.") \
    X(PHONE_LEFT_OUT, "Some lines of this case could not be read. The rest counts.")

#endif
