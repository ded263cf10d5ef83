/* Every case under a root: <root>/YYYY/MM/<uuid>, in the order of their names, which is the order
 * in which they began. A link is not followed: it could lead anywhere, and round in circles. */
#ifndef TT_CLI_CASE_WALK_H
#define TT_CLI_CASE_WALK_H

#include <stddef.h>

/* `month`: the path of the folder that the case's folder lies in. */
typedef void case_found(void *context, const char *month, const char *uuid);
/* How many folders could not be read: the first was said, and each link. A root that is not there
 * has no cases. */
size_t case_walk(const char *root, case_found *found, void *context);

#endif
