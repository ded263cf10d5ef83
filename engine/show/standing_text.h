/* Where a case stands in words, for every face: what is known, what it points to, what to do about
 * it. The parts are those of a turn. */
#ifndef TT_SHOW_STANDING_TEXT_H
#define TT_SHOW_STANDING_TEXT_H

#include "show/part_list.h"

typedef struct standing_about {
    const tt_book *book;
    tt_case *c;
    const tt_view *view;   /* of the case */
    bool practice;         /* the site is the example */
    uint32_t most_of_site; /* of more facts of the site only the number is told: a long list would
                              hide what matters */
} standing_about;

/* Which pieces it is about, what was answered, what follows, what is known of the site. */
void tell_facts(part_list *parts, const standing_about *about);
/* At most `most` causes, leaving out the unlikely after the third; two faults at once, if they
 * matter; what does not fit. */
void tell_causes(part_list *parts, const standing_about *about, uint32_t most);
/* What the list of causes comes to in a sentence: it leads nowhere, or the first few of those told
 * hold nearly all. Null: nothing that the list doesn't say. */
typedef struct list_end {
    bool nothing_wrong, probably_none, not_listed_leads;
    uint32_t likely, told;
} list_end;
list_end end_of_list(const tt_view *v, uint32_t told);
const char *where_it_leads(arena *keep, tongue in, const list_end *end);
/* In the order to try them, a part for each standing; while danger is not ruled out, one that says
 * so. */
void tell_fixes(part_list *parts, const standing_about *about, uint32_t most);

/* "warning" as people read it, in capitals. */
const char *signal_word(tongue in, const char *signal);

/* An answer with its question. */
const char *fact_words(arena *keep, tongue in, tt_case *c, const tt_fact *fact);
/* The pieces that the case is about, in the order for people: by kind, each kind in the order in
 * which the work meets them. */
const char *const *focus_words(arena *keep, const tt_book *book, const tt_view *view,
                               const char *language, uint32_t *count);

/* ---- fixes that were tried ---- */

/* what came of it */
const char *tried_outcome(arena *keep, tongue in, tt_case *c, const tt_tried *tried);
/* What a fix that stays has left different: it helped, or can't be undone. With the reading it is
 * about, where that was read before and after. Null: nothing that could be put back. */
const char *different_words(arena *keep, tongue in, tt_case *c, const tt_tried *tried,
                            const tt_measured *measured);
bool is_measured(const tt_measured *m); /* before and after */

#endif
