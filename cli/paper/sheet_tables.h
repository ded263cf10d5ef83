/* The tables and lists of a sheet; each is left out where there is nothing to tell. And what is
 * needed to fill a paper from a sheet. */
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
} filling;

bool sheet_counts(const sheet_step *step); /* neither taken back nor left out */
bool sheet_is_cured(const shown_sheet *sheet);

void put_causes(const filling *f); /* with a picture */
void put_parts(const filling *f);
void put_tried(const filling *f);
void put_changes(const filling *f);
void put_fixes(const filling *f);
void put_steps(const filling *f);
void put_what_follows(const filling *f);
void put_site_facts(const filling *f);

#endif
