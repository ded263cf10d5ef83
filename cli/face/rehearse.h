/* What a rehearsal showed, in words and for programs: docs/rehearse.schema.json. */
#ifndef TT_CLI_REHEARSE_H
#define TT_CLI_REHEARSE_H

#include <stdio.h>

#include "books/read_book.h"
#include "telltale.h"

void print_rehearsal_words(FILE *out, const opened_book *book, const tt_rehearsal_options *options,
                           const tt_rehearsed *r);
void print_rehearsal_json(FILE *out, const opened_book *book, const tt_rehearsal_options *options,
                          const tt_rehearsed *r);

#endif
