/* The kinds of records that a case is made of: each is one row here, and adding one is adding a
 * row. */
#ifndef TT_JOURNAL_RECORD_TABLE_H
#define TT_JOURNAL_RECORD_TABLE_H

/* clang-format off */
/* X(id, word, does, who, about, says, fields)
 *
 * word    in the journal. It keeps its meaning for ever, and so do the fields: kinds of version 1 are read for ever.
 * does    what a record of this kind does:
 *           STEP        the case goes on by it: it counts in the reasoning, and opens a closed case again
 *           GIVES_BACK  `back` can take it back
 *           MOVES       it opens a closed case again, though it is no step
 *           COMES       somebody opens the case: they have it from then on
 *           LEAVES      they leave it
 *           SITS        a sitting of its writer begins: what was safe before has to be asked anew
 *           CLOSES      the case ends with it
 *           NOTES       somebody leaves a note, and may say for whom the case is
 *           ONCE        it tells of what happened once, also if two tell it who do not know of each other
 *           PLACES      it may say which book and which site are worked with
 *           RIVAL_A ..  the group of those that can contradict each other
 * who     may add it: whoever decides that asks record_may_add.
 * about   the field that names its subject, or "".
 * says    the field with what it says of it, or "": two of one rival group about one subject contradict each other if
 *         they say something else of it, or are not of one kind.
 * fields  all that it may have, in the words of the journal. `step`, `right` and the items of `steps` and `wrong` name
 *         records: {"writer", "seq"}.
 *
 * What is not told by its name: past is what the site's cases had said when this one began, so that it can be played
 * again without them. site is {path, revision, text}, or null for the book's own. set is {from, to, reading,
 * unit}. resume's how is "join", "take-over" or left out; a sitting's why is "begun", "taken-up", "joined",
 * "taken-over", "reopened" or "pause"; accepts: the note, and the case that was handed over, are taken. danger's list is
 * "a" (the danger page) or "b" (the question); without a question it is about all of them. close's how is "gone",
 * "call", "stop" or "made-safe", of a round "in-order" or "drifted", of a record "recorded"; begin's kind is "fault" (as
 * without it), "round", "record" or "drill", every "daily", "weekly" or "monthly"; a step's is "done", "back" (neither this one nor one after it is done any more),
 * "alone" (done, and what could be done under the same lockout waits until it was tried) or "not-begun"; measured's when is "before" or "after". confirm's cause null: nobody
 * is sure. An answer's danger: true if it was not safe. again is one more look at what was answered, its instrument is "another" if not the usual one. said keeps
 * words that served nothing. Steps of one writer with the same number as reply_to came of one utterance: `back` takes them together. `with` is a second fix under
 * the lockout of the first: begun once the first is done, and both have one outcome. apart: it is none of these earlier cases, which were offered by their
 * numbers; close with how "elsewhere": it is the trouble of another case, and goes on there (`case`: its number). language: from here on the case speaks it (a tag of BCP 47), and so does whoever takes it up later, unless told otherwise. seal: the host has kept all of a
 * closed case; it says nothing, and is there so that the line before it is named by one behind it. */
#define RECORD_TABLE(X) \
    X(RECORD_BEGIN, "begin", COMES | SITS | PLACES, ANYBODY, "", "", \
      "kind every number rulebook title edition revision site site_title practice telephone role language soonest program by on") \
    X(RECORD_RESUME, "resume", COMES | SITS | PLACES, ANYBODY, "", "", \
      "number rulebook title edition revision site site_title practice telephone program how by on") \
    X(RECORD_PAST, "past", NOTHING, ANYBODY, "", "", "readings cases open") \
    X(RECORD_SITTING, "sitting", SITS | PLACES, ANYBODY, "", "", "why accepts role by on revision site site_title") \
    X(RECORD_SITE, "site", PLACES, ANYBODY, "", "", "site site_title") \
    X(RECORD_ANSWER, "answer", STEP | GIVES_BACK | RIVAL_A, ANYBODY, "question", "reply", \
      "question reply typed asked words danger reply_to") \
    X(RECORD_AGAIN, "again", STEP | GIVES_BACK, ANYBODY, "question", "", "question reply typed asked words instrument reply_to") \
    X(RECORD_COMPLAINT, "complaint", STEP | GIVES_BACK, ANYBODY, "symptom", "", "symptom said at text reply_to") \
    X(RECORD_NO_COMPLAINT, "no-complaint", STEP | GIVES_BACK, ANYBODY, "", "", "reply_to") \
    X(RECORD_TRIED, "tried", STEP | GIVES_BACK | ONCE | RIVAL_B, ANYBODY, "fix", "outcome", "fix with outcome text set reply_to") \
    X(RECORD_PUT_BACK, "put-back", STEP | GIVES_BACK | ONCE | RIVAL_C, ANYBODY, "fix", "", "fix set reply_to") \
    X(RECORD_LEFT, "left", STEP | GIVES_BACK | ONCE | RIVAL_C, ANYBODY, "fix", "", "fix reply_to") \
    X(RECORD_CAME_BACK, "came-back", STEP | GIVES_BACK | ONCE, ANYBODY, "fix", "", "fix reply_to") \
    X(RECORD_ANSWERS, "answers", STEP, ANYBODY, "", "", "name text symptom complaint danger") \
    X(RECORD_SETTLE, "settle", STEP | GIVES_BACK, ANYBODY, "", "", "right wrong reply_to") \
    X(RECORD_BACK, "back", MOVES, ANYBODY, "", "", "step steps") \
    X(RECORD_DANGER, "danger", MOVES, ANYBODY, "question", "", "question words list entry also") \
    X(RECORD_RECHECK, "recheck", MOVES, ANYBODY, "question", "", "question words entry") \
    X(RECORD_MADE_SAFE, "made-safe", CLOSES | LEAVES, CALLED_ROLE, "", "", "post") \
    X(RECORD_FIX_BEGUN, "fix-begun", MOVES, ANYBODY, "fix", "", "fix with") \
    X(RECORD_FIX_STEP, "step", MOVES, ANYBODY, "fix", "", "fix part index how text") \
    X(RECORD_MEASURED, "measured", MOVES, ANYBODY, "fix", "", "fix question when value reply words") \
    X(RECORD_SAID, "said", NOTHING, ANYBODY, "", "", "words used") \
    X(RECORD_REVIEWED, "reviewed", NOTHING, ANYBODY, "", "", "") \
    X(RECORD_WAITING, "waiting", NOTES, ANYBODY, "", "", "whom whom_text until note next") \
    X(RECORD_STOP, "stop", LEAVES, ANYBODY, "", "", "next") \
    X(RECORD_HOLD, "hold", LEAVES | NOTES, ANYBODY, "", "", "note next") \
    X(RECORD_HAND_OVER, "hand-over", LEAVES | NOTES, ANYBODY, "", "", "to to_text note next") \
    X(RECORD_CLOSE, "close", CLOSES | LEAVES, ANYBODY, "", "", "how fix fix_text cause cause_text case") \
    X(RECORD_APART, "apart", NOTHING, ANYBODY, "", "", "cases") \
    X(RECORD_LANGUAGE, "language", NOTHING, ANYBODY, "", "", "language") \
    X(RECORD_SEAL, "seal", NOTHING, ANYBODY, "", "", "") \
    X(RECORD_CONFIRM, "confirm", NOTHING, ANYBODY, "", "", "how cause cause_text")
/* clang-format on */

#endif
