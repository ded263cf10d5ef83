#include "memory_sweep.h"

#include "failing_memory.h"
#include "testing.h"

arena_end arena_work_once(const memory_source *memory, arena_work work, void *of)
{
    guard way_out;
    arena *volatile keep = NULL, *volatile scratch = NULL;
    if (setjmp(way_out.place)) {
        arena_free(keep);
        arena_free(scratch);
        return ARENA_WORK_LEFT;
    }
    keep = arena_new(memory, &way_out);
    scratch = keep == NULL ? NULL : arena_new(memory, &way_out);
    if (scratch == NULL) {
        arena_free(keep);
        return ARENA_WORK_LEFT;
    }
    const bool right = work(of, keep, scratch);
    arena_free(keep);
    arena_free(scratch);
    return right ? ARENA_WORK_DONE : ARENA_WORK_OTHERWISE;
}

size_t memory_sweep(arena_work work, void *of, bool from_then_on)
{
    arena_end last = ARENA_WORK_LEFT;
    size_t n = 0;
    while (last == ARENA_WORK_LEFT) {
        failing_memory m = {.fail_at = ++n, .from_then_on = from_then_on};
        const memory_source memory = failing_memory_source(&m);
        last = arena_work_once(&memory, work, of);
        assert_int_equal(m.live, 0);
        if ((last == ARENA_WORK_LEFT) != (m.failures > 0))
            fail_msg("taking %zu: %s", n, m.failures > 0 ? "failed, and it was not left" : "left");
        n += n / 100;
    }
    assert_int_equal(last, ARENA_WORK_DONE);
    return n;
}

void memory_sweeps(arena_work work, void *of)
{
    for (int from_then_on = 0; from_then_on < 2; from_then_on++)
        assert_true(memory_sweep(work, of, from_then_on == 1) > 2);
}
