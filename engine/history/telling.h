/* Inside of a site's story: what its parts share. */
#ifndef TT_HISTORY_TELLING_H
#define TT_HISTORY_TELLING_H

#include <assert.h>

#include "base/arena.h"
#include "base/grow.h"
#include "base/moment.h"
#include "base/str.h"
#include "telltale.h"

typedef struct telling {
    arena *keep;
    const tt_book *book;
    const tt_past *past;
    tt_case *c;       /* of nobody: what questions say, and what the site's file does */
    tt_case *at_work; /* one that is reckoned with; freed wherever the work ends */
    tt_moment now;
    const char *language;            /* or null */
    const tt_past_reading *readings; /* by time */
    uint32_t reading_count;
    const tt_past_case *cases; /* as the past has them, which readings point into */
    uint32_t case_count;
    uint32_t *in_order; /* [case_count] cases by when they began */
    tt_site_story out;
    tt_series *series;
    uint32_t series_room;
} telling;

/* Memory that ends is left by the story's own guard, so that nothing is told without what there was
 * no room for. False: it fits the book no more. */
bool telling_is_ok(telling *t, tt_status status);
void telling_check(telling *t, tt_status status); /* of what can't be wrong */
const char *telling_copy(telling *t, const char *text);
/* Days since 1970; NAN: it is no moment. */
double telling_days(const char *time);
tt_series *telling_series(telling *t);

/* A list of points that is being made. */
typedef struct point_list {
    tt_point *items;
    uint32_t count, room;
} point_list;
void add_point(telling *t, point_list *l, tt_point p);

void tell_readings(telling *t); /* read_series.c */
void tell_reckoned(telling *t); /* reckoned_series.c */
void tell_returned(telling *t); /* returned.c */
void tell_rounds(telling *t);   /* gaps.c */

#endif
