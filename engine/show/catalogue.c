/* The catalogue of our own words to people. */
#include "show/catalogue.h"

#include <assert.h>

#include "base/str.h"
#include "show/catalogue_tables.h"

const char *catalogue_text(text_id id)
{
    assert(id < TEXT_COUNT && catalogue_entries[TONGUE_EN][id].text != NULL);
    return catalogue_entries[TONGUE_EN][id].text;
}

const char *catalogue_name(text_id id)
{
    assert(id < TEXT_COUNT);
    return catalogue_names[id];
}

/* The number of the insert at `at`, or 0. */
static uint32_t insert_at(str text, size_t at)
{
    bool is_one = at + 2 < text.n && text.p[at] == '{' && text.p[at + 1] >= '1' &&
                  text.p[at + 1] <= '9' && text.p[at + 2] == '}';
    return is_one ? (uint32_t)(text.p[at + 1] - '0') : 0;
}

const char *catalogue_fill(arena *keep, text_id id, const char *const *inserts, uint32_t count)
{
    str text = str_of(catalogue_text(id));
    text_builder b = {.keep = keep};
    size_t done = 0;
    for (size_t at = 0; at < text.n; at++) {
        uint32_t insert = insert_at(text, at);
        if (insert == 0) continue;
        assert(insert <= count && inserts[insert - 1] != NULL);
        text_add(&b, str_slice(text, done, at));
        text_add(&b, str_of(inserts[insert - 1]));
        done = at + 3;
        at += 2;
    }
    text_add(&b, str_slice(text, done, text.n));
    return b.length == 0 ? "" : text_done(&b).p;
}
