/* A guided case, as the parts of `ask` share it. */
#ifndef TT_CLI_ASK_H
#define TT_CLI_ASK_H

#include <jansson.h>

#include "ask/turn.h"
#include "host/case_file.h"
#include "host/line_input.h"
#include "host/read_book.h"
#include "host/screen.h"
#include "telltale.h"
#include "verb/command_line.h"

typedef enum leaving {
    STAYING,
    LEAVING_STOPPED, /* the person said so */
    LEAVING_ENDED,   /* no more input */
    LEAVING_SIGNAL,
    LEAVING_CLOSED,
    LEAVING_FAILED, /* see ask.failure */
} leaving;

/* What `back` can take back, the last one first. */
typedef enum ask_step {
    STEP_COMPLAINT,
    STEP_NO_COMPLAINT,
    STEP_ANSWER,
    STEP_CHANGED, /* an answer to a question that had one */
    STEP_TRIED,
    STEP_PUT_BACK,
    STEP_LEFT_SO, /* what did not help stays as it is now, since the person said so */
    STEP_FILE,
    STEP_LEFT_OUT, /* kept in the case, but unknown to the book as it is now */
    STEP_SETTLED,  /* which of several answers is right */
} ask_step;
typedef struct step_taken {
    ask_step kind;
    unsigned events; /* what it was to the engine, which takes them back one by one */
    uint32_t fix;    /* TRIED, PUT_BACK, LEFT_SO: which */
    size_t record;   /* which of the case's file it is kept in; any, if nothing is kept */
} step_taken;

struct ask;
/* A record was replayed; not `taken`: the book no longer knows what it is about. */
typedef void record_seen(void *context, struct ask *a, const case_record *record, bool taken);

typedef struct ask {
    screen s;
    turn *turn; /* the machine form; null: a person reads and types */
    const command_line *line;
    opened_book book;
    char *site_path; /* absolute, of the file that book.site_text is in; null: in none */
    tt_case *c;
    case_file *file; /* null: nothing is kept */
    line_input input;
    step_taken *steps;
    size_t step_count;
    bool complaints_shown; /* just now; the list is as high as a small screen and would hide what follows it */
    bool cautions_seen; /* those of the book, with its title */
    record_seen *after_record; /* null: what was not taken is said on the screen */
    void *after_context;
    bool asks; /* a guided case; else it is only looked at */
    bool confirm_due; /* it was just closed as gone, or somebody wants to say what the cause was */
    size_t record;  /* the one that is replayed */
    const char *coming; /* to a case that others work on: "join" or "take-over"; null: nobody does */
    bool replaying; /* steps come from the case's file and are not written again */
    leaving leaving;
    exit_status failure;
    char **cautions_shown; /* their texts */
    size_t caution_count;
    uint32_t question_shown; /* in full, just now; or TT_NONE */
    uint32_t danger_next; /* questions about danger from here on are asked once more; TT_NONE: none is due */
    uint32_t jump; /* a question that was asked for by its words; or TT_NONE */
    uint32_t fix_shown;
    uint32_t fix_explained; /* its safety was shown since the program began: later steps are short */
} ask;

/* ---- steps: each is done in the engine, then kept on the disk ---- */

/* False: it is no answer to this question; nothing is kept then. `typed` may be "". */
bool step_answer(ask *a, uint32_t question, const tt_reply *reply, const char *typed);
/* `said`: in which words, or "". `at`: the pieces of equipment it is about, if it is about a kind of
 * them; none: nobody is sure which. False: it can't be said of one of them; nothing is kept then. */
bool step_complaint(ask *a, const tt_complaint *complaint, const char *said, const uint32_t *at,
                    uint32_t count);
void step_no_complaint(ask *a);
/* False: the fix can't be reported on now; nothing is kept then. */
bool step_tried(ask *a, uint32_t fix, tt_outcome outcome);
bool step_put_back(ask *a, uint32_t fix);
bool step_left_so(ask *a, uint32_t fix);
exit_status step_file(ask *a, const tt_source *file);
/* False: there is nothing to take back. */
bool step_back(ask *a);
/* Something that is no step: keeps a record alone. Takes over `data`. */
void keep_note(ask *a, const char *kind, json_t *data);
/* A step of the case's file that means nothing to the book any more; `back` counts it all the
 * same. */
