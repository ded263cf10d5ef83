/* Which book, and which site: what an output for programs rests on. */
#ifndef TT_SHOW_BOOK_FIELDS_H
#define TT_SHOW_BOOK_FIELDS_H

#include "show/fields.h"

#define DIGEST_PATTERN "^[0-9a-f]{64}$"

typedef struct shown_book {
    const char *name, *edition, *revision;
} shown_book;
typedef struct shown_site {
    const char *title, *revision;
} shown_site;

extern const shape book_shape, site_shape, contact_shape; /* the last: of tt_contact */

shown_book book_of(const tt_origin *origin);
/* null: nothing says what there is */
const shown_site *site_of(arena *keep, const tt_origin *origin);

#endif
