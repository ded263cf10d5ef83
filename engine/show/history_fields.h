/* A site over time, for programs: version 1 of `history --json`. */
#ifndef TT_SHOW_HISTORY_FIELDS_H
#define TT_SHOW_HISTORY_FIELDS_H

#include "show/fields.h"
#include "telltale.h"

tt_value history_value(arena *keep, const tt_site_story *story);
tt_value history_schema(arena *keep);

#endif
