#include "cases/case_overview.h"

#include <stdlib.h>

#include "cases/case_depot.h"
#include "host/memory.h"

case_list last_of_list(const case_list *list, size_t limit)
{
    case_list last = *list;
    if (last.count <= limit) return last;
    last.cases += last.count - limit;
    last.count = limit;
    return last;
}

static exit_status read_and_count(const char *root, const case_wish *wish, case_overview *out)
{
    const exit_status status = depot_of(root)->list(root, &wish->query, &out->list);
    if (status != EXIT_DONE) return status;
    case_list_sort(&out->list, wish->order);
    out->shown = last_of_list(&out->list, wish->limit);
    if (wish->counts) out->counts = cases_count(&out->list);
    if (wish->months) out->months = cases_by_month(&out->list);
    return EXIT_DONE;
}

exit_status case_overview_read(const char *root, bool may_be_missing, const case_wish *wish,
                               case_overview *out)
{
    bool there;
    const case_depot *depot = depot_of(root);
    *out = (case_overview){.keep = host_arena()};
    const exit_status status = depot->look(root, may_be_missing, &there);
    if (status == EXIT_DONE && !there) out->counts = cases_count(&out->list);
    if (status != EXIT_DONE || !there) return status;
    return depot->overview != NULL ? depot->overview(root, wish, out)
                                   : read_and_count(root, wish, out);
}

void case_overview_free(case_overview *o)
{
    free(o->months.items);
    cases_counts_free(&o->counts);
    case_list_free(&o->list);
    arena_free(o->keep);
}
