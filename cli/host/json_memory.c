#include "host/json_memory.h"

#include <jansson.h>
#include <stdlib.h>

#include "host/plain_text.h"

void json_memory_ends_program(void)
{
    json_set_alloc_funcs(take_memory, free);
}
