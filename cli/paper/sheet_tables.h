/* What the two files of a sheet share: its first page (sheet_paper.c), its appendix
 * (sheet_appendix.c), and the tables that stand in either (sheet_tables.c). Each is left out where
 * there is nothing to tell. */
#ifndef TT_CLI_SHEET_TABLES_H
#define TT_CLI_SHEET_TABLES_H

#include <stdbool.h>

#include "paper/paper_words.h"
#include "paper/sheet.h"

/* A sheet on its way to paper. */
typedef struct filling {
    const paper *p;
    arena *keep;
    const shown_sheet *sheet;
    bool apart; /* in the appendix, whose sections stand under its own heading */
} filling;

bool sheet_is_kind(const sheet_step *step, const char *kind);
bool sheet_counts(const sheet_step *step); /* neither taken back nor left out */
/* A fault is looked for. In a round and a record nobody says that something is wrong, so what
 * causes would be likely if it were is not told. */
bool sheet_is_of_fault(const shown_sheet *sheet);
bool sheet_is_cured(const shown_sheet *sheet);
bool sheet_has_steps(const sheet_next_fix *fix); /* more than can be said in a line */

void sheet_section(const filling *f, text_id heading);
/* Under a heading of its own, where there is a row. */
void sheet_table(const filling *f, text_id heading, text_id caption, text_table *table);
/* "And 3 more": where not all are shown. */
void sheet_more(const filling *f, size_t all, size_t shown);
/* Whether the row that follows so many is worth telling; the first `least` are. */
bool sheet_is_worth_row(size_t rows, size_t least, double chance);
piece_of_text sheet_chance(const filling *f, double chance);
piece_of_text sheet_cause(const shown_cause *cause);

/* ---- sheet_tables.c: of the first page ---- */
void put_likely(const filling *f); /* the smallest set of causes that holds 90 % */
void put_parts(const filling *f);
void put_tried(const filling *f); /* with the readings before and after */

/* ---- sheet_appendix.c ---- */
void put_appendix(const filling *f);

#endif
