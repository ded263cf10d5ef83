#include "summary/case_list.h"

#include <stdlib.h>

void case_list_free(case_list *list)
{
    for (size_t i = 0; i < list->count; i++) case_summary_free(&list->cases[i]);
    free(list->cases);
}
