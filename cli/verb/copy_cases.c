#include "verb/copy_cases.h"

#include <string.h>

#include "cases/case_copy.h"
#include "cases/case_depot.h"
#include "depots/refuge.h"
#include "face/speaker.h"
#include "host/memory.h"

static bool is_refuge_of(arena *keep, const char *from, const char *to)
{
    const char *refuge = refuge_of(keep, to);
    return refuge != NULL && strcmp(refuge, from) == 0;
}

exit_status copy_cases(const char *from, const char *to)
{
    size_t carried;
    case_copied copied;
    const screen s = screen_on(stdout);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    exit_status status;
    if (is_refuge_of(by.keep, from, to)) {
        status = refuge_empty(to, &carried);
        SPEAK(&by, "", LINE_CARRIED, whole(&by, carried));
    } else {
        status = cases_copy(from, to, &copied);
        SPEAK(&by, "", LINE_COPIED, whole(&by, copied.made), whole(&by, copied.added_to),
              whole(&by, copied.same));
    }
    arena_free(by.keep);
    return status;
}
