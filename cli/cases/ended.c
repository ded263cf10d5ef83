#include "cases/ended.h"

#include <assert.h>
#include <stddef.h>
#include <string.h>

static bool is_one_of(const char *how, const char *const *all)
{
    while (*all != NULL && strcmp(*all, how) != 0) all++;
    return *all != NULL;
}

bool is_closed(const char *how)
{
    assert(how != NULL);
    return is_one_of(how, (const char *const[]){"gone", "call", "stop", "made-safe", "in-order",
                                                "drifted", "fault", "recorded", "elsewhere", NULL});
}

exit_status status_of_end(const char *how)
{
    if (is_one_of(how, (const char *const[]){"gone", "made-safe", "in-order", "recorded", NULL}))
        return EXIT_DONE;
    return is_closed(how) ? EXIT_PROBLEMS : EXIT_UNFINISHED;
}
