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

/* "2026-11-29 09:00", as its writer's clock stood; what is no moment as it was written. */
static const char *began_words(arena *keep, const char *written)
{
    tt_moment moment;
    if (!tt_moment_read(written, &moment)) return written;
    return arena_text(keep, "%.10s %.5s", written, written + 11);
}

const char *case_apart(arena *keep, const case_summary *s)
{
    const tt_case_summary *says = &s->says;
    const char *site = first_of(says->site, says->title, "no site"),
               *trouble = first_of(says->complaint, says->said, "trouble not said yet");
    return arena_text(keep, "%-14s %s: %s, %s", s->number, site, trouble,
                      began_words(keep, says->began));
}
