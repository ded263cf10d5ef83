#include "failing_memory.h"

#include <assert.h>
#include <stdlib.h>

static void *take(void *context, size_t size)
{
    failing_memory *m = context;
    m->takings++;
    bool fails = m->fail_at != 0 &&
                 (m->takings == m->fail_at || (m->from_then_on && m->takings > m->fail_at));
    void *block = fails ? NULL : malloc(size);
    if (block == NULL)
        m->failures++;
    else
        m->live++;
    return block;
}

static void give_back(void *context, void *block)
{
    failing_memory *m = context;
    assert(m->live > 0);
    m->live--;
    free(block);
}

memory_source failing_memory_source(failing_memory *m)
{
    return (memory_source){.take = take, .give_back = give_back, .context = m};
}
