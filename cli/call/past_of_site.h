/* What the cases of a site say of it. */
#ifndef TT_CLI_PAST_OF_SITE_H
#define TT_CLI_PAST_OF_SITE_H

#include <stddef.h>

#include "host/exits.h"
#include "telltale.h"

typedef struct site_sought {
    const char *path;     /* of its file, absolute; or null */
    const char *title;    /* or "" */
    const char *book;     /* the title of the book */
    int64_t since, until; /* when they began: milliseconds since 1970; both are in */
} site_sought;

/* Freed by the caller with tt_past_free, whatever came of it. `failed`: how many folders or cases
 * could not be read, each of which was said; what could be is in it. Fails where there is no list
 * of cases. */
exit_status past_of_site(const char *root, const site_sought *s, tt_past **out, size_t *failed);

#endif
