/* The catalogue of our own words to people. */
#include "say/catalogue.h"

#include <assert.h>
#include <string.h>

#include "base/str.h"
#include "say/catalogue_tables.h"

/* The language of a tag is its first part, in letters of either size. */
static bool is_tag_of(const char *tag, const char *language)
{
    const size_t length = strlen(language);
    for (size_t i = 0; i < length; i++)
        if ((tag[i] | 0x20) != language[i]) return false;
    return tag[length] == 0 || tag[length] == '-';
}

tongue tongue_of(const char *tag)
{
    for (tongue i = 0; i < TONGUE_COUNT && tag != NULL; i++)
        if (is_tag_of(tag, catalogue_tags[i])) return i;
    return TONGUE_EN;
}

const char *tongue_tag(tongue in)
{
    assert(in < TONGUE_COUNT);
    return catalogue_tags[in];
}

static const catalogue_entry *entry_of(tongue in, text_id id)
{
    assert(in < TONGUE_COUNT && id < TEXT_COUNT);
    const catalogue_entry *e = &catalogue_entries[in][id];
    return e->text != NULL ? e : &catalogue_entries[TONGUE_EN][id];
}

static const char *form_for_many(const catalogue_entry *e)
{
    assert(e->text != NULL);
    return e->many != NULL ? e->many : e->text;
}

const char *catalogue_text(tongue in, text_id id)
{
    return form_for_many(entry_of(in, id));
}

const char *tongue_name(const char *tag)
{
    for (tongue i = 0; i < TONGUE_COUNT; i++)
        if (is_tag_of(tag, catalogue_tags[i])) return catalogue_text(i, PHONE_OWN_NAME);
    return tag;
}

const char *catalogue_again(tongue from, tongue into, const char *text)
{
    for (text_id id = 0; id < TEXT_COUNT; id++)
        if (catalogue_entries[from][id].text != NULL && catalogue_text(from, id) == text)
            return catalogue_text(into, id);
    return text;
}

/* The languages that we have count alike: one, and every other number (Plural-Forms in their
 * heads). */
static const char *form_for(const catalogue_entry *e, const char *number)
{
    return strcmp(number, "1") == 0 ? e->text : form_for_many(e);
}

const char *catalogue_name(text_id id)
{
    assert(id < TEXT_COUNT);
    return catalogue_names[id] != NULL ? catalogue_names[id] : "";
}

/* The number of the insert at `at`, or 0. */
static uint32_t insert_at(str text, size_t at)
{
    bool is_one = at + 2 < text.n && text.p[at] == '{' && text.p[at + 1] >= '1' &&
                  text.p[at + 1] <= '9' && text.p[at + 2] == '}';
    return is_one ? (uint32_t)(text.p[at + 1] - '0') : 0;
}

const char *catalogue_fill(arena *keep, tongue in, text_id id, const char *const *inserts,
                           uint32_t count)
{
    str text = str_of(count > 0 ? form_for(entry_of(in, id), inserts[0]) : catalogue_text(in, id));
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