void step_left_out(ask *a);
/* It was settled which of several answers is right: replayed only, the wrong ones are no steps. */
void step_was_settled(ask *a);
/* Replays the case's records. */
exit_status replay(ask *a);
/* Works the case out again from its records, without a word. */
void replay_again(ask *a);

/* ---- prompts ---- */

/* X(id, word, meaning) */
#define WORD_TABLE(X) \
    X(WORD_UNSURE, "unsure", "I looked, and can't tell") \
    X(WORD_CANNOT, "cannot", "I can't look or do that") \
    X(WORD_WHY, "why", "why is this asked?") \
    X(WORD_KNOWN, "known", "what is known so far") \
    X(WORD_CHANGE, "change", "change an answer") \
    X(WORD_BACK, "back", "take the last step back") \
    X(WORD_STOP, "stop", "stop, go on another time") \
    X(WORD_HOLD, "hold", "stop, and leave a note") \
    X(WORD_HAND, "hand over", "pass it on to somebody") \
    X(WORD_HELP, "?", "show these words")

#define WORD_ENUM_ENTRY(id, word, meaning) id,
typedef enum ask_word { WORD_TABLE(WORD_ENUM_ENTRY) WORD_NONE } ask_word;
#undef WORD_ENUM_ENTRY

/* Words as bits, for what a prompt offers. */
enum {
    AT_ALL = 1 << WORD_KNOWN | 1 << WORD_CHANGE | 1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP,
    AT_FIX = AT_ALL | 1 << WORD_WHY,
    AT_QUESTION = AT_ALL | 1 << WORD_UNSURE | 1 << WORD_CANNOT | 1 << WORD_WHY,
};

/* The words offered, in one line. A word that is an answer to this question (or TT_NONE) gets a
 * colon. */
