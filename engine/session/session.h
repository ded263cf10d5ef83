/* Inside of the public objects. Here, and only here, the stages meet. */
#ifndef TT_SESSION_SESSION_H
#define TT_SESSION_SESSION_H

#include "base/arena.h"
#include "base/faults.h"
#include "base/str.h"
#include "believe/belief.h"
#include "chain/working_memory.h"
#include "choose/choose.h"
#include "compile/program.h"
#include "compile/reckoned.h"
#include "listen/listen.h"
#include "model/book.h"
#include "say/catalogue.h"
#include "session/held_files.h"
#include "telltale.h"

struct tt_report {
    arena *keep;
    held_files *held; /* the bytes of its files, if it is of a book */
    sources files;
    faults *list;
    const fault *sorted;
    uint32_t count;
    const char *text;
};

/* Once all faults are in its list. */
void report_finish(tt_report *r, arena *scratch);
/* what_follows.c: names that stand in a file that could not be read are not missed, if it names
 * them. */
void drop_what_follows(faults *list, arena *scratch, const sources *files);

struct tt_book {
    arena *keep;
    held_files *held; /* the bytes of its files; null: another book's */
    sources files;
    const struct node *const *roots; /* [file] as it was read, or null */
    const uint32_t *nodes;           /* [file] of it: see load_sources_again */
    const line_index *lines;         /* [file] */
    const book *book;
    const program *prog;
    /* what people say, heard with this book's words; null until tt_book_hear */
    const listener *ear;
    tt_book_info info;
};
/* load_book.c: its titles and cautions in a language, in `keep`. */
tt_book_info book_info_in(const tt_book *b, arena *keep, str language);
/* hearing.c: the book's own, or if it has none a new one in `keep`. */
const listener *book_ear(const tt_book *b, arena *keep, arena *scratch);
/* trade_words.c */
void check_trade_words(const book *b, arena *scratch, faults *list);

/* What happened in a case, in order. The case is always worked out again from these, so undo is
 * exact. */
typedef enum event_kind {
    EVENT_ANSWER,
    EVENT_RETRACT,
    EVENT_COMPLAINT,
    EVENT_OUTCOME,
    EVENT_PUT_BACK,
    EVENT_FOCUS,
    EVENT_SOMEWHERE,    /* a complaint about one of several pieces, and which is not said */
    EVENT_NO_COMPLAINT, /* none of those that the book lists */
    EVENT_LEFT_SO,      /* what a fix has changed stays so */
    EVENT_CAME_BACK,    /* the trouble that a fix had ended */
    /* No steps, so not taken back: */
    EVENT_SITTING, /* the speaker's sitting begins */
    EVENT_RECHECK, /* the speaker must rule danger out once more */
    EVENT_DANGER,  /* danger was said */
    EVENT_TREND,   /* how a reading has moved over the site's cases */
    EVENT_UNSETTLED_ANSWER,
    EVENT_UNSETTLED_FIX, /* people who did not know of each other said different things */
    EVENT_OLD            /* an answer was given long ago */
} event_kind;
typedef struct event {
    event_kind kind;
    uint32_t who;     /* speaker */
    uint32_t subject; /* question, symptom or fix */
    bool cannot;      /* ANSWER: "can't do that" */
    bool complaint;   /* ANSWER: it says what is wrong; it rules no danger out */
    bool filed;       /* ANSWER: it came with an answers file */
    bool again;       /* ANSWER: one more look; what was seen before counts too */
    bool another; /* ANSWER again: with another instrument than the usual one, or by somebody beside
                     the speaker */
    /* ANSWER: who gave it did not know of the dangers from number `first_unseen` on */
    bool unaware;
    uint32_t first_unseen;
    bool about;  /* ANSWER, COMPLAINT: a complaint about the pieces of equipment in `pieces` */
    ids pieces;  /* FOCUS too */
    reply reply; /* ANSWER */
    tt_outcome outcome;
    tt_trend trend; /* TREND: of the answer that came before it */
    bool together;  /* OUTCOME: of two fixes under one lockout, */
    uint32_t with;  /* this one too */
} event;

