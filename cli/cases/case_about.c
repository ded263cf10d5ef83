#include "cases/case_about.h"

#include <assert.h>

#include "base/unicode.h"

static void put_copy(arena *keep, value_builder *b, const char *key, const char *text)
{
    value_put(b, key, value_of_str(keep, str_of(text)));
}

static void put_clean(arena *keep, value_builder *b, const char *key, const char *text)
{
    value_put(b, key, value_of_str(keep, unicode_clean(keep, str_of(text))));
}

/* {"path", "revision", "text"}; null: none that was said or is in a file. */
static tt_value site_value(arena *keep, const case_about *about)
{
    if (about->site_text == NULL) return value_null;
    value_builder site = value_map(keep);
    value_put_text(&site, "path", about->site_path);
    put_copy(keep, &site, "revision", about->site_revision);
    put_copy(keep, &site, "text", about->site_text);
    return value_done(&site);
}

const tt_value *case_about_value(arena *keep, const case_about *about)
{
    assert(about->book != NULL && about->person != NULL && about->place != NULL);
    const tt_book_info info = tt_book_describe(about->book);
    value_builder b = value_map(keep);
    if (about->number != NULL) value_put_text(&b, "number", about->number);
    value_put_text(&b, "rulebook", about->folder);
    value_put_text(&b, "title", info.title);
    value_put_text(&b, "edition", info.edition);
    put_copy(keep, &b, "revision", about->revision);
    value_put(&b, "site", site_value(keep, about));
    if (!about->practice) value_put_some(&b, "site_title", info.site_title);
    value_put_bool(&b, "practice", about->practice);
    value_put_bool(&b, "telephone", about->telephone);
    value_put_text(&b, "program", TELLTALE_VERSION);
    put_clean(keep, &b, "by", about->person);
    put_clean(keep, &b, "on", about->place);
    return value_keep(&b);
}
