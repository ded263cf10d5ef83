/* Learning inside: which numbers of the book's files cases are counted for. */
#ifndef TT_LEARN_LEARNING_H
#define TT_LEARN_LEARNING_H

#include "learn/misled.h"
#include "learn/passing.h"
#include "learn/reliance.h"
#include "learn/returns.h"
#include "learn/row.h"
#include "learn/shares.h"
#include "session/session.h"

/* A number as it stands in a file, once, whatever it was expanded to for pieces of equipment. */
typedef struct number {
    tt_learned_kind kind;
    span key;  /* where it stands, or its entry if it was left out: tells it from all others */
    span said; /* nowhere: left out */
    const node *body;                         /* its entry's */
    uint32_t symptom, cause, fix, instrument; /* one of those it is about; NO_ID: none */
    double weight;                            /* HOW_OFTEN: of all pieces together, relative */
    double looks;           /* SHOWN_BY: of the looks, those that show it; else 1 */
    learn_passing *passing; /* SHOWN_BY, COMES_AND_GOES: looks at that sign in its cases; or null */
    const rate *rate;       /* COMES_AND_GOES: where it stands, or could */
    uint32_t returning;     /* COMES_BACK: its place among `returning` */
    learn_row *row;         /* the others: the row of a table in which it stands, */
    const bool *inside;     /* [atom] and the atoms that it is the chance of */
    learn_count count;      /* once the cases were looked at: */
    learn_belief is;
} number;

struct tt_learning {
    arena *keep, *shown, *scratch;
    tt_book *book;
    uint32_t warnings; /* of the book as it is */
    const tt_source *sources;
    uint32_t source_count;
    number *numbers;
    uint32_t number_count, cause_entries, cases;
    double weights; /* sum over causes */
    learn_shares *shares;
    learn_row *rows;
    learn_misled *misled;
    learn_returning *returning;
    uint32_t returning_count;
    learn_site *sites;
    number *comes_back, *done_wrongly; /* the book's own, for all that do not say otherwise */
    learn_verdict *verdicts;
    uint32_t confirmed[LEARN_ENDS], ended[LEARN_ENDS]; /* cases */
    learn_weights each; /* as what a case counts, once they were looked at */
    tt_lesson lesson;
};

/* The numbers that can be learned, in their order of the lesson. */
void learning_find_numbers(tt_learning *l);
number *learning_number_at(tt_learning *l, tt_learned_kind kind, span key); /* null: none */
/* Of a cause, by the place of its entry, which is looked for from `near` on; NO_ID: none. */
uint32_t learning_entry_at(const tt_learning *l, span key, uint32_t near);
/* the same book, maybe at a site */
bool learning_is_about(const tt_learning *l, const tt_book *other);

/* Goes through all cases, until the numbers stand still. */
void learning_settle(tt_learning *l);

/* Whether the sign's share of looks becomes another. */
bool learned_passing(const learn_passing *p);

/* What is to be written in place of a number with so many digits that count, or "" if it is that
 * already. */
const char *learned_text(tt_learning *l, const number *n, int digits);
/* Edits for all of them, and for learned-until; none if no number changes. */
const tt_edit *learned_edits(tt_learning *l, const char *until, int digits, uint32_t *count);

#endif