/* A fix that changes a setting step by step, while it is under way. What may change with the
 * setting is held: as evidence it stays as found, since what somebody sets is no sign of a fault;
 * as a fact it is what was set or seen last. */
typedef struct adjusting {
    uint32_t fix;       /* NO_ID: none is under way */
    uint32_t steps;     /* taken so far */
    double at;          /* the setting now, in the unit of its question */
    tt_outcome outcome; /* of the last step */
    bool put_back_due;  /* it did not help: put back before anything else is tried */
    bool stuck;         /* and that could not be done */
    /* [question] the reading, and what is looked at again; null until a step is taken */
    bool *held;
    const reply **replies; /* [question] those held: as found */
    bool *cannot, *stale, *of_site;
} adjusting;

typedef struct setting {  /* a reading that a fix has changed */
    bool changed, by_fix; /* by_fix: the reading is what a fix set, not what somebody read */
    double found;
} setting;

/* Who ruled danger out, and what stands against it. Dangers are numbered from 0 in the order in
 * which they were told: answers to gate questions that are not exactly safe, and danger said. A
 * safe answer ends those before a number, so a count says which of them have ended. */
typedef struct gate_ledger {
    uint32_t dangers;     /* told so far */
    uint32_t danger_said; /* the number after the last "danger"; 0: never said */
    uint32_t *unsafe;     /* [question] the number after its last unsafe answer; 0: none */
    uint32_t *ended;      /* [question] its safe answers end dangers below this number */
    bool *mine; /* [question] the speaker has answered it as safe in this sitting, and nothing asks
                   for it again */
    uint32_t *mine_ended; /* [question] …which ends those below this number */
} gate_ledger;

/* Where the events lead: rebuilt after every change, in the arena `derived`. */
typedef struct standing {
    bool weighs;                     /* the belief is worked out too */
    uint32_t playing;                /* the event that is played */
    const reply **replies;           /* [question] what counts now, or null */
    bool *cannot;                    /* [question] */
    bool *of_site;                   /* [question] the site's file said so */
    bool *reckoned;                  /* [question] a quantity that nobody gave directly */
    const reply **reckoned_evidence; /* [question] what counts as evidence of it, or null */
    formula_lack *undefined; /* [question] why its formula has no value though all is known */
    bool focused;            /* the case is about some pieces of equipment only: */
    bool *focus;             /* [piece] those that were named */
    bool *in_focus; /* [piece] and those where a symptom is shown, and all of a kind of which none
                       was named */
    bool *of_named_kind;      /* [piece] some piece of its kind was named */
    bool *stale;              /* [question] answered before a fix changed things */
    const double **weights;   /* [question] soft evidence, or null: of the last look */
    looks *looks;             /* [question] all that count, as evidence has them */
    looks *before;            /* [question] those before the last */
    sighting *last;           /* [question] who looked last, and with what */
    const char ***saw_before; /* [question] the same in words, or null */
    /* [question] LOOKED_…: ways in which it was looked at again, or could not be */
    unsigned *looked;
    double *factor;                    /* [cause] */
    const facts_outlook *untold;       /* what is to be expected of facts that are not told */
    const net *net;                    /* with tables that depend on facts as they are now */
    bool *skip_questions, *skip_fixes; /* rules in force say they don't apply */
    tt_outcome *outcomes;              /* [fix] */
    bool *tried;                       /* [fix] */
    uint32_t *with;                    /* [fix] tried under one lockout with it, or NO_ID */
    bool *restored; /* [fix] one that adjusts nothing did not help, and was put back as found */
    bool *left_so;  /* [fix] what it changed stays as it is, though it did not help */
    bool any_better, closed;
    gate_ledger gate;
    bool complained; /* somebody said what is wrong, or that it is none of the list */
    bool *somewhere; /* [symptom] complained of, and at which piece is not said */
    /* [question] of a reading, as long as the answer stands that it was judged by… */
    tt_trend *trends;
    bool *trend_told; /* …if it was told */
    bool *unsettled_question, *unsettled_fix;
    bool *old; /* [question] answered long ago: still evidence, but asked again before a fix rests
                  on it */
    bool *look_due; /* [question] to be looked at again after a fix made it better or worse */
    adjusting adjust;
    setting *settings;      /* [question] */
    uint32_t complaint;     /* symptom or NO_ID */
    belief *single, *pairs; /* one fault; up to two (null if there are too many causes) */
    bool pairs_matter;
    const double *planning; /* [1 + cause] weights that fixes and questions are weighed with */
} standing;

