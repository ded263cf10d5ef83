/* A reading over time as a small line of boxes, and a line of marks beneath it. All lines of a site
 * have one width and one span of time, so that what stands beneath each other was at one time. */
#ifndef TT_CLI_HISTORY_STRIP_H
#define TT_CLI_HISTORY_STRIP_H

#include "base/arena.h"
#include "telltale.h"

typedef struct strip_span {
    double from, to; /* days since 1970 */
    unsigned cells;
} strip_span;
/* Over all points of a site; no cells: there are none. */
strip_span strip_span_of(const tt_site_story *story, unsigned cells);

typedef struct series_ends {
    const tt_point *low, *high;
} series_ends;
series_ends ends_of(const tt_series *s); /* of one with points */

typedef struct strip {
    const char *line, *marks; /* marks: "" if there are none */
} strip;
/* False: fewer than two points make no line. */
bool strip_of(arena *keep, const strip_span *span, const tt_series *s, strip *out);

#endif
