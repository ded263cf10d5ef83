#include "summary/case_apart.h"

#include "host/memory.h"

case_query case_query_of_number(const char *number)
{
    return (case_query){.states = (1u << TT_CASE_STATES) - 1,
                        .kinds = (1u << TT_CASE_KINDS) - 1,
                        .since = INT64_MIN,
                        .until = INT64_MAX,
                        .number = number};
}

static const char *first_of(const char *a, const char *b, const char *c)
{
    return *a != 0 ? a : *b != 0 ? b : c;
}

const char *case_apart(arena *keep, const case_summary *s)
{
    const tt_case_summary *says = &s->says;
    const char *site = first_of(says->site, says->title, "no site"),
               *trouble = first_of(says->complaint, says->said, "trouble not said yet");
    return arena_text(keep, "%-14s %s: %s, %.10s %.5s", s->number, site, trouble, says->began,
                      *says->began != 0 ? says->began + 11 : "");
}
