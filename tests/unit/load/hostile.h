/* Long inputs, and the codes of what is found in them: for the tests of this folder. */
#ifndef TT_TESTS_LOAD_HOSTILE_H
#define TT_TESTS_LOAD_HOSTILE_H

#include "load/nodes.h"
#include "test_sources.h"
#include "testing.h"

static inline str times(arena *a, const char *before, const char *piece, size_t count,
                        const char *after)
{
    size_t n = strlen(piece), length = strlen(before) + n * count + strlen(after);
    char *bytes = arena_try(a, length + 1), *end = bytes;
    assert_non_null(bytes);
    end = stpcpy(end, before);
    for (size_t i = 0; i < count; i++) end = stpcpy(end, piece);
    stpcpy(end, after);
    return (str){bytes, length};
}

/* The codes found, in order of place, such as "T104 T107"; at most three. */
static inline const char *codes_of_all(arena *keep, const sources *all)
{
    arena *scratch = test_arena();
    faults *list = faults_new(keep);
    load_sources(keep, scratch, all, list);
    uint32_t count;
    const fault *sorted = faults_sorted(list, keep, &count);
    text_builder b = {.keep = keep};
    for (uint32_t i = 0; i < count && i < 3; i++)
        text_addf(&b, "%s%s", i == 0 ? "" : " ", fault_id(sorted[i].code));
    arena_free(scratch);
    return b.bytes == NULL ? "" : b.bytes;
}

static inline const char *codes_of(arena *keep, str bytes)
{
    sources all = source_from_text(keep, "rules.yaml", bytes);
    return codes_of_all(keep, &all);
}

#endif
