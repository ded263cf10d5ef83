/* Roles, as a book says who may do what. */
#include <assert.h>

#include "session/session.h"

const char *tt_role_name(const tt_book *b, uint32_t role)
{
    assert(role < b->book->role_count);
    return b->book->roles[role].name.p;
}

static char small_letter(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_but_for_capitals(str a, str b)
{
    size_t i = 0;
    while (i < a.n && i < b.n && small_letter(a.p[i]) == small_letter(b.p[i])) i++;
    return a.n == b.n && i == a.n;
}

/* By its name, or as somebody calls it in whatever language of the book; NO_ID: none is meant. */
static uint32_t role_meant(const book *b, str words)
{
    uint32_t meant = book_role(b, words);
    for (uint32_t i = 0; i < b->role_count && meant == NO_ID; i++)
        for (uint32_t k = 0; k < b->role_text[i].count; k++)
            if (same_but_for_capitals(b->role_text[i].items[k].text, words)) meant = i;
    return meant;
}

const char *tt_role_text(const tt_book *b, const char *name, const char *language)
{
    const book *r = b->book;
    const uint32_t role = role_meant(r, str_trim(str_of(name)));
    if (role == NO_ID || r->role_text[role].count == 0) return name;
    return texts_for(&r->role_text[role], language == NULL ? r->language : str_of(language)).p;
}

uint32_t tt_role_find(const tt_book *b, const char *name)
{
    return book_role(b->book, str_of(name));
}
