/* Why a file was not read to its end, where that is no mistake in its YAML. */
#include <assert.h>

#include "load/checks.h"

static void report_depth(uint32_t file, const events *seen, faults *list)
{
    span at = {file, seen->at, seen->at + 1};
    fault *f = fault_add(list, FAULT_TOO_DEEP, at,
                         "Lists and maps stand more than %u deep in each other here",
                         (unsigned)LOAD_DEPTH_MAX);
    fault_help(list, f, "no rule needs that depth: look for '[' or '{' that are not closed");
}

static void report_nodes(uint32_t file, const events *seen, faults *list)
{
    span at = {file, seen->at, seen->at};
    fault *f = fault_add(list, FAULT_TOO_MANY_NODES, at,
                         "All files together have more than %u keys, values and items",
                         (unsigned)LOAD_NODES_MAX);
    fault_help(list, f, "reading stops here; make a book of its own from a part of the files");
}

static void report_second_document(uint32_t file, const events *seen, faults *list)
{
    span at = {file, seen->at, seen->at + 3};
    fault *f = fault_add(list, FAULT_SECOND_DOCUMENT, at,
                         "A second document begins here; a file is one document");
    fault_help(list, f, "delete this line, or put what follows into a file of its own");
}

void report_stop(const source *s, uint32_t file, const events *seen, faults *list)
{
    assert(seen->stop != STOP_AT_END && seen->stop != STOP_NO_MEMORY);
    if (seen->stop == STOP_DEPTH)
        report_depth(file, seen, list);
    else if (seen->stop == STOP_NODES)
        report_nodes(file, seen, list);
    else if (seen->stop == STOP_SECOND_DOCUMENT)
        report_second_document(file, seen, list);
    else
        report_syntax(s, file, seen, list);
}
