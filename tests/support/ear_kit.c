#include "ear_kit.h"

#include "session/session.h"
#include "small_book.h"
#include "test_sources.h"

ear_kit ear_of(tt_book *loaded)
{
    ear_kit e = {.keep = test_arena(), .loaded = loaded, .book = loaded->book};
    arena *scratch = test_arena();
    e.l = listener_new(e.keep, scratch, e.book);
    arena_free(scratch);
    return e;
}

ear_kit ear_new(const char *yaml)
{
    return ear_of(small_book(yaml));
}

void ear_free(ear_kit *e)
{
    tt_book_free(e->loaded);
    arena_free(e->keep);
}
