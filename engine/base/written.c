/* What an author wrote: as it is shown to people, and where a name ends in it. */
#include "base/written.h"

#include <assert.h>

static bool is_quoted(str text)
{
    return text.n > 1 && (text.p[0] == '"' || text.p[0] == '\'') && text.p[text.n - 1] == text.p[0];
}

str written_at(const sources *all, span at)
{
    if (at.file == NO_FILE) return STR("");
    assert(at.file < all->count);
    const str text = str_slice(all->items[at.file].bytes, at.start, at.end);
    return is_quoted(text) ? str_slice(text, 1, text.n - 1) : text;
}

bool name_goes_on(str bytes, size_t at)
{
    static const str all = {"-0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz", 63};
    return at < bytes.n && str_find_byte(all, bytes.p[at]) != SIZE_MAX;
}
