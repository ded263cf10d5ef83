/* Memory ends at every place in turn while the cases of a site are read: what could not be added
 * leaves nothing behind, and is added whole the next time. */
#include "testing.h"

#include "ending_memory.h"
#include "journal_kit.h"
#include "test_sources.h"

#if OWN_MALLOC
enum { CASES = 30, READINGS = 9 };

static journal_kit case_with_readings(arena *keep)
{
    journal_kit k = journal_kit_new(keep);
    kit_add(&k, "east", "begin", "{\"title\":\"House well\"}");
    for (int i = 0; i < READINGS; i++) {
        kit_add(&k, "east", "answer",
                str_printf(keep,
                           "{\"question\":\"q%d\",\"reply\":{\"kind\":\"number\",\"number\":%d,"
                           "\"unit\":\"psi\"}}",
                           i, i)
                    .p);
        kit_add(&k, "east", "tried", "{\"fix\":\"recharge\",\"outcome\":\"no-change\"}");
    }
    return k;
}

static void assert_holds_cases(const tt_past *p, uint32_t wanted)
{
    uint32_t cases, readings;
    tt_past_cases(p, &cases);
    const tt_past_reading *r = tt_past_readings(p, &readings);
    assert_int_equal(cases, wanted);
    assert_int_equal(readings, wanted * READINGS);
    for (uint32_t i = 0; i < readings; i++) assert_true(r[i].of < cases);
}

/* How often adding a case ran out of memory. */
static uint32_t add_cases(const journal_kit *k)
{
    tt_past *p;
    uint32_t failed = 0;
    while (tt_past_new(&p) == TT_NO_MEMORY) {
        assert_null(p);
        failed++;
        memory.on = false;
    }
    for (uint32_t n = 0; n < CASES; n++) {
        while (tt_past_add(p, "000001A", k->records, k->count) == TT_NO_MEMORY) {
            assert_holds_cases(p, n);
            failed++;
            memory.on = false;
        }
        assert_holds_cases(p, n + 1);
    }
    tt_past_free(p);
    return failed;
}

static void fail_everywhere(bool from_then_on)
{
    arena *keep = test_arena();
    const journal_kit k = case_with_readings(keep);
    size_t failures = 0;
    bool ended = true;
    for (size_t at = 1; ended; at++) {
        memory.on = memory.counts = true;
        memory.from_then_on = from_then_on;
        memory.fail_at = at;
        memory.takings = memory.failures = 0;
        memory.live = 0;
        const uint32_t failed = add_cases(&k);
        memory.on = memory.counts = false;
        assert_int_equal(memory.live, 0);
        ended = memory.failures > 0;
        failures += failed > 0;
    }
    assert_true(failures > 2);
    arena_free(keep);
}
#else
static void fail_everywhere(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_everywhere);
}
