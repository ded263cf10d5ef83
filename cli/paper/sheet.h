/* A case on paper: a sheet, written as a page or as Markdown. All texts in it are clean. */
#ifndef TT_CLI_SHEET_H
#define TT_CLI_SHEET_H

#include <stdio.h>

#include "paper/paper.h"
#include "show/sheet_fields.h"

/* What is made for it lives in `keep`. */
void sheet_on_paper(FILE *out, const paper_kind *kind, arena *keep, const shown_sheet *sheet);

#endif
