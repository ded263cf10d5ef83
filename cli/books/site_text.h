/* A site file as text: made from what a person says there is, and added to. */
#ifndef TT_CLI_SITE_TEXT_H
#define TT_CLI_SITE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

#include "telltale.h"

/* What there is of one kind, as it was said, in the order in which the work meets it. */
typedef struct names_said {
    char **items;
    size_t count;
} names_said;
void names_free(names_said *names);
/* Adds a trimmed copy, with round brackets for braces, which mean something in rules. False: it is
 * empty, or was said before. */
bool names_add(names_said *names, const char *name);
/* There is one. */
void names_drop_last(names_said *names);

/* The text of a site file; `said` has one item for each kind of the book. Names for the rules
 * are made from what was said; with `long_names` each ends with its kind, so that none can be a
 * word of the rule language. Freed by the caller. */
char *site_text_of(const tt_book *book, const char *title, const names_said *said, bool long_names);

/* An answer for the file. */
typedef struct site_fact {
    const char *question; /* "foam-air-set of floor-left" */
    const char *value;    /* as in an answers file, "45 psi" */
    const char *source;   /* how it is known, or "" */
} site_fact;
/* The text with the fact in it: at its piece of equipment if the text has a place of its own for
 * that, else among the answers; what it said before is replaced, unless it is
 * the same value. Made by lines and braces alone, so whoever uses it loads it before believing it.
 * Null if the site does not stand in lines of its own, or its answers are written otherwise. Freed
 * by the caller. */
char *site_text_with(const char *text, const site_fact *fact);

#endif
