/* Which site a case is about. Nothing of the example in a book is taken for the caller's: where
 * nobody has said what equipment there is, it is asked once danger is ruled out, or the case goes
 * on without. */
#ifndef TT_CLI_CHOOSE_SITE_H
#define TT_CLI_CHOOSE_SITE_H

#include "call/conversation.h"

/* open_site.c: opens the book for the site that the command line names, or that was kept earlier;
 * for its example in practice; else for none. */
exit_status open_for_site(conversation *c, const char *book);
/* The same for a case that is taken up: for the site that it was last worked on with, unless the
 * command line names another. `site`: as its records have it; null: none that was said. */
exit_status open_for_site_again(conversation *c, const char *book, const tt_value *site);
/* Asks what there is, and goes on with that. */
void decide_site(conversation *c);

/* describe_site.c: asks what there is of each kind, and where to keep it. False: nothing was said
 * after all; or danger came first, and what was said until then waits in c->draft for the next
 * time.
 */
bool describe_site(conversation *c);
void forget_draft(conversation *c);
/* Only where to keep what there is, as it was said. */
void keep_site(conversation *c);
/* keep_facts.c: at the end, what was said about the site may go into its file. */
void offer_to_keep_facts(conversation *c);

/* The case's records say from now on which site it is about. */
void note_site_of_case(conversation *c);
/* The book that is open, for a site with this text. */
exit_status open_with_site_text(conversation *c, const char *text);

#endif
