/* The typed book: what the author wrote, with names resolved to indices and every place kept.
 * Entries of each section stand in name order, so that nothing depends on the order of files,
 * entries or keys. */
#ifndef TT_MODEL_BOOK_H
#define TT_MODEL_BOOK_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/faults.h"
#include "base/pattern.h"
#include "base/source.h"
#include "base/str.h"
#include "load/nodes.h"
#include "measure/amount.h"
#include "measure/formula.h"
#include "model/book_parts.h"
#include "model/mentions.h"

/* ---- sections ---- */
typedef struct answer_option {
    label id;
    texts text;
    heard_list heard;
    const picture *picture; /* or null; so are all of this type */
    double share;           /* facts only: how often, sums to 1 */
} answer_option;

typedef enum question_kind {
    QUESTION_CHOICE, /* yes/no is a choice of `no`, `yes` */
    QUESTION_READING,
    QUESTION_COUNT,
    QUESTION_QUANTITY, /* nobody is asked: it is reckoned from readings, and known once they are */
} question_kind;
typedef enum question_round {
    ROUND_NONE,
    ROUND_DAILY,
    ROUND_WEEKLY,
    ROUND_MONTHLY
} question_round; /* looked at regularly */
typedef enum reading_trend {
    TREND_STEADY,
    TREND_RISING,
    TREND_FALLING,
    TREND_JUMP,
    TREND_COUNT
} reading_trend;                         /* the number of a quantity that is a trend */
const char *trend_name(reading_trend t); /* as the author writes it */
typedef enum question_about { ABOUT_FAULT, ABOUT_SITE, ABOUT_TODAY } question_about;
typedef struct formula_case { /* the first whose `when` holds gives the value */
    const cond *when;         /* null: always; over questions and quantities only */
    const formula *is;
    span at;
} formula_case;
typedef struct question {
    label id;
    owner of;
    question_kind kind;
    bool yes_no;
    texts ask, look, say, because; /* because: why it is asked, for a learner */
    const picture *picture;
    /* CHOICE: in name order; shown in the author's order by `shown_order` */
    const answer_option *answers;
    uint32_t answer_count;
    const uint32_t *shown_order;
    str measures; /* READING, COUNT: "pressure" */
    unit in;      /* READING, COUNT, QUANTITY: unit of all its numbers (count: none) */
    bool has_plausible;
    double plausible_low, plausible_high;
    bool has_usual;
    uint32_t usual_answer;        /* CHOICE */
    double usual_low, usual_high; /* READING, COUNT */
    double minutes;
    uint32_t role;
    uint32_t place;      /* where it is answered, or NO_ID */
    uint32_t instrument; /* with which it is answered, or NO_ID */
    question_round round;
    uint32_t good;         /* READING: the fact of the site that holds its good value, or NO_ID */
    const cond *only_when; /* null: always */
    /* `safe` makes a gate question: the case goes on only while a person has given one of these
     * answers in this sitting. It is of the lowest role, no quantity, no fact of the site, and
     * neither all of its answers are safe nor none. */
    bool gate;
    uint64_t safe_answers;      /* CHOICE: mask over answers */
    double safe_low, safe_high; /* READING, COUNT: -INFINITY, INFINITY: open ended */
    bool safe_low_in, safe_high_in;
    ids facts_first; /* gate: what is asked before it, since its only-when rests on it, also by way
                        of others */
    bool ours;  /* the engine's own gate question, since the book has none that is always asked */
    bool early; /* a fact told right after the gate */
    double read_right;
    /* how often an answer that confirms a cause is told where it isn't so */
    double wrongly_confirmed;
    question_about about;
    safety harm;
    put_back undo;
    /* QUANTITY; its text is in `ask` */
    const formula_case *cases;
    uint32_t case_count;
    ids beneath;          /* the questions that are asked for it in the end */
    bool made, over_time; /* over_time: `history` shows its values. Made: by a comparison of the
                             reading `judged` with what is not constant: their difference */
    uint32_t judged;
    bool trend; /* made too: how the reading `judged` has moved, a reading_trend; not known yet, by
                   whatever is asked */
} question;

typedef struct rate { /* chance with a cause */
    uint32_t cause;
    double chance;
    double looks; /* shown-by: of the looks at it while the cause is there, the share that shows the
                     sign; 1: it stays */
    span at;
    span said;            /* the chance as written; nowhere: it was made */
    span looks_said;      /* nowhere: it was left out */
    const node *looks_in; /* where they may be said; null: the chance stands by itself */
} rate;

