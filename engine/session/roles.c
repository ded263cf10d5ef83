/* Roles, as a book says who may do what. */
#include <assert.h>

#include "session/session.h"

const char *tt_role_name(const tt_book *b, uint32_t role)
{
    assert(role < b->book->role_count);
    return b->book->roles[role].name.p;
}

const char *tt_role_text(const tt_book *b, const char *name, const char *language)
{
    const book *r = b->book;
    const uint32_t role = book_role(r, str_of(name));
    if (role == NO_ID || r->role_text[role].count == 0) return name;
    return texts_for(&r->role_text[role], language == NULL ? r->language : str_of(language)).p;
}

uint32_t tt_role_find(const tt_book *b, const char *name)
{
    return book_role(b->book, str_of(name));
}