void offer_words(ask *a, unsigned offered, uint32_t question);
/* The same in a turn alone. */
void put_words(ask *a, unsigned offered);
/* The question of a prompt. `kind` names it for programs, as in docs/turn.schema.json. */
void ask_for(ask *a, const char *kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* The same for a turn alone: something else was said in its place. */
void ask_silently(ask *a, const char *kind, const char *prompt);
/* What is wrong with what was typed; and what else there is to tell beside the question. */
void say_wrong(ask *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
void say_note(ask *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* Reads a line, or sends the turn and reads its answer; null when the person leaves. Freed by the
 * caller. */
char *hear(ask *a);
/* No line came: why the person left. */
void note_input(ask *a, line_got got);
/* ask_turn.c: sends the turn; and, in place of hear, reads what a person would have typed. */
void send_turn(ask *a);
char *hear_turn(ask *a);
/* Which word of ours a line is; ":stop" always is one. */
ask_word ask_word_of(const char *line);
/* Does what the word says. `question`: the one being asked, or TT_NONE. */
void ask_do_word(ask *a, ask_word word, uint32_t question);
/* What is no choice is negative: something else was done instead, or it was wrong. */
enum { DONE_INSTEAD = -1, NONE_OF_THEM = -2 };
/* Numbered choices and the words; the index of the choice, or one of the above. `names`: of the choices for programs, which stay the same in every language; or null. */
int choose_one(ask *a, const char *const *names, const char *const *choices, unsigned count,
               unsigned offered);
/* The same, and an empty line means the first; it is said so. */
int choose_or_first(ask *a, const char *const *choices, unsigned count, unsigned offered);
/* Which of the choices a line means, by its number, its words or how they begin, if no other begins
 * so; negative: none. */
int choice_of(const char *line, const char *const *choices, unsigned count);
/* Each with its number. */
void show_choices(const ask *a, const char *const *choices, unsigned count);

/* ---- others who work on the same case ---- */

/* Before a case is taken up that is open elsewhere: view, join or take over. EXIT_DONE, or why not. */
exit_status meet_others(ask *a, bool *views);
/* What others did since the last turn. False: somebody took the case over, and it is left to them. */
bool keep_up(ask *a);
/* True if there is an answer of which others know another, and it was asked which is right. */
bool settle_one(ask *a);
/* One line for each that is not settled. */
void show_unsettled(ask *a);
/* The same, one text for each that is to be settled. Texts and array are freed by the caller. */
char **unsettled_words(ask *a, size_t *count);
void step_settled(ask *a, const case_record *right, const case_record *const *wrong, size_t count);
/* A record in words: "Does the hose swell? no"; freed by the caller. */
char *words_of_reply(const tt_question *question, const tt_reply *reply);
char *record_words(ask *a, const case_record *record);
/* What an `answer` said of its question, whether it counts or not; freed by the caller. */
char *answer_said(ask *a, const json_t *data);
/* `hold` and `hand over`. */
void ask_hold(ask *a);
void ask_hand_over(ask *a);
/* A case that is taken up again: what has changed, and where it stands, in five lines. */
void take_up_again(ask *a);
/* What was safe an hour ago need not be now: true if a question about danger was asked once more. */
bool ask_danger_again(ask *a, const tt_view *view);

/* ---- what is asked and shown ---- */

/* The book named; else, on a terminal, the one chosen of those that come along; else the usual
 * one of them. Freed by the caller. */
exit_status book_wanted(ask *a, char **named);
void ask_complaint(ask *a);
/* Takes a complaint; if it is about a kind of equipment, first asks at which pieces. */
void ask_complain_of(ask *a, const tt_complaint *complaint, const char *said);
/* Answered, or left for something else: true. A wrong answer, and it should be asked again: false.
 */
bool ask_question(ask *a, uint32_t question);
/* Whether a line answers the question. An answer wins over a word of ours, but not over one that
 * merely begins like it, and not over one with a colon. If not, *why says what to type instead, or
 * is "". */
bool is_answer(ask *a, uint32_t question, const char *line, tt_reply *reply, const char **why);
/* The same for a line that is there. Words of ours are done. */
bool ask_take_answer(ask *a, uint32_t question, const tt_question *shown, const char *line);
void ask_change(ask *a);
void ask_fix(ask *a, const tt_view *view);
/* A setting that did not help, before anything else is tried. */
void ask_put_back(ask *a, const tt_view *view);
/* What another fix changed that did not help: put back, or left so, before anything else is tried.
 * False: there is no such thing. */
/* From what to what a fix sets something in its next step; nothing if it adjusts nothing. */
void show_adjust_step(const ask *a, const tt_fix_plan *plan);
/* What a fix has left different from before; null: nothing. Freed by the caller. */
char *change_words(const ask *a, const tt_tried *tried);
/* What fixes have left different from before, one a line. */
void show_settings(const ask *a, const tt_tried *tried, uint32_t count);
/* The most promising fix that is for somebody else; null: there is none. */
const tt_fix *their_fix(const tt_view *view);
void ask_whom_to_call(ask *a, const tt_view *view);
/* Where the case stands: null after noting a failure. */
const tt_view *look(ask *a);
bool has_answer(ask *a, uint32_t question);
void show_known(ask *a);
/* Why this question; or, for TT_NONE, why the first cause rather than the next. */
void show_why(ask *a, uint32_t question);
void show_new_cautions(ask *a, const tt_view *view);
/* The book's title, and what it says before anything else. */
void show_book_cautions(ask *a);
/* What makes it dangerous, what to isolate and what to wear; nothing if it is harmless. */
void show_safety(const ask *a, const tt_safety *safety);
/* Fixes tried, what is to be put back, and a fix that was begun and not finished. */
void show_what_was_tried(ask *a);
void show_summary(ask *a);
/* Asks a person whose trouble is gone what the cause was, and keeps the record `confirm`: {"how": "yes",
 * "other", "not-listed" or "unsure", "cause": name or null}. True: they took the last step back instead,
 * so the case goes on. */
bool offer_to_confirm(ask *a);
/* How to go on, or that the case is closed. */
void show_leaving(ask *a);

/* Notes a failure that ends the session; EXIT_DONE is none. */
void note_failure(ask *a, exit_status failure);

#endif
