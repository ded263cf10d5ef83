/* malloc of a test's own, that fails at one taking, or from there on. Sanitizers have their own:
 * then OWN_MALLOC is 0 and nothing of this is there. Include it in one file of a program. */
#ifndef TT_TESTS_FAULT_ENDING_MEMORY_H
#define TT_TESTS_FAULT_ENDING_MEMORY_H

#include <stdbool.h>
#include <stdlib.h>

#include "testing.h"

#if defined(__SANITIZE_ADDRESS__)
#define OWN_MALLOC 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OWN_MALLOC 0
#endif
#endif
#ifndef OWN_MALLOC
#ifdef __GLIBC__
#define OWN_MALLOC 1
#else
#define OWN_MALLOC 0
#endif
#endif

#if OWN_MALLOC
#define SEEN __attribute__((visibility("default")))

extern void *__libc_malloc(size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void __libc_free(void *block);

static struct {
    bool on, from_then_on, counts;
    size_t fail_at, takings, failures;
    long live; /* of what was taken while it counts */
} memory;

static bool fails(void)
{
    if (!memory.on) return false;
    const size_t n = ++memory.takings;
    const bool now = n == memory.fail_at || (memory.from_then_on && n > memory.fail_at);
    memory.failures += now;
    return now;
}

static void *counted(void *block)
{
    memory.live += memory.counts && block != NULL;
    return block;
}

SEEN void *malloc(size_t size)
{
    return fails() ? NULL : counted(__libc_malloc(size));
}

SEEN void *calloc(size_t count, size_t size)
{
    return fails() ? NULL : counted(__libc_calloc(count, size));
}

SEEN void *realloc(void *block, size_t size)
{
    if (fails()) return NULL;
    void *larger = __libc_realloc(block, size);
    return block == NULL ? counted(larger) : larger;
}

SEEN void free(void *block)
{
    memory.live -= memory.counts && block != NULL;
    __libc_free(block);
}
#endif

/* ---- a program of two tests: it ends once, and from there on ---- */

typedef void (*memory_ends)(bool from_then_on);

static inline void memory_ends_once(void **state)
{
    const memory_ends *fail_everywhere = *state;
    (*fail_everywhere)(false);
}

static inline void memory_ends_for_good(void **state)
{
    const memory_ends *fail_everywhere = *state;
    (*fail_everywhere)(true);
}

static inline int ending_memory_tests(memory_ends fail_everywhere)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_prestate(memory_ends_once, &fail_everywhere),
        cmocka_unit_test_prestate(memory_ends_for_good, &fail_everywhere)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#endif
