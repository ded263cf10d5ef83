/* A case as it stands, gathered once for people and programs: show/sheet_fields.h says what a sheet
 * holds. */
#ifndef TT_CLI_SHEET_CASE_H
#define TT_CLI_SHEET_CASE_H

#include "call/seen_case.h"
#include "say/catalogue.h"
#include "show/sheet_fields.h"

/* The whole sheet of a case that was played; it lives in `keep` and as long as the case stays as it
 * is. `language`: as asked for, or null. */
void sheet_of_case(arena *keep, seen_case *c, const char *language, shown_sheet *out);

/* ---- sheet_steps.c: what was said and done ---- */

/* Without what could steer a terminal; "" for null. */
const char *sheet_clean(arena *keep, const char *text);
void sheet_put_history(arena *keep, tongue in, const tt_history *history, shown_sheet *sheet);

#endif
