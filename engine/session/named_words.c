/* What the book calls a thing of which only the name was kept: a case of another day may have been
 * told in another language. */
#include <assert.h>
#include <string.h>

#include "session/session.h"

/* One for all pieces of its kind: the text says none of them. */
static const char *complaint_named(const tt_case *c, str name)
{
    const book *b = c->book->book;
    for (uint32_t s = 0; s < b->symptom_count; s++)
        if (str_eq(b->symptoms[s].of.base, name) && is_complaint(b, s))
            return complaint_text(b, s, c->language);
    return NULL;
}

const char *tt_named_text(const tt_case *c, tt_named what, const char *name)
{
    const book *b = c->book->book;
    const char *text = NULL;
    assert(name != NULL);
    if (what == TT_NAMED_COMPLAINT) text = complaint_named(c, str_of(name));
    if (what == TT_NAMED_CAUSE) {
        const uint32_t cause = book_cause(b, str_of(name));
        if (cause != NO_ID) text = texts_for(&b->causes[cause].text, c->language).p;
    }
    if (what == TT_NAMED_FIX) {
        const uint32_t fix = book_fix(b, str_of(name));
        if (fix != NO_ID) text = texts_for(&b->fixes[fix].text, c->language).p;
    }
    return text == NULL || strchr(text, '{') != NULL ? NULL : text;
}