/* Chance that one look shows the sign. */
static inline double rate_seen(const rate *r)
{
    return r->chance * r->looks;
}

typedef struct symptom {
    label id;
    owner of;
    texts of_any; /* written for each piece: the text with the kind's own word in place of the
                     piece's */
    texts text;   /* empty: rests on one answer, reads as that answer */
    const cond *when;
    heard_list heard;
    const rate *shown_by; /* in cause order */
    uint32_t shown_by_count;
    double otherwise;
    span otherwise_at, otherwise_said; /* said: nowhere if left out */
    const node *body;                  /* as written; null: made from a question's `confirms` */
    bool from_confirms;                /* made from a question's `confirms` */
    bool rests_on_one; /* on one answer of one question: confirming the complaint answers it */
    uint32_t one_question, one_answer;
} symptom;

typedef struct cause {
    label id;
    owner of;
    texts text, means, part;
    const picture *picture;
    double how_often;  /* relative; of a kind's cause: this piece's even part of the kind's share */
    span often_said;   /* nowhere if left out */
    double comes_back; /* of cures at a site, those after which it comes back there */
    span comes_back_said;  /* nowhere: the book's */
    const node *body;      /* as written */
    bool each;             /* how often is meant for each piece, not for the kind together */
    const cond *only_when; /* null: always; the cause is out once this is known not to hold */
    texts_list spare_parts;
    uint32_t confirmed_by; /* role or NO_ID */
    ids never_with, brought_on_by;
} cause;

/* A fix that changes a setting step by step: one step, look again, and so on; the setting is put
 * back to as found if it did not help. All in the unit of the reading; step ≠ 0, low < high,
 * at_most ≥ 1. */
typedef struct adjustment {
    uint32_t reading; /* question (a reading), or NO_ID: the fix adjusts nothing */
    double step;
    double low, high; /* no step leads outside */
    uint32_t at_most; /* steps */
} adjustment;

typedef struct fix {
    label id;
    owner of;
    texts text;
    texts_list steps, parts;
    texts_list once_running; /* steps once it is given back */
    money cost;
    const rate *cures; /* in cause order */
    uint32_t cures_count;
    double done_wrongly;    /* of tries, those that cure nothing for being done wrongly */
    span done_wrongly_said; /* nowhere: the book's */
    double minutes;
    uint32_t role;
    uint32_t place; /* where it is done, or NO_ID */
    safety harm;
    put_back undo;
    const cond *only_when;
    ids look_again; /* questions */
    ids after;      /* fixes that are tried first, also as those say it with `before` */
    adjustment adjust;
} fix;

typedef struct conclusion {
    label id;
    texts text;
    const answer_option *answers; /* in name order; default: one, `yes` */
    uint32_t answer_count;
} conclusion;

typedef struct rule_set {
    uint32_t conclusion, answer;
    span at;
} rule_set;
typedef struct rule_factor {
    uint32_t cause;
    double factor;
    span at;
} rule_factor; /* 0: ruled out; less-likely 3 times: 1/3 */
typedef enum signal_word {
    SIGNAL_DANGER,
    SIGNAL_WARNING,
    SIGNAL_CAUTION,
    SIGNAL_NOTICE
} signal_word;
typedef struct rule {
    label id;
    const cond *when;
    const rule_set *sets;
    uint32_t set_count;
    const rule_factor *factors;
    uint32_t factor_count;
    ids skip_questions, skip_fixes;
    ids holds; /* fixes that nobody is offered while the caution stands */
    bool has_caution;
    signal_word signal;
    texts caution;
    bool stops;
    texts stop;
    uint32_t call; /* role or NO_ID */
} rule;

/* ---- answers, as in an answers file and in worked cases ---- */
typedef enum reply_kind {
    REPLY_UNSURE,
    REPLY_ANSWER,
    REPLY_READING,
    REPLY_NOT,
    REPLY_LIKELY
} reply_kind;
typedef struct reply {
    reply_kind kind;
    uint32_t question;
    span at;
    uint32_t answer;       /* ANSWER */
    double number;         /* READING, in the question's unit */
    double magnitude;      /* READING: what rounding is measured by, if that is more than the number
                              itself */
    uint64_t excluded;     /* NOT: mask over answers */
    const double *weights; /* LIKELY: [answer_count] ≥ 0, not all 0 */
} reply;