/* What can be asked and done now. */
typedef struct options {
    choice_input in;
    uint32_t *question_of;   /* [option] the question it weighs */
    uint32_t *ask_first;     /* [option] a fact to be asked before it, or the question itself */
    tt_again *again_of;      /* [option] which look it is */
    const uint32_t *fix_of;  /* [option] the fix it weighs */
    const uint32_t *role_of; /* [callee] the role it is */
    uint32_t count;
    double per_answer; /* questions it takes, on the mean, to get one answered by this person */
} options;

struct tt_case {
    const tt_book *book;
    uint32_t role;
    str language;
    tongue in; /* our own words are said in it */
    bool soonest, asks_complaint;
    bool wordless;   /* nobody reads its words: the view has no facts, and no texts but the leading
                        cause's */
    bool looks_once; /* no second look is ever worth it: to measure what they are worth */
    tt_case_kind kind;
    ids walk;              /* ROUND, RECORD: its questions, in the order of the way */
    uint32_t speaker;      /* who tells what comes now, and for whom the gate is judged */
    const double *returns; /* [cause] factor ≥ 1: it was cured at this site before
                              (tt_cured_before); null: nothing is known of that */
    arena *keep, *derived, *scratch;
    const listener *ear; /* once something was typed */
    event *events;
    uint32_t event_count, event_room;
    uint32_t played; /* 0, or `now` is what these first events make known, and no belief */
    uint32_t on_top; /* times that something was played on top since all was played anew */
    uint32_t outcomes_weighed; /* the beliefs hold what came of fixes in these first events */
    working_memory *memory;
    belief *single, *pairs; /* made once, restarted whenever the case is worked out again; pairs
                               null: too many causes */
    state_mask *told;       /* [question] what the working memory was last told */
    bool *told_known;
    bool stands;  /* `now` is up to date, */
    bool fresh;   /* …and `options` and `view`, but for questions among the options, and for what
                     comes next: */
    bool decided; /* …and that too */
    options options;
    standing now;
    tt_view view;
    /* Kept from one turn to the next: what no answer has a say in, made when first wanted. */
    const prediction **foreseen; /* [question], or null */
    const struct kept_words *words;
    uint32_t *cause_order, *fix_order; /* as they were shown last: 0 something not listed, 1 +
                                          cause; fixes of the book */
};

/* guarded.c: the one place with a guard. Runs work(context) with the arenas set to leave by it;
 * TT_NO_MEMORY if they did. */
tt_status guarded(arena *const *arenas, uint32_t count, tt_status (*work)(void *context),
                  void *context);
tt_status guarded_case(tt_case *c, tt_status (*work)(void *context), void *context);

/* typed.c: tt_reply_read of what was heard in some words among others; `heard` null: of all of them
 */
tt_status reply_heard(tt_case *c, uint32_t question, const char *words, const answer_heard *heard,
                      tt_reply *out, const char **why);

/* hearing.c */
const listener *case_ear(tt_case *c);

/* see.c */
tt_status case_known(tt_case *c); /* brings `now` up to date, but for the belief: what was tried,
                                     set and told */
tt_status case_stood(tt_case *c); /* …and the belief; enough where nothing is shown */
tt_status case_see(tt_case *c); /* brings `now`, `options` and `view` up to date, but for what comes
                                   next in it (tt_look) and what that is chosen from */

