/* What the first record of a case, or of somebody who comes to it, says of it: which book and site,
 * who, where, and how it is talked about. */
#ifndef TT_CLI_CASE_ABOUT_H
#define TT_CLI_CASE_ABOUT_H

#include "base/value.h"

typedef struct case_about {
    const tt_book *book;
    const char *number;   /* of the case; null: it is not kept */
    const char *folder;   /* of the book, as it is found again */
    const char *revision; /* of its sources */
    const char *site_path, *site_revision,
        *site_text;             /* site_text null: none that was said or is in a file */
    const char *person, *place; /* as they call themselves */
    bool practice, telephone;
} case_about;
/* All in `keep`; texts of people are cleaned. */
const tt_value *case_about_value(arena *keep, const case_about *about);

#endif
