/* Which depot is meant. */
#include "cases/case_depot.h"

#include <string.h>

#include "database/db_session.h"

const case_depot *depot_of(const char *root_or_place)
{
    return db_is_address(root_or_place) ? &database_depot : &folder_depot;
}

const char *refuge_of(arena *keep, const char *root)
{
    const case_depot *depot = depot_of(root);
    return depot->refuge != NULL ? depot->refuge(keep, root) : NULL;
}

size_t case_walk(const char *root, case_found *found, void *context)
{
    return depot_of(root)->walk(root, found, context);
}

exit_status case_list_read(const char *root, bool may_be_missing, const case_query *query,
                           case_list *out)
{
    bool there;
    *out = (case_list){.count = 0};
    const exit_status status = depot_of(root)->look(root, may_be_missing, &there);
    return status == EXIT_DONE && there ? depot_of(root)->list(root, query, out) : status;
}

str lines_of_writer(const writers_lines *all, const char *writer)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (strcmp(all->items[i].writer, writer) == 0) return all->items[i].bytes;
    return (str){"", 0};
}
