/* The parts of where a case stands, as every output for programs names them. */
#ifndef TT_CLI_STANDING_JSON_H
#define TT_CLI_STANDING_JSON_H

#include <jansson.h>

#include "telltale.h"

json_t *fact_json(const tt_fact *fact);
json_t *cause_json(const tt_cause *cause);
json_t *fix_json(const tt_fix *fix);
json_t *caution_json(const tt_caution *caution);
/* Names of the pieces that the case is about. */
json_t *focus_json(const tt_book *book, const tt_view *view);

#endif
