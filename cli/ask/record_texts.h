/* Words that go into a case's records beside the names, so that they can be read, listed and found
 * without the book, which may change or be gone. */
#ifndef TT_CLI_RECORD_TEXTS_H
#define TT_CLI_RECORD_TEXTS_H

#include "ask/ask.h"

/* {"asked": the question, "words": the answer} */
void add_answer_texts(json_t *data, const tt_question *question, const tt_reply *reply);
/* {"site_title"}, if the site has one. */
void add_site_title(const ask *a, json_t *data);
/* {"cause_text"} of a cause by its name; nothing if it is none of the list. */
void add_cause_text(ask *a, json_t *data, const char *cause);
/* {"fix", "fix_text", "cause", "cause_text"}: what helped, and what it most likely was. */
void add_ending_texts(ask *a, json_t *data);
/* The record of somebody who leaves the case for now. */
void keep_stop(ask *a);
/* {"next": what is asked or tried next} */
void add_next_text(ask *a, json_t *data);

#endif