typedef struct site_answer { /* what the site's file says in advance */
    reply given;
    texts source;       /* how it is known; may be empty */
    str day, role, how; /* when, by whom and with what it was found good; each may be empty */
} site_answer;

typedef enum case_danger {
    CASE_ANYHOW,
    CASE_STOPS,
    CASE_GOES_ON
} case_danger;            /* whether danger ends it */
typedef struct heard_as { /* these words mean this symptom, at any piece of its kind */
    str say, symptom;
    span at;
} heard_as;

typedef struct worked_case {
    label id;
    uint32_t role;        /* or NO_ID: the lowest */
    uint32_t complaint;   /* symptom or NO_ID */
    ids at;               /* pieces that the call is about; none: all */
    const reply *replies; /* in question order */
    uint32_t reply_count;
    /* Expectations, each known to rehearse/trials.c and, if chances decide it, to rehearse/held.c;
     * NO_ID: none. leading/among cause may be CAUSE_NOT_LISTED. */
    uint32_t leading_cause;
    span leading_at;
    ids among;
    uint32_t among_count;
    span among_at; /* all of them among so many first ones */
    uint32_t first_fix;
    span first_fix_at;
    uint32_t caution_rule;
    span caution_at;
    uint32_t stop_rule;
    span stop_at;
    uint32_t next_question;
    span next_at;
    ids never_asked;
    span never_asked_at;
    ids never_offered;
    span never_offered_at; /* fixes */
    double chance_least, chance_most;
    span chance_at; /* of the leading cause; 0 and 1: nothing is said */
    case_danger danger;
    span danger_at;
    const heard_as *hears;
    uint32_t hears_count;
} worked_case;
#define CAUSE_NOT_LISTED (UINT32_MAX - 1)

/* The words that an author may write for a number, rising. */
enum { CHANCE_WORDS = 9, OFTEN_WORDS = 5 };
enum { CHANCE_RARELY = 1, CHANCE_ALWAYS = CHANCE_WORDS - 1 };
const char *chance_word(uint32_t i); /* "usually": its chance is the book's (word_chance) */
double chance_of_word(uint32_t i);   /* where a book does not say another */
/* "common", and the relative weight that it stands for */
const char *often_word(uint32_t i, double *share);

/* Shown before each question and fix with one of these hazards. */
typedef struct hazard_caution {
    texts text;
    bool hazards[HAZARD_COUNT];
} hazard_caution;

