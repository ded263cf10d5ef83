/* A folder of cases that several logins share: its group has it, and hands it down. */
#ifndef TT_CLI_SET_UP_H
#define TT_CLI_SET_UP_H

#include "base/arena.h"
#include "host/exits.h"

typedef struct set_up {
    size_t folders, files; /* that are the group's now, those that were before too */
    const char *closed;    /* a folder on the way that the group can't go through; or null */
} set_up;

/* Makes the folder `root`, or takes the one that is there with all that is in it. `group`: its name
 * or its number. Says what went wrong. */
exit_status cases_set_up(arena *keep, const char *root, const char *group, set_up *out);

#endif
