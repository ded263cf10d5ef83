/* Replies: what words mean, and what is taken of them. */
#ifndef TT_TALK_TALK_REPLIES_H
#define TT_TALK_TALK_REPLIES_H

#include "talk/talk_turns.h"

/* ---- queue.c: what is still to be asked ---- */
void queue_add(tt_talk *t, const aside *a);
bool next_in_queue(tt_talk *t); /* false: nothing is left */
void leave_queue(tt_talk *t);

/* ---- own_words.c ---- */
void do_word(tt_talk *t, talk_word word);
void speak_language(tt_talk *t, const char *tag);
/* The end of a round or a record: `id` of what was chosen there. */
void leave_walk(tt_talk *t, const char *id);
/* Leaves a case that is over; one that a danger had opened since is closed once more. */
void leave_closed(tt_talk *t);

/* ---- said_again.c ---- */
/* The complaint that these words say once more, or TT_NONE. */
uint32_t complaint_said_again(tt_talk *t, uint32_t asked, str words);

/* ---- piece_words.c ---- */
/* Of those that the turn offers the one of which words were said that are of no other; or null. */
const char *piece_by_own_words(tt_talk *t, str line);
/* Of the `of` pieces of the complaint's kind; the only one, or the one that was named, or TT_NONE.
 */
uint32_t piece_complained_of(tt_talk *t, uint32_t complaint, const char *said, uint32_t *of);

/* ---- exact_choice.c: words that are a choice of the turn; ids, or null ---- */
uint32_t choice_number(str line); /* "2", "2)", "#2", "2." are the second; 0: it is no number */
const char *choice_said(tt_talk *t, str line);  /* its text or its id */
const char *choice_begun(tt_talk *t, str line); /* the beginning of one and of no other */
const char *choice_meant(tt_talk *t, str line); /* yes, no, worse: by what was asked */
/* Asked what came of a fix: it says two things at once. */
bool outcome_is_unclear(tt_talk *t, str line);
const char *choice_agreeing(const tt_talk *t); /* what "yes" is; it may not be offered */

/* ---- take_one.c ---- */
bool is_offered(const tt_talk *t, const char *id);                    /* a choice of the turn */
void take_pieces(tt_talk *t, const uint32_t *pieces, uint32_t count); /* WHICH */
bool good_is_asked_again(tt_talk *t, uint32_t question,
                         const tt_reply *reply); /* and why is said */

/* a language is asked for, and nothing else: the case goes on in it */
bool speaks_otherwise(tt_talk *t, const tt_heard *heard);
/* ---- lockout.c ---- */
bool talk_isolates_now(const tt_talk *t); /* the step at hand isolates, or proves that */
/* A lock, a tag, a guard or a cover. */
bool talk_names_lockout(tt_talk *t, str line);

/* ---- hear.c: what a reply does; understand.c: what words mean ---- */
void hear_reply(tt_talk *t, const tt_heard *heard);
typedef enum at_work {
    AT_WORK_OTHER,
    AT_WORK_LACKS,  /* what is to be worn, or locked with, is not there */
    AT_WORK_DOUBTS, /* at a step that isolates or proves it */
} at_work;
at_work said_at_work(tt_talk *t, str line); /* words that are no reply */
void take_lacking(tt_talk *t);              /* then it can't be done */
/* Words, after this reply or without one (null), that it is not done yet, or not given back. */
bool said_unfinished(tt_talk *t, const char *reply, str line, str rest);
bool talk_asks_back(const tt_talk *t, str line); /* "done?" is no "done" */
void take_choice(tt_talk *t, const char *id);
void take_several(tt_talk *t, const char *const *ids, uint32_t count);
void take_given(tt_talk *t, const tt_given *given, uint32_t count);
void take_words(tt_talk *t, const char *words, bool unread);
/* After the last page: danger, or a cry for help, opens the talk again, nothing else does. */
void take_words_at_end(tt_talk *t, const char *words);
bool take_grave_words(tt_talk *t, const char *words); /* false: they tell of nobody hurt */
/* id of the choice or the word of ours that this is; or null */
const char *exactly_said(tt_talk *t, const char *words);
void take_note(tt_talk *t, const char *words);
/* take_parts.c: answers, readings and complaints in one breath. False: there are none. What was
 * said of the question that is asked, and could not be taken, stands in `why_no_answer` then. */
bool take_parts(tt_talk *t, const char *words);
/* beside the answer to the danger question */
void take_parts_beside(tt_talk *t, const char *words);
void take_mistaken(tt_talk *t); /* what sounded like danger, once that is ruled out */
void take_reading_of(tt_talk *t, uint32_t question, const char *reading, const char *said);
bool take_which_meant(tt_talk *t, const char *words); /* ASK_BACK: "the foam one" */
bool turn_asks(const tt_talk *t);                     /* the turn is about a question */
bool take_answer(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed);
/* Of the question that the turn asks. It is handed in, since what the turn says lives only until
 * the case changes. */
void answer_turn(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed);
void complain_of(tt_talk *t, uint32_t complaint, const char *said);
void nothing_such(tt_talk *t);
void on_settle(tt_talk *t, const char *id);
/* hear_fix.c, hear_earlier.c */
void on_earlier(tt_talk *t, const char *id);
void on_review(tt_talk *t, const char *id);
void on_before(tt_talk *t, const char *id);
void worse_after_fix(tt_talk *t); /* while the reading after it is asked */
void on_step(tt_talk *t, const char *id);
void on_outcome(tt_talk *t, const char *id);
void on_put_back(tt_talk *t, const char *id);
void ask_cause(tt_talk *t);

#endif
