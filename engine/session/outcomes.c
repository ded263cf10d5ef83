/* Outcomes of a fix by name, as records and programs have them. */
#include <assert.h>
#include <string.h>

#include "telltale.h"

static const char *const names[] = {
    [TT_GONE] = "gone",           [TT_BETTER] = "better", [TT_NO_CHANGE] = "no-change",
    [TT_COULD_NOT] = "could-not", [TT_WORSE] = "worse",
};
enum { OUTCOMES = sizeof names / sizeof names[0] };

const char *tt_outcome_name(tt_outcome outcome)
{
    assert((unsigned)outcome < OUTCOMES);
    return names[outcome];
}

bool tt_outcome_find(const char *name, tt_outcome *out)
{
    unsigned i = 0;
    while (i < OUTCOMES && strcmp(names[i], name) != 0) i++;
    *out = (tt_outcome)i;
    return i < OUTCOMES;
}