/* timeline.c */
void case_changed(tt_case *c); /* something was told of it: nothing is up to date any more */
/* …and what was told before is another than it was, or counts otherwise */
void case_forget(tt_case *c);
void case_push(tt_case *c, event e);
/* case.c: all that was told is forgotten, and whoever has this role asks: as a new case of the same
 * book, in the room that it has */
void case_begin_again(tt_case *c, uint32_t role);
/* case.c: a complaint that rests on one answer gives it; else the questions beneath it come first
 * and nothing is counted. */
void case_complain(tt_case *c, uint32_t symptom);
tt_status case_tell(tt_case *c, event e); /* the same, under a guard of its own */
void case_stand(tt_case *c);              /* events → c->now */
/* weighing.c */
void case_learn(tt_case *c); /* what is known now; may be called at any time */
void case_weigh(tt_case *c); /* …and the belief */
/* what is known of it, without the belief: enough for what rules danger out */
void case_stand_unweighed(tt_case *c);
/* [question] of the symptoms that list any cause the fix cures */
const bool *fix_findings(tt_case *c, uint32_t fix);

/* telling.c: whoever has this role takes the case over with all that was told: another speaker, in
 * a sitting of their own */
tt_status case_take_over(tt_case *c, uint32_t role);

/* known.c: what is known by certainty */
const double *reply_weights(arena *keep, const program *p, const reply *r);
evidence case_evidence(const tt_case *c); /* all that was answered, for whoever speaks */
void case_remember(tt_case *c, uint32_t question, state_mask possible, bool known);
truth case_truth(const tt_case *c, uint32_t atom); /* NO_ID: TRUE */
bool adjust_holds(const tt_case *c, uint32_t question);

/* allowed.c: by role, by risk, by rules in force, by what is known */
risk_level safety_risk(const safety *s, bool protected);
bool safety_forbids(const safety *s); /* high with all protection, or in a confined space: never
                                         offered, somebody is called */
bool case_may_do(const tt_case *c, uint32_t fix);
bool case_could_ask(const tt_case *c, uint32_t question); /* but for its only-when */
bool case_may_ask(const tt_case *c, uint32_t question);
/* it may be asked now, also if it was answered */
bool case_could_look(const tt_case *c, uint32_t question);

/* case.c: a reply to a gate question that is none, or can't be read, is not safe */
tt_status case_reply_safe(tt_case *c, uint32_t question, const tt_reply *given);

/* sittings.c: who ruled danger out, and when */
reply safe_reply(const book *b, uint32_t question);
bool reply_is_safe(const struct question *q, const reply *r); /* q: a gate question */
bool event_is_danger(const tt_case *c, const event *e);
void sitting_play(tt_case *c, const event *e);
bool sitting_takes(const tt_case *c, const event *e);   /* false: an answer that leaves a danger
                                                           standing, so the fact stays as it is */
void sitting_look_again(tt_case *c, uint32_t question); /* what ruled danger out may have changed */
/* the speaker has answered it as safe, knowing of all dangers */
bool sitting_is_safe(const tt_case *c, uint32_t question);
/* by an answer to it, and that danger stands */
bool sitting_told_danger(const tt_case *c, uint32_t question);
/* a gate question that a danger stands against, or NO_ID */
uint32_t sitting_danger(const tt_case *c);

/* rounds.c: what a round or a record asks */
void walk_lay_out(tt_case *c, tt_every every); /* once, when the case is opened */
uint32_t walk_next(tt_case *c); /* what is to be asked now: one of them, or a fact that decides
                                   whether one applies; NO_ID: all is known */

/* looking.c: looks at the same thing */
enum { LOOKED_AGAIN = 1, LOOKED_ANOTHER = 2 };
void look_first(tt_case *c, const event *e); /* before the answer counts: it is the only look */
/* before it counts as one more; false: it was no look */
bool look_again(tt_case *c, const event *e);
void look_forget(tt_case *c, uint32_t question);
const char *look_saw_before(const tt_case *c,
                            uint32_t question); /* those before the last, or null */
