/* Which book, and which site: their tables of fields. */
#include "show/book_fields.h"

#include <assert.h>

static const field book_fields[] = {
    FIELD(shown_book, name, FIELD_TEXT, ALWAYS, 1, "Title of the book."),
    FIELD(shown_book, edition, FIELD_TEXT, ALWAYS, 1, ""),
    {.name = "revision",
     .type = FIELD_TEXT,
     .since = 1,
     .at = offsetof(shown_book, revision),
     .pattern = DIGEST_PATTERN,
     .doc = "SHA-256 over the sources in name order: for each its name, a NUL, its length as 8 "
            "bytes (big end first) and its bytes."},
};
const shape book_shape = SHAPE("book", shown_book, book_fields, "");

static const field site_fields[] = {
    FIELD(shown_site, title, FIELD_MAYBE, ALWAYS, 1, ""),
    {.name = "revision",
     .type = FIELD_MAYBE,
     .since = 1,
     .at = offsetof(shown_site, revision),
     .pattern = DIGEST_PATTERN,
     .doc = "SHA-256 of the site's file; null for the example in the book, which counts in the "
            "revision of the book."},
};
const shape site_shape = SHAPE("site", shown_site, site_fields, "");

static const field contact_fields[] = {
    FIELD(tt_contact, role, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_contact, purpose, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_contact, post, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_contact, telephone, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_contact, hours, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_contact, who, FIELD_MAYBE, ALWAYS, 2,
          "In words: the post, what the role is called, or the purpose."),
};
const shape contact_shape = SHAPE("contact", tt_contact, contact_fields, "");

shown_book book_of(const tt_origin *origin)
{
    assert(origin->book != NULL && origin->revision != NULL);
    const tt_book_info info = tt_book_describe(origin->book);
    return (shown_book){info.title, info.edition, origin->revision};
}

const shown_site *site_of(arena *keep, const tt_origin *origin)
{
    assert(origin->book != NULL);
    const tt_book_info info = tt_book_describe(origin->book);
    if (!info.has_site) return NULL;
    shown_site *site = ARENA_NEW(keep, shown_site);
    *site = (shown_site){info.site_title, origin->site_revision};
    return site;
}
