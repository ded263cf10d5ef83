#include "books/book_cache.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "host/memory.h"
#include "host/plain_text.h"

typedef struct cached {
    const char *folder;
    const char *site; /* its text; null: none was given */
    bool no_site;     /* whatever the book says */
    opened_book book;
} cached;

struct book_cache {
    arena *keep;
    cached *items;
    uint32_t count, room;
};

book_cache *book_cache_new(void)
{
    arena *keep = host_arena();
    book_cache *c = ARENA_NEW(keep, book_cache);
    *c = (book_cache){.keep = keep};
    return c;
}

void book_cache_free(book_cache *c)
{
    if (c == NULL) return;
    for (uint32_t i = 0; i < c->count; i++) book_close(&c->items[i].book);
    arena_free(c->keep);
}

static bool is_for(const cached *one, const char *folder, const tt_source *site)
{
    const bool no_site = site != NULL && site->bytes == NULL,
               text = site != NULL && site->bytes != NULL;
    if (strcmp(one->folder, folder) != 0 || one->no_site != no_site) return false;
    if (!text || one->site == NULL) return !text && one->site == NULL;
    return strlen(one->site) == site->length && memcmp(one->site, site->bytes, site->length) == 0;
}

/* What one call does to its own is nobody else's. */
static opened_book lent(const opened_book *of)
{
    opened_book book = *of;
    book.folder = copy_text(of->folder);
    book.site_text = of->site_text != NULL ? copy_text(of->site_text) : NULL;
    book.is_lent = true;
    return book;
}

exit_status book_cache_open(book_cache *c, const char *folder, const tt_source *site,
                            opened_book *out)
{
    uint32_t i = 0;
    assert(c != NULL && folder != NULL);
    while (i < c->count && !is_for(&c->items[i], folder, site)) i++;
    if (i == c->count) {
        opened_book book;
        const exit_status status = book_open(folder, site, &book);
        *out = (opened_book){.book = NULL};
        if (status != EXIT_DONE) return status;
        GROW(c->keep, c->items, c->count, c->room);
        c->items[c->count++] = (cached){.folder = arena_copy(c->keep, folder),
                                        .site = arena_copy(c->keep, book.site_text),
                                        .no_site = site != NULL && site->bytes == NULL,
                                        .book = book};
    }
    *out = lent(&c->items[i].book);
    return EXIT_DONE;
}