void look_list(tt_case *c); /* sets now.looks, once all that is known is reckoned */
/* Whether to look at a finding once more may be worth it, and what to look at for it; NO_ID: no, or
 * it can't be. */
uint32_t look_asks(tt_case *c, const bool *danger, uint32_t finding, tt_again how);
/* [question] a caution or a stop rests on its answer, as things stand: of all of them at once, so
 * that each rule is looked at once */
const bool *look_danger(tt_case *c);
const char *look_words(tt_case *c, uint32_t question, tt_again how); /* "the same gauge" */

/* reckon.c: quantities */
void case_reckon(tt_case *c);
/* What must be asked before a quantity is known, in that order: the readings that are missing, each
 * after a fact that decides whether it applies. False: none is missing, or asking would not make it
 * known (one can't be asked, or was answered "not sure"). */
bool case_missing(tt_case *c, uint32_t quantity, ids *out);
/* What to ask so that a question is answered: itself, or the first reading missing for a quantity;
 * NO_ID: it can't be asked. */
uint32_t case_asks_for(tt_case *c, uint32_t question);
/* the first fact that would decide the question's only-when, or NO_ID */
uint32_t case_missing_fact(tt_case *c, uint32_t question);
void case_spread_stale(const tt_case *c, bool *stale);

/* focus.c: which pieces of equipment the case is about, and what that makes of the causes' shares
 */
void focus_on(tt_case *c, const ids *pieces, bool more); /* more: beside those named before */
/* Sets in_focus and of_named_kind by what the working memory holds. Trying out a fact doesn't move
 * the focus: what a symptom rests on has a table, so it is evidence and never tried. */
void focus_find(tt_case *c);
/* From here on what is in focus stays so: a sign that grows stale doesn't clear the piece where it
 * was seen. */
void focus_keep(tt_case *c);
/* [cause] how much likelier than the author says: rules in force, what facts that are not told make
 * of it on the mean, and the focus. Sets now.untold. */
void case_factors(tt_case *c, double *factor);
/* The same without what was cured at this site before. */
void case_factors_plain(const tt_case *c, const facts_outlook *of, double *factor);
/* The whole with other weights of facts, `of`, and leaving now.untold as it is. */
void case_factors_with(const tt_case *c, const facts_outlook *of, double *factor);
facts_outlook case_outlook(tt_case *c, const facts *f);

/* adjusting.c */
/* plays a step; false: the event is the outcome of the whole fix */
bool adjust_step(tt_case *c, const event *e);
bool case_adjusts(const tt_case *c, uint32_t fix);     /* it changes a setting step by step */
bool case_was_told_of(const tt_case *c, uint32_t fix); /* somebody said how it went */
tt_outcome adjust_put_back(tt_case *c);                /* plays it; the outcome of the whole fix */
void adjust_answered(tt_case *c, uint32_t question);   /* after the answer counts */
bool adjust_allows(tt_case *c, uint32_t fix, tt_outcome outcome);
bool adjust_is_possible(tt_case *c, uint32_t fix); /* a step could be taken, or the reading could be
                                                      asked; true if it adjusts nothing */
uint32_t adjust_asks(tt_case *c, uint32_t fix);    /* what to ask before its first step, or NO_ID */
/* what to look at before the next step of the one under way, or NO_ID */
uint32_t adjust_looks(const tt_case *c);
/* false: no step is left */
bool adjust_next(const adjustment *a, double at, uint32_t steps, double *next);
/* where its next step starts; false: not known */
bool adjust_from(const tt_case *c, uint32_t fix, double *from);
/* before a fix changed it; false: none did */
bool adjust_found(const tt_case *c, uint32_t question, double *found);
/* the answer that counts as evidence */
const reply *adjust_evidence(const tt_case *c, uint32_t question);

