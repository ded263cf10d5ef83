/* What the outputs for programs share. */
#ifndef TT_CLI_JSON_PARTS_H
#define TT_CLI_JSON_PARTS_H

#include <jansson.h>

#include "host/read_book.h"

enum { JSON_DIGITS = 10 }; /* significant digits of every number */

json_t *text_or_null(const char *text); /* null for nothing, and for the empty text */
json_t *clean_json(const char *text);   /* cleaned for a screen; null for null */
json_t *number_json(double number);     /* null if it is none */
json_t *book_json(const opened_book *book);
json_t *site_json(const opened_book *book); /* null if nothing says what there is */

#endif
