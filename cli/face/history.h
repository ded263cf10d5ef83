/* A site over time, in words and for programs. */
#ifndef TT_CLI_HISTORY_H
#define TT_CLI_HISTORY_H

#include "host/screen.h"
#include "telltale.h"

/* `plain`: nothing is drawn, one thing a line. */
void print_history_words(const screen *s, bool plain, const tt_site_story *story);
void print_history_json(FILE *out, const tt_site_story *story);

#endif
