/* An answer as it is kept in a case: by names, so that it means the same in later editions of the
 * book. */
#ifndef TT_CLI_REPLY_JSON_H
#define TT_CLI_REPLY_JSON_H

#include <jansson.h>
#include <stdbool.h>

#include "telltale.h"

json_t *reply_to_json(const tt_question *question, const tt_reply *reply);
/* False if it is no answer to this question (any more). `weights` has room for the question's
 * options. */
bool reply_of_json(const tt_question *question, const json_t *json, double *weights,
                   tt_reply *reply);

#endif
