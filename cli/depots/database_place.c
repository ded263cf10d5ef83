/* Where a case lies in a database. */
#include <string.h>

#include "depots/database_parts.h"
#include "host/memory.h"

void place_parts(arena *keep, const char *place, const char **address, const char **id)
{
    const char *slash = strrchr(place, '/');
    const bool is_place = slash != NULL && tt_is_case_id(slash + 1);
    *id = is_place ? slash + 1 : NULL;
    *address = is_place ? arena_text(keep, "%.*s", (int)(slash - place), place) : place;
}
