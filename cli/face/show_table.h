/* Causes and signs for people: running lines, and a page. */
#ifndef TT_CLI_SHOW_TABLE_H
#define TT_CLI_SHOW_TABLE_H

#include "host/screen.h"
#include "paper/paper.h"
#include "telltale.h"

/* By part, each cause with its signs, the strongest first. */
void table_in_words(const screen *s, const tt_table_view *v);
/* The same, and each sign with its causes. */
void table_on_paper(FILE *out, const paper_kind *kind, const tt_table_view *v);

#endif
