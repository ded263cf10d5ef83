/* Bytes of files with a count of those who hold them. */
#include "session/held_files.h"

#include <assert.h>
#include <stdatomic.h>
#include <stdlib.h>

struct held_files {
    arena *keep;
    atomic_uint holders;
};

held_files *held_files_new(void)
{
    held_files *h = malloc(sizeof *h);
    arena *keep = arena_new(NULL, NULL);
    if (h == NULL || keep == NULL) {
        arena_free(keep);
        free(h);
        return NULL;
    }
    h->keep = keep;
    atomic_init(&h->holders, 1);
    return h;
}

arena *held_files_arena(held_files *h)
{
    return h->keep;
}

held_files *held_files_hold(held_files *h)
{
    const unsigned before = atomic_fetch_add(&h->holders, 1);
    assert(before > 0);
    (void)before;
    return h;
}

void held_files_let_go(held_files *h)
{
    if (h == NULL || atomic_fetch_sub(&h->holders, 1) > 1) return;
    arena_free(h->keep);
    free(h);
}
