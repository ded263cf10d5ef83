/* Cases carried from one place where they are kept to another. */
#ifndef TT_CLI_COPY_CASES_H
#define TT_CLI_COPY_CASES_H

#include "host/exits.h"

/* Says what came of it. What waits for a database that was away is gone from where it waited
 * afterwards. */
exit_status copy_cases(const char *from, const char *to);

#endif