#define DONE_WRONGLY_MOST   0.5 /* what is done wrongly more often should not be tried */
#define COMES_BACK_USUALLY  0.1 /* of cures; ours, no measured figure */
#define ANSWERS_COUNT_LEAST 0.1 /* of the power to which answers count; 1 at most */
typedef struct book {
    const sources *files;
    mention_list *mentions; /* where names stand; null: nobody asked */
    texts title;
    str edition, language;
    str learned_until;          /* cases closed up to then are in these numbers; may be empty */
    span learned_until_said;    /* nowhere if left out */
    const node *manifest;       /* as written */
    const label *roles;         /* rising */
    const texts *role_text;     /* [role] what it is called; none: its name */
    const uint32_t *role_level; /* [role] those beside each other have the same */
    uint32_t role_count;
    const bool *authorised; /* [role] who is it may isolate and lock; by the book or by the site */
    double answers_count;   /* what the answers say counts to this power */
    span answers_count_said, manifest_at; /* nowhere if left out; the section 'book' */
    double not_listed, two_faults, call_minutes,
        walk_minutes;                        /* walk: between two places of which nothing is said */
    double done_wrongly, comes_back;         /* of a fix and of a cause that do not say otherwise */
    span done_wrongly_said, comes_back_said; /* nowhere if left out */
    /* low, medium, serious, high: from which chance on, minutes */
    double worth_trying[4], price[4];
    double word_chance[CHANCE_WORDS];
    texts_list cautions;    /* shown before anything else */
    const picture *picture; /* of the whole */
    const hazard_caution *hazard_cautions;
    uint32_t hazard_caution_count;
    texts stop_text; /* what to do while the gate is shut and no rule says it; ours if the book has
                        none */
    phrases not_danger; /* words of danger that are the trade's own */
    const emergency *emergencies;
    uint32_t emergency_count; /* by id */
    const concept *concepts;
    uint32_t concept_count;
    const equipment_kind *kinds;
    uint32_t kind_count;
    const piece *pieces;
    uint32_t piece_count; /* by kind, then name */
    const spot *places;
    uint32_t place_count; /* by name */
    const instrument *instruments;
    uint32_t instrument_count; /* by name */
    const named_wear *protection;
    uint32_t protection_count; /* by name: what is worn, written once; so are harms */
    const named_harm *harms;
    uint32_t harm_count;
    const money *minute_costs; /* [role] what a minute of theirs costs; all money of a book is in
                                  one currency */
    bool has_site;
    texts site_title;
    const contact *contacts;
    uint32_t contact_count; /* in the site's order */
    str emergency_number;   /* may be empty */
    bool site_is_example;   /* no contact and no number of it is the caller's */
    const site_answer *site_answers;
    uint32_t site_answer_count; /* in question order */
    const procedure *procedures;
    uint32_t procedure_count; /* by name, with the site's own points */
    const question *questions;
    uint32_t question_count; /* first the named ones, by name; then ours; then those that
                                comparisons made, by name */
    uint32_t named_questions;
    uint32_t our_gate; /* the question that is `ours`, right after the named ones; NO_ID: none */
    const uint32_t *reckon_order;
    uint32_t reckon_count; /* quantities, each after what it rests on */
    const unit *shown_units;
    uint32_t shown_unit_count; /* preferred, one a dimension: the site's, then the book's */
    const symptom *symptoms;
    uint32_t symptom_count; /* those made from `confirms` too, named question-answer-confirmed */
    const cause *causes;
    uint32_t cause_count;
    const fix *fixes;
    uint32_t fix_count;
    const conclusion *conclusions;
    uint32_t conclusion_count;
    const rule *rules;
    uint32_t rule_count;
    const worked_case *cases;
    uint32_t case_count;
} book;

/* Does a number lie in a condition's interval? One that differs from an end by no more than
 * rounding lies on it. */
bool interval_holds(const cond *c, double number, double magnitude);
bool number_is_at(double number, double magnitude, double bound);

/* Of a gate question: does this let the case go on? */
bool answer_is_safe(const question *q, uint32_t answer);
/* They are those of the question before, at another piece: their texts and phrases are there once.
 */
bool answers_as_before(const book *b, uint32_t question);
bool reading_is_safe(const question *q, double number, double magnitude);
/* One that is safe and can be read, for a call that nobody makes; NAN: a count has none. */
double safe_number(const question *q);

/* Inside what the author calls plausible, both ends included. */
bool is_plausible(const question *q, double number);

/* The unit in which people at the site read this: the site's own for the dimension, else as it is.
 */
unit book_shown_unit(const book *r, const unit *in);
/* A number of a reading in that unit, or in `as` if that isn't null: "45 psi"; what was converted
 * or reckoned in 4 digits. */
str book_amount(arena *keep, const book *r, uint32_t question, double number, const unit *as);

/* The emergency of this id, or the one that replaces it. */
uint32_t book_emergency(const book *r, str name);
uint32_t book_question(const book *r, str name); /* or NO_ID; likewise: */
uint32_t book_symptom(const book *r, str name);
uint32_t book_cause(const book *r, str name);
uint32_t book_fix(const book *r, str name);
uint32_t book_role(const book *r, str name);
/* A role may do its own work and that of every lower one, but not that of one beside it. */
bool book_may(const book *r, uint32_t role, uint32_t work_of);
/* …and isolates only if it is authorised. */
bool book_may_work(const book *r, uint32_t role, uint32_t work_of, const safety *s);
/* The lowest role that may; that of the work itself if none is authorised. */
uint32_t book_role_for(const book *r, uint32_t work_of, const safety *s);
double book_set_up_minutes(const book *b, const safety *s); /* of its procedures */
/* The walk that `from` tells of; null: it tells of none. */
const spot_walk *walk_between(const spot *all, uint32_t from, uint32_t to);
/* Minutes from one place to another, whichever of the two tells of it. */
double book_walk(const book *b, uint32_t from, uint32_t to);
/* The place of all questions that its condition names and that have one; NO_ID: none has, or they
 * differ. */
uint32_t book_symptom_place(const book *b, uint32_t symptom);
uint32_t book_kind(const book *r, str name);
uint32_t book_piece(const book *r, str name);

#endif
