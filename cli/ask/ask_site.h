/* Which site a case is about: the file given, the one kept from before, the example in the
 * book, or what the person says is there. */
#ifndef TT_CLI_ASK_SITE_H
#define TT_CLI_ASK_SITE_H

#include "ask/ask.h"

/* Opens the book for the site that the command line names, that is found, or that the person
 * describes. EXIT_UNFINISHED: the person left. */
exit_status open_for_site(ask *a, const char *book);
/* The same for a case that is taken up again: the site it was last worked on with, unless the
 * command line names another. */
exit_status open_for_site_again(ask *a, const char *book);
/* The same with what the case kept of its site (case_last_site), whatever its file says now. */
exit_status site_open_as_kept(ask *a, const char *book, const json_t *site);
/* Not the site that the case's file says it was last worked on with. */
bool is_other_site(const ask *a);
/* For the case's file: {"path", "revision", "text"}, or null if the site is the book's own. */
json_t *site_record(const ask *a);
void show_site(ask *a);
/* At the end: what was said about the site may go into its file. */
void offer_to_keep_facts(ask *a);

/* Says that no case was begun, because the person left; the status for that. */
exit_status left_before_case(const ask *a);

/* describe_site.c: asks for each kind of equipment what there is, and opens the book for that.
 * EXIT_DONE without a->book.site_text: nothing was said after all. `path`: where it is to be
 * written, or null to be asked. */
exit_status describe_site(ask *a, const char *book, const char *path);

#endif