/* fixes.c */
bool fix_is_possible(tt_case *c, uint32_t fix); /* below High, not ruled out by facts */
bool fix_applies(tt_case *c, uint32_t fix);     /* not ruled out by facts, whatever its risk */
bool fix_waits(const tt_case *c, uint32_t fix); /* its only-when is not known yet */
/* it did not help, and changed what can be put back */
bool fix_changed_in_vain(const tt_case *c, uint32_t fix);
/* the reading it changes or is judged by, or NO_ID */
uint32_t fix_is_about(const tt_case *c, uint32_t fix);

/* options.c: what can be asked and done now */
options case_options(tt_case *c); /* fixes, and whoever may be called */
/* and what may be asked: only what comes next is chosen from it */
void options_questions(tt_case *c, options *o);

/* callees.c */
void add_callees(tt_case *c, options *o); /* once its fixes are known */
/* sequence.c: `all` are the options' fixes: those that each waits for; closed: it waits for what is
 * not done here */
void options_sequence(tt_case *c, const options *o, fix_option *all);
double fix_cost_in_minutes(const tt_case *c, uint32_t fix);

/* set_ups.c: which fixes may be done under one lockout */
void options_set_ups(tt_case *c, const options *o, fix_option *all);
/* minutes saved by doing them together */
double set_up_shared(const tt_case *c, uint32_t fix, uint32_t with);
bool fixes_share_set_up(const tt_case *c, uint32_t fix, uint32_t with);
/* Causes that either of them cures, rising, with the chance that one of them does. */
const net_rate *cures_together(tt_case *c, uint32_t fix, uint32_t with, uint32_t *count);

/* whereabouts.c */
void options_place(tt_case *c, options *o);

/* view.c: all of the view but what comes next */
void case_view(tt_case *c, const options *o);

/* kept_words.c: what is said of it, without its chance; of a fix, and without its standing */
typedef struct kept_words kept_words;
tt_cause view_of_cause(tt_case *c, uint32_t cause);
tt_fix view_of_fix(tt_case *c, uint32_t fix);

/* words.c */
const char *cstr(arena *keep, str s);
const char *role_words(tt_case *c, uint32_t role); /* what it is called */
const char *case_text(tt_case *c, const texts *t); /* in the case's language, inserts filled in */
/* our own words in it; with inserts: FILL(c->derived, c->in, …) */
const char *case_says(tt_case *c, text_id id);
text_id lack_text(formula_lack lack);
const char *lack_words(tt_case *c, formula_lack lack);
const char *reply_words(tt_case *c, uint32_t question, const reply *r);
const char *reading_words(tt_case *c, uint32_t question, double number); /* "52 psi" */
/* A number as it was said, in a unit of any name: "3 bar"; of a form of ratio "1:50", whose number
 * is a share. */
const char *number_said(arena *keep, double number, const char *in);
const char *usual_words(tt_case *c, uint32_t question); /* "20 psi – 40 psi"; or "" */
const char *const *case_text_list(tt_case *c, const texts_list *list);
/* ---- pictures.c ---- */
const tt_picture *picture_words(tt_case *c, const picture *p); /* null of null */
/* One for each step, each perhaps null; null if no step has one. */
const tt_picture *const *step_pictures(tt_case *c, const texts_list *steps);
/* load_book.c: what a file of answers says is wrong; NO_ID: nothing, or it can't be read. */
uint32_t file_complaint(arena *keep, arena *scratch, const tt_book *b, const tt_source *file);

/* ---- complaints.c: in the book's language, at no piece in particular ---- */
const char *complaint_text(const book *b, uint32_t symptom, str language);
const char *symptom_words(tt_case *c, uint32_t symptom);
const char *place_words(arena *keep, const tt_book *b, span at); /* "air.yaml:41"; "" for nowhere */
str number_words(arena *keep, double number);
/* ---- safety_words.c ---- */
const char *risk_name(risk_level level);
tt_safety safety_words(tt_case *c, const safety *s);

#endif
