/* Memory in blocks that grow, given back all at once or down to a mark. */
#ifdef __linux__
#define _DEFAULT_SOURCE /* large pages */
#endif
#include "base/arena.h"

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#ifdef __linux__
#include <sys/mman.h>
#endif

/* Blocks form a list, newest first; `size` counts the bytes behind the header. */
typedef struct block {
    struct block *older;
    size_t size, used;
    size_t padding; /* keeps what follows aligned */
} block;

/* A page that is touched for the first time costs the system more than all that is written into
 * it. So what an arena takes beyond LARGE_FROM, as a book does and a case hardly ever, is asked for
 * in large pages, each of which is 512 of the usual ones; and SPARE_MOST is kept when an arena goes
 * back. */
enum {
    FIRST_BLOCK = 4096,
    GROWS_TO = 1 << 20,
    LARGE_FROM = 2 << 20,
    LARGE_PAGE = 2 << 20,
    LARGEST_BLOCK = LARGE_PAGE - sizeof(block),
    ALIGNMENT = 16,
    SPARE_MOST = 8 << 20
};

struct arena {
    memory_source source;
    guard *on_exhausted;
    block *newest;
    block
        *spare; /* blocks that are not used: what was dropped last, and so grown first, in front */
    size_t spare_size;
    size_t total;
};

static void *system_take(void *context, size_t size)
{
    (void)context;
#ifdef MADV_HUGEPAGE
    if (size % LARGE_PAGE == 0) {
        void *pages = aligned_alloc(LARGE_PAGE, size);
        /* where the system has none to give it is memory all the same */
        if (pages != NULL) (void)madvise(pages, size, MADV_HUGEPAGE);
        return pages;
    }
#endif
    return malloc(size);
}

static void system_give_back(void *context, void *taken)
{
    (void)context;
    free(taken);
}

const memory_source memory_from_system = {.take = system_take, .give_back = system_give_back};

arena *arena_new(const memory_source *source, guard *on_exhausted)
{
    if (source == NULL) source = &memory_from_system;
    arena *a = source->take(source->context, sizeof *a);
    if (a == NULL) return NULL;
    *a = (arena){.source = *source, .on_exhausted = on_exhausted};
    return a;
}

static void drop_newest(arena *a)
{
    block *gone = a->newest;
    assert(gone != NULL);
    a->newest = gone->older;
    assert(a->total >= gone->used);
    a->total -= gone->used;
#ifndef TT_ARENA_EACH
    if (gone->size <= LARGEST_BLOCK && a->spare_size + gone->size <= SPARE_MOST) {
        gone->older = a->spare;
        a->spare = gone;
        a->spare_size += gone->size;
        return;
    }
#endif
    a->source.give_back(a->source.context, gone);
}

/* The first that is large enough, or null. */
static block *take_spare(arena *a, size_t size)
{
    block **at = &a->spare;
    while (*at != NULL && (*at)->size < size) at = &(*at)->older;
    block *b = *at;
    if (b == NULL) return NULL;
    *at = b->older;
    a->spare_size -= b->size;
    return b;
}

void arena_free(arena *a)
{
    if (a == NULL) return;
    while (a->newest != NULL) drop_newest(a);
    for (block *b; (b = take_spare(a, 0)) != NULL;) a->source.give_back(a->source.context, b);
    a->source.give_back(a->source.context, a);
}

guard *arena_guard(arena *a, guard *on_exhausted)
{
    assert(a != NULL);
    guard *before = a->on_exhausted;
    a->on_exhausted = on_exhausted;
    return before;
}

static size_t block_size_for(const arena *a, size_t size)
{
#ifdef TT_ARENA_EACH
    (void)a;
    return size;
#else
    size_t grown = a->newest == NULL ? FIRST_BLOCK : a->newest->size * 2;
    const bool large = a->total >= LARGE_FROM || size >= LARGEST_BLOCK;
    if (grown > GROWS_TO) grown = large ? LARGEST_BLOCK : GROWS_TO;
    if (size <= grown) return grown;
    if (!large || size <= GROWS_TO) return size;
    return (size + sizeof(block) + LARGE_PAGE - 1) / LARGE_PAGE * LARGE_PAGE - sizeof(block);
#endif
}

static block *new_block(arena *a, size_t size)
{
    size_t wanted = block_size_for(a, size);
    assert(wanted >= size);
    if (wanted > SIZE_MAX - sizeof(block)) return NULL;
    block *b = take_spare(a, size);
    if (b != NULL)
        wanted = b->size;
    else
        b = a->source.take(a->source.context, sizeof(block) + wanted);
    if (b == NULL) return NULL;
    *b = (block){.older = a->newest, .size = wanted};
    a->newest = b;
    return b;
}

static size_t rounded(size_t size)
{
#ifdef TT_ARENA_EACH
    return size;
#else
    return (size + ALIGNMENT - 1) & ~(size_t)(ALIGNMENT - 1);
#endif
}

void *arena_try_unset(arena *a, size_t size)
{
    assert(a != NULL);
    if (size > SIZE_MAX / 2) return NULL;
    size_t needed = rounded(size == 0 ? 1 : size);
    block *b = a->newest;
#ifdef TT_ARENA_EACH
    b = NULL;
#endif
    if (b == NULL || b->size - b->used < needed) b = new_block(a, needed);
    if (b == NULL) return NULL;
    void *taken = (char *)(b + 1) + b->used;
    b->used += needed;
    a->total += needed;
    assert(b->used <= b->size);
    return taken;
}

void *arena_try(arena *a, size_t size)
{
    void *taken = arena_try_unset(a, size);
    return taken == NULL ? NULL : memset(taken, 0, rounded(size == 0 ? 1 : size));
}

_Noreturn void arena_leave(arena *a)
{
    assert(a != NULL);
    if (a->on_exhausted == NULL && a->source.ended != NULL) a->source.ended();
    guard_leave(a->on_exhausted);
}

void *arena_take(arena *a, size_t size)
{
    void *taken = arena_try(a, size);
    if (taken == NULL) arena_leave(a);
    return taken;
}

void *arena_take_unset(arena *a, size_t size)
{
    void *taken = arena_try_unset(a, size);
    if (taken == NULL) arena_leave(a);
    return taken;
}

void *arena_take_array(arena *a, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / 2 / size) arena_leave(a);
    return arena_take(a, count * size);
}

arena_mark arena_here(const arena *a)
{
    assert(a != NULL);
    return (arena_mark){.block = a->newest, .used = a->newest == NULL ? 0 : a->newest->used};
}

void arena_back_to(arena *a, arena_mark mark)
{
    while (a->newest != mark.block) drop_newest(a);
    if (a->newest == NULL) return;
    assert(mark.used <= a->newest->used);
    a->total -= a->newest->used - mark.used;
    a->newest->used = mark.used;
}

size_t arena_size(const arena *a)
{
    assert(a != NULL);
    return a->total;
}
