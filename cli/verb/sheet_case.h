/* A case as it stands, gathered once for people and programs: docs/sheet.schema.json says what a sheet holds. */
#ifndef TT_CLI_SHEET_CASE_H
#define TT_CLI_SHEET_CASE_H

#include <jansson.h>

#include "verb/seen_case.h"

/* The whole sheet of a case that was played. `language`: as asked for, or null. Null after saying what failed. */
json_t *sheet_of_case(seen_case *c, const char *language);

/* ---- sheet_steps.c: what was said and done ---- */
json_t *sheet_steps_json(const tt_history *history);
json_t *sheet_cautions_json(const tt_history *history);

#endif
