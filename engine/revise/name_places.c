/* Names found again in the bytes that they were read from. */
#include "revise/name_places.h"

#include <assert.h>

#include "base/written.h"

static bool stands_at(str text, size_t at, str name)
{
    return at + name.n <= text.n && str_eq(str_slice(text, at, at + name.n), name) &&
           !name_goes_on(text, at + name.n);
}

static size_t skip(str text, size_t at, const char *what)
{
    while (at < text.n && str_find_byte(str_of(what), text.p[at]) != SIZE_MAX) at++;
    return at;
}

/* The first whole word from `from` on that is the name, or SIZE_MAX. */
static size_t word_from(str text, size_t from, str name)
{
    for (size_t at = from; at + name.n <= text.n; at++)
        if (stands_at(text, at, name) && (at == 0 || !name_goes_on(text, at - 1))) return at;
    return SIZE_MAX;
}

static size_t behind_of(str text, str name)
{
    size_t of = str_find(text, STR(" of "));
    return of == SIZE_MAX ? SIZE_MAX : word_from(text, of + 4, name);
}

typedef struct search {
    const mention *m;
    found_name *found;
    void *context;
} search;

static void tell(const search *s, size_t at)
{
    const uint32_t start = s->m->at.start + (uint32_t)at;
    s->found(s->context, (span){s->m->at.file, start, start + (uint32_t)s->m->name.n});
}

/* "{drop of fine, bar}": a piece stands behind " of ", all else at the front. Doubled braces are
 * braces. */
static void within_braces(const search *s, str text)
{
    for (size_t i = 0; i + 1 < text.n; i++) {
        if (text.p[i] != '{') continue;
        if (text.p[i + 1] == '{') {
            i++;
            continue;
        }
        size_t close = str_find_byte(str_slice(text, i, text.n), '}');
        if (close == SIZE_MAX) return;
        str inside = str_slice(text, i + 1, i + close);
        size_t at =
            s->m->named == NAMED_PIECE ? behind_of(inside, s->m->name) : skip(inside, 0, " ");
        if (at != SIZE_MAX && stands_at(inside, at, s->m->name)) tell(s, i + 1 + at);
        i += close;
    }
}

void name_places(const sources *files, const mention *m, found_name *found, void *context)
{
    assert(m->at.file < files->count && m->name.n > 0);
    const search s = {m, found, context};
    str text = str_slice(files->items[m->at.file].bytes, m->at.start, m->at.end);
    if (m->form == MENTION_INSERT) {
        within_braces(&s, text);
        return;
    }
    size_t at = m->form == MENTION_BEHIND ? behind_of(text, m->name) : skip(text, 0, "'\" ");
    if (at != SIZE_MAX && stands_at(text, at, m->name)) tell(&s, at);
}
