#include "cases/case_contact.h"

#include <stdlib.h>
#include <string.h>

#include "base/unicode.h"
#include "base/value.h"
#include "cases/case_depot.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "telltale.h"

bool case_contact_says_something(const case_contact *c)
{
#define SAYS(member, key) *c->member != 0 ||
    return CONTACT_FIELDS(SAYS) false;
#undef SAYS
}

static void take_text(arena *keep, const tt_value *file, const char *key, const char **out)
{
    const char *text = value_text(file, key);
    if (text != NULL) *out = unicode_clean(keep, str_of(text)).p;
}

exit_status case_contact_read(arena *keep, const char *place, case_contact *out)
{
    str json = {"", 0};
    tt_document *d = NULL;
#define NOTHING(member, key) out->member = "";
    CONTACT_FIELDS(NOTHING)
#undef NOTHING
    const exit_status status = depot_of(place)->contact_read(keep, place, &json);
    if (status != EXIT_DONE || json.n == 0) return status;
    const tt_value *file = tt_document_read(json.p, json.n, LARGEST_CONTACT, &d) == TT_OK
                               ? tt_document_value(d)
                               : NULL;
#define TAKE(member, key) take_text(keep, file, key, &out->member);
    CONTACT_FIELDS(TAKE)
#undef TAKE
    if (file == NULL) complain("%s has a contact that can't be read. It is left as it is", place);
    tt_document_free(d);
    return file != NULL ? EXIT_DONE : EXIT_BAD_DATA;
}

static exit_status write_contact(arena *keep, const char *place, const case_contact *c)
{
    value_builder b = value_map(keep);
    value_put_number(&b, "version", 1);
#define PUT(member, key) \
    if (*c->member != 0) value_put_text(&b, key, c->member);
    CONTACT_FIELDS(PUT)
#undef PUT
    const tt_value value = value_done(&b);
    char *json = NULL;
    if (tt_value_json(&value, 1, &json) != TT_OK) memory_ended();
    const exit_status status = depot_of(place)->contact_write(keep, place, str_of(json));
    free(json);
    return status;
}

exit_status case_contact_keep(arena *keep, const char *place, const case_contact *more)
{
    case_contact all;
    const exit_status status = case_contact_read(keep, place, &all);
    if (status != EXIT_DONE) return status;
#define OVER(member, key) \
    if (*more->member != 0) all.member = unicode_clean(keep, str_of(more->member)).p;
    CONTACT_FIELDS(OVER)
#undef OVER
    return write_contact(keep, place, &all);
}

exit_status case_contact_erase(const char *place, bool *erased)
{
    arena *keep = host_arena();
    const exit_status status = depot_of(place)->contact_erase(keep, place, erased);
    arena_free(keep);
    return status;
}
