/* Names of states, kinds of cases, and how often rounds are. */
#include <assert.h>
#include <string.h>

#include "telltale.h"

const char *tt_case_state_name(tt_case_state state)
{
    static const char *const names[TT_CASE_STATES] = {"open",      "on-hold",   "waiting",
                                                      "closed",    "called",    "stopped",
                                                      "made-safe", "elsewhere", "unreadable"};
    assert(state < TT_CASE_STATES);
    return names[state];
}

static const char *const kind_names[] = {
#define KIND_NAME(id, name) name,
    TT_CASE_KIND_TABLE(KIND_NAME)
#undef KIND_NAME
};

const char *tt_case_kind_name(tt_case_kind kind)
{
    assert(kind < TT_CASE_KINDS);
    return kind_names[kind];
}

static bool find_name(const char *const *names, unsigned count, const char *name, unsigned *out)
{
    for (unsigned i = 0; name != NULL && i < count; i++) {
        if (strcmp(names[i], name) != 0) continue;
        *out = i;
        return true;
    }
    return false;
}

bool tt_case_kind_find(const char *name, tt_case_kind *out)
{
    unsigned found;
    const bool is = find_name(kind_names, TT_CASE_KINDS, name, &found);
    if (is) *out = (tt_case_kind)found;
    return is;
}

static const char *const every_names[TT_EVERIES] = {"daily", "weekly", "monthly"};

const char *tt_every_name(tt_every every)
{
    assert(every < TT_EVERIES);
    return every_names[every];
}

bool tt_every_find(const char *name, tt_every *out)
{
    unsigned found;
    const bool is = find_name(every_names, TT_EVERIES, name, &found);
    if (is) *out = (tt_every)found;
    return is;
}
