/* Names that are looked for in vain because the file in which they stand could not be read: what is
 * wrong there is said, and the names are there once it is mended. */
#include <assert.h>

#include "session/session.h"

typedef struct unread {
    const sources *files;
    bool *is_unread; /* [file] */
} unread;

static bool is_of_reading(fault_code code)
{
    if (code == FAULT_UNKNOWN_SECTION) return true;
    return code >= FAULT_NOT_UTF8 && code <= FAULT_HARD_SPACE &&
           fault_severity_of(code) == SEVERITY_ERROR;
}

static bool is_missing_name(fault_code code)
{
    return code == FAULT_UNKNOWN_NAME || code == FAULT_UNKNOWN_KIND ||
           code == FAULT_UNKNOWN_IN_CONDITION || code == FAULT_CASE_NO_NAME ||
           code == FAULT_REPLY_NO_QUESTION || code == FAULT_UNKNOWN_INSERT;
}

/* "name:" at the beginning of a line, however deep. */
static bool begins_entry(str bytes, str name)
{
    for (size_t from = 0, at; from + name.n < bytes.n; from += at + 1) {
        at = str_find(str_slice(bytes, from, bytes.n), name);
        if (at == SIZE_MAX) return false;
        size_t begin = from + at;
        const size_t end = begin + name.n;
        while (begin > 0 && bytes.p[begin - 1] == ' ') begin--;
        if ((begin == 0 || bytes.p[begin - 1] == '\n') && end < bytes.n && bytes.p[end] == ':')
            return true;
    }
    return false;
}

/* "drop of fine" is an entry "drop". */
static str name_at(const sources *files, span at)
{
    if (at.file >= files->count) return STR("");
    const str name = str_slice(files->items[at.file].bytes, at.start, at.end);
    const size_t of = str_find(name, STR(" of "));
    return of == SIZE_MAX ? name : str_slice(name, 0, of);
}

static bool follows(const fault *f, const void *context)
{
    const unread *u = context;
    const str name = is_missing_name(f->code) ? name_at(u->files, f->at) : STR("");
    for (uint32_t i = 0; i < u->files->count && name.n > 0; i++)
        if (u->is_unread[i] && begins_entry(u->files->items[i].bytes, name)) return true;
    return false;
}

void drop_what_follows(faults *list, arena *scratch, const sources *files)
{
    uint32_t count;
    unread u = {files, ARENA_ARRAY(scratch, bool, files->count)};
    const fault *all = faults_sorted(list, scratch, &count);
    bool any = false;
    for (uint32_t i = 0; i < count; i++)
        if (is_of_reading(all[i].code) && all[i].at.file < files->count)
            any = u.is_unread[all[i].at.file] = true;
    if (any) faults_drop(list, follows, &u);
    assert(!any || faults_errors(list) > 0);
}
