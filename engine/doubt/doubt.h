/* The kinds of doubts, a file each; for the room only. What stands once for each piece of a kind is
 * written once, so a doubt about each has one place and is told once. */
#ifndef TT_DOUBT_DOUBT_H
#define TT_DOUBT_DOUBT_H

#include "doubt/doubt_index.h"
#include "doubt/doubts.h"
#include "doubt/people_read.h"

void doubt_conditions(const doubter *d); /* that never hold, or always */
void doubt_paths(const doubter *d);      /* what can't come about together */
void doubt_signs(const doubter *d);      /* chances of symptoms */
void doubt_order(const doubter *d);      /* lists whose likeliest stands first */
void doubt_drowned(const doubter *d);    /* signs that other faults show more often */
void doubt_readings(const doubter *d);   /* usual ranges, bands, adjustments */
void doubt_phrases(const doubter *d);    /* what is heard as two things */
void doubt_words(const doubter *d);      /* what people say */
void doubt_texts(const doubter *d);      /* what people read */
void doubt_work(const doubter *d);       /* fixes */
void doubt_unused(const doubter *d);

void doubt_danger(const doubter *d);  /* gates, locks, protection, cautions */
void doubt_course(const doubter *d);  /* what waits, what is left behind, worked cases */
void doubt_numbers(const doubter *d); /* numbers outside shown-by, and what is named for nothing */

typedef enum truth { IS_FALSE, IS_TRUE, IS_OPEN } truth; /* open: more would have to be known */

/* doubt_truth.c. What it comes to, `leaf` saying so of each question in it: of an answer, a range
 * or that it is known. */
typedef truth truth_of_leaf(const void *of, const cond *leaf);
truth truth_of(const doubter *d, const cond *c, truth_of_leaf *leaf, const void *of);

/* possible.c. Can all of them hold at once, whatever is answered? Null: one that always holds. What
 * is too much to be worked out counts as possible. */
bool can_hold(const doubter *d, const cond *const *all, uint32_t count);
bool can_fail(const doubter *d, const cond *c);

/* doubt_parts.c. The same entry as written: pieces of one kind share it. */
bool same_written(const label *a, const label *b);
/* Of those that are written once it is the first. */
bool is_first_piece(const book *b, uint32_t symptom);
/* How often it is shown by a cause that it lists. */
const rate *rate_of(const symptom *s, uint32_t cause);
/* Does it set the conclusion that the condition asks for, and so? */
bool rule_sets(const rule *r, const cond *conclusion);
/* Calls `see` with every condition of the book. `what` names its owner: "the symptom 'foam-thin'".
 */
typedef void condition_seen(const doubter *d, const cond *c, const char *what, const label *owner);
void each_condition(const doubter *d, condition_seen *see);

#endif
