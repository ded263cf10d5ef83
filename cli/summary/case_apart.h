/* Several cases that one number stands for, told apart as people do: by site, trouble and day. */
#ifndef TT_CLI_CASE_APART_H
#define TT_CLI_CASE_APART_H

#include "base/arena.h"
#include "summary/case_list.h"

/* Those that it stands for, whatever became of them. */
case_query case_query_of_number(const char *number);
/* "483201483K  north house: the pump starts and stops, 2026-11-25 09:12" */
const char *case_apart(arena *keep, const case_summary *s);

#endif
