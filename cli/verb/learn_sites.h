/* The troubles that cases tell of, by site: what was cured there, and what came after. */
#ifndef TT_CLI_LEARN_SITES_H
#define TT_CLI_LEARN_SITES_H

#include "call/seen_case.h"
#include "telltale.h"

typedef struct site_trouble {
    char *site, *folder; /* what the site is called; where the case is */
    char *cause, *fix;   /* each may be "" */
    double began, ended; /* days since 1970; ended: NAN while nobody has cured it */
    bool came_back;
} site_trouble;

/* By site, then in the order in which they began, once they are sorted. */
typedef struct site_troubles {
    site_trouble *items;
    size_t count;
} site_troubles;

/* What a case tells. Nothing if it is about no site, or if it was something that the book doesn't
 * list. */
void site_troubles_add(site_troubles *all, seen_case *c, const tt_confirmation *cause,
                       const char *folder);
void site_troubles_sort(site_troubles *all);
/* behind the last of the same site */
size_t site_troubles_end(const site_troubles *all, size_t from);
void site_troubles_free(site_troubles *all);

/* Hands those from `from` to `to` to what is learned; the book is that of the site. */
tt_status site_troubles_tell(const site_troubles *all, size_t from, size_t to, tt_learning *l,
                             const tt_book *at, int64_t since);

#endif
