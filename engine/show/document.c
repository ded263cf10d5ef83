/* The public face of JSON: a tree that owns itself, a line of text, and what is shown of a case. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/guard.h"
#include "show/json.h"
#include "show/rank_fields.h"

struct tt_document {
    arena *keep;
    bool good;
    tt_value value;
    const char *wrong;
};

static const char *words_of(arena *keep, const json_fault *fault)
{
    if (fault->line == 0) return str_copy(keep, fault->text).p;
    return str_printf(keep, "line %u, column %u: %.*s", fault->line, fault->column,
                      STR_ARG(fault->text))
        .p;
}

static tt_document *read_document(arena *keep, str text, size_t most)
{
    tt_document *d = ARENA_NEW(keep, tt_document);
    json_fault fault;
    d->keep = keep;
    d->good = json_read(keep, text, most, &d->value, &fault);
    d->wrong = d->good ? "" : words_of(keep, &fault);
    return d;
}

tt_status tt_document_read(const char *bytes, size_t length, size_t most, tt_document **out)
{
    guard way_out;
    assert(out != NULL && (bytes != NULL || length == 0));
    *out = NULL;
    arena *keep = arena_new(NULL, &way_out);
    if (keep == NULL) return TT_NO_MEMORY;
    if (setjmp(way_out.place)) {
        arena_free(keep);
        return TT_NO_MEMORY;
    }
    tt_document *d = read_document(keep, (str){bytes, length}, most);
    arena_guard(keep, NULL);
    *out = d;
    return d->good ? TT_OK : TT_FAULTY;
}

void tt_document_free(tt_document *d)
{
    if (d != NULL) arena_free(d->keep);
}

const tt_value *tt_document_value(const tt_document *d)
{
    return d->good ? &d->value : NULL;
}

const char *tt_document_wrong(const tt_document *d)
{
    return d->wrong;
}

static char *owned_copy(str text)
{
    char *copy = malloc(text.n + 1);
    return copy != NULL ? memcpy(copy, text.p, text.n + 1) : NULL;
}

tt_status tt_value_json(const tt_value *value, int digits, char **out)
{
    guard way_out;
    assert(value != NULL && out != NULL);
    *out = NULL;
    arena *scratch = arena_new(NULL, &way_out);
    if (scratch == NULL) return TT_NO_MEMORY;
    if (setjmp(way_out.place) == 0) *out = owned_copy(json_write(scratch, value, digits));
    arena_free(scratch);
    return *out != NULL ? TT_OK : TT_NO_MEMORY;
}

static tt_status told_as_json(const tt_origin *origin, tt_case *c, bool with_why, char **out)
{
    guard way_out;
    *out = NULL;
    arena *scratch = arena_new(NULL, &way_out);
    if (scratch == NULL) return TT_NO_MEMORY;
    if (setjmp(way_out.place) == 0) {
        const tt_value value = standing_value(scratch, origin, c, with_why);
        *out = owned_copy(json_write_lines(scratch, &value, JSON_DIGITS_SHOWN, 2));
    }
    arena_free(scratch);
    return *out != NULL ? TT_OK : TT_NO_MEMORY;
}

tt_status tt_standing_json(const tt_origin *origin, tt_case *c, char **out)
{
    return told_as_json(origin, c, false, out);
}

tt_status tt_standing_why_json(const tt_origin *origin, tt_case *c, char **out)
{
    return told_as_json(origin, c, true, out);
}
