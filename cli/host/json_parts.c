#include "host/json_parts.h"

#include <math.h>
#include <stdlib.h>

#include "host/plain_text.h"

json_t *text_or_null(const char *text)
{
    return text != NULL && *text != 0 ? json_string(text) : json_null();
}

json_t *clean_json(const char *text)
{
    if (text == NULL) return json_null();
    char *clean = clean_text(text);
    json_t *json = json_string(clean);
    free(clean);
    return json;
}

json_t *number_json(double number)
{
    return isfinite(number) ? json_real(number + 0.0) : json_null();
}

json_t *book_json(const opened_book *book)
{
    tt_book_info info = tt_book_describe(book->book);
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(info.title));
    json_object_set_new(item, "edition", json_string(info.edition));
    json_object_set_new(item, "revision", json_string(book->revision));
    return item;
}

json_t *site_json(const opened_book *book)
{
    tt_book_info info = tt_book_describe(book->book);
    if (!info.has_site) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "title", text_or_null(info.site_title));
    json_object_set_new(item, "revision", text_or_null(book->site_revision));
    return item;
}
