/* Memory ends at every place in turn while files are loaded, once and from then on: no crash, no
 * leak, and the way out is the guard. First the arenas' memory, then also what the YAML parser
 * takes for itself. */
#include "testing.h"

#include <stdlib.h>

#include "ending_memory.h"
#include "load/nodes.h"
#include "memory_sweep.h"
#include "test_sources.h"

#define FAULTY TT_SOURCE_DIR "/tests/unit/load/faults"

/* ---- one attempt ---- */

typedef struct loading {
    const sources *all;
    str wanted; /* what is said of them */
} loading;

static bool loads_alike(void *of, arena *keep, arena *scratch)
{
    const loading *l = of;
    faults *list = faults_new(keep);
    load_sources(keep, scratch, l->all, list);
    return str_eq(faults_text(list, keep, l->all, 0), l->wanted);
}

static str said_of(arena *keep, const sources *all)
{
    arena *scratch = test_arena();
    faults *list = faults_new(keep);
    load_sources(keep, scratch, all, list);
    arena_free(scratch);
    return faults_text(list, keep, all, 0);
}

static sources good_and_bad_files(arena *a)
{
    file_names names = files_ending(a, FAULTY, ".yaml");
    assert_true(names.count > 50);
    source *items = ARENA_ARRAY(a, source, (uint32_t)names.count);
    for (size_t i = 0; i < names.count; i++)
        items[i] =
            (source){names.items[i],
                     file_bytes(a, str_printf(a, FAULTY "/%.*s", STR_ARG(names.items[i])).p)};
    return (sources){items, (uint32_t)names.count};
}

static sources ordinary_file(arena *a)
{
    text_builder b = {.keep = a};
    text_add(&b, STR("causes:\n"));
    for (int i = 0; i < 120; i++)
        text_addf(&b,
                  "  cause-%d:\n    text: >\n      The b\xC3\xBCrste is worn\n    shown-by: {a: "
                  "often, b: [c, 'd']}\n    heard: [\"x %d\"]\n",
                  i, i);
    return source_from_text(a, "rules.yaml", text_done(&b));
}

/* ---- the arenas' memory ---- */

static void arenas_run_out(void **state)
{
    (void)state;
    arena *a = test_arena();
    sources faulty = good_and_bad_files(a), ordinary = ordinary_file(a);
    memory_sweeps(loads_alike, &(loading){&faulty, said_of(a, &faulty)});
    memory_sweeps(loads_alike, &(loading){&ordinary, said_of(a, &ordinary)});
    arena_free(a);
}

/* ---- all memory, the parser's too ---- */

#if OWN_MALLOC
/* The system's sort does without memory if there is none, so to have loaded is right too, if the
 * same is said. */
static void sweep_system(arena *a, const sources *all, bool from_then_on)
{
    loading l = {all, said_of(a, all)};
    size_t n = 0, left = 0;
    do {
        memset(&memory, 0, sizeof memory);
        memory.fail_at = ++n;
        memory.from_then_on = from_then_on;
        memory.on = memory.counts = true;
        const arena_end last = arena_work_once(NULL, loads_alike, &l);
        memory.on = memory.counts = false;
        assert_int_equal(memory.live, 0);
        if (last == ARENA_WORK_OTHERWISE)
            fail_msg("taking %zu of all: loaded, but not the same", n);
        left += last == ARENA_WORK_LEFT;
    } while (memory.failures > 0);
    assert_true(n > 100 && left * 100 >= n * 99);
}

static void everything_runs_out(void **state)
{
    (void)state;
    arena *a = test_arena();
    sources faulty = good_and_bad_files(a), ordinary = ordinary_file(a);
    for (int from_then_on = 0; from_then_on < 2; from_then_on++) {
        sweep_system(a, &ordinary, from_then_on == 1);
        sweep_system(a, &faulty, from_then_on == 1);
    }
    arena_free(a);
}
#endif

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arenas_run_out),
#if OWN_MALLOC
        cmocka_unit_test(everything_runs_out),
#endif
    };
    return cmocka_run_group_tests_name("allocation while loading", tests, NULL, NULL);
}
