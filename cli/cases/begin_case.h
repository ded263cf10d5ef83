/* A case of the engine, begun as the command line says. */
#ifndef TT_CLI_BEGIN_CASE_H
#define TT_CLI_BEGIN_CASE_H

#include "books/read_book.h"
#include "host/exits.h"
#include "telltale.h"

/* `role` and `language` may be null. Says what is wrong with them. `asks`: somebody is there to be
 * asked what is wrong. */
exit_status case_begin(const opened_book *book, const char *role, const char *language,
                       bool soonest, bool asks, tt_case **out);
/* TT_NONE for null. Says which roles there are if the name is none. */
exit_status role_named(const tt_book *book, const char *name, uint32_t *role);
/* Null is fine. Says that a tag is none: EXIT_USAGE. */
exit_status language_typed(const char *tag);
/* Answers a whole file, or says what is wrong with it. */
exit_status case_answer_file(tt_case *c, const tt_source *file);
/* The status after a call that can only fail for want of memory or by a fault of ours. */
exit_status status_of(tt_status status);
/* Of what fails only where memory ends: then the program does. */
void must_be_done(tt_status status);

#endif
