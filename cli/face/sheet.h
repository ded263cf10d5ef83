/* A case on paper: what is gathered in a sheet (docs/sheet.schema.json says what that holds), written as a page or as
 * Markdown. All texts in it are clean. */
#ifndef TT_CLI_SHEET_H
#define TT_CLI_SHEET_H

#include <jansson.h>
#include <stdio.h>

#include "face/paper.h"

void sheet_on_paper(FILE *out, const paper_kind *kind, const json_t *sheet);

/* ---- what its parts share ---- */

const char *sheet_text(const json_t *object, const char *key); /* "" if there is none */

#endif
