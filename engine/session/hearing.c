/* What words are heard with takes longer to make than a small book to read, and most commands hear
 * none: so it is made when somebody is about to speak. A book that was told so has it, for all its
 * cases; for another whoever hears makes it for themselves. */
#include <assert.h>

#include "session/session.h"

typedef struct preparing {
    tt_book *book;
    arena *scratch;
} preparing;

static tt_status prepare(void *context)
{
    const preparing *p = context;
    assert(p->book->ear == NULL);
    p->book->ear = listener_new(p->book->keep, p->scratch, p->book->book);
    return TT_OK;
}

tt_status tt_book_hear(tt_book *book)
{
    assert(book != NULL && book->book != NULL);
    if (book->ear != NULL) return TT_OK;
    arena *scratch = arena_new(NULL, NULL);
    tt_status status = TT_NO_MEMORY;
    if (scratch != NULL)
        status = guarded((arena *[]){book->keep, scratch}, 2, prepare, &(preparing){book, scratch});
    arena_free(scratch);
    return status;
}

const listener *book_ear(const tt_book *b, arena *keep, arena *scratch)
{
    assert(keep != scratch);
    return b->ear != NULL ? b->ear : listener_new(keep, scratch, b->book);
}

const listener *case_ear(tt_case *c)
{
    assert(c->book != NULL);
    if (c->ear == NULL) c->ear = book_ear(c->book, c->keep, c->scratch);
    return c->ear;
}
