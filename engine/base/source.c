/* Files as bytes: lines, columns and places in them. */
#include "base/source.h"

#include <assert.h>
#include <string.h>

#include "base/sorted.h"

static bool continues_character(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

size_t source_text_start(const source *s)
{
    return str_starts(s->bytes, "\xEF\xBB\xBF") ? 3 : 0;
}

/* Many bytes at once: the compiler sees to that. */
static uint32_t newlines_in(const char *bytes, size_t count)
{
    uint32_t lines = 0;
    for (size_t i = 0; i < count; i++) lines += bytes[i] == '\n';
    return lines;
}

place source_place_after(const source *s, place p, uint32_t known, uint32_t offset)
{
    size_t end = offset < s->bytes.n ? offset : s->bytes.n;
    size_t i = known == 0 ? source_text_start(s) : known;
    const uint32_t lines = i < end ? newlines_in(s->bytes.p + i, end - i) : 0;
    if (lines > 0) {
        p = (place){p.line + lines, 1};
        for (i = end; s->bytes.p[i - 1] != '\n';) i--;
    }
    for (; i < end; i++) p.column += !continues_character(s->bytes.p[i]);
    return p;
}

bool source_is_picture(const source *s)
{
    return str_ends(s->name, ".svg");
}

place source_place(const source *s, uint32_t offset)
{
    return source_place_after(s, (place){1, 1}, 0, offset);
}

static size_t newline_from(str bytes, size_t at)
{
    const size_t found = str_find_byte(str_slice(bytes, at, bytes.n), '\n');
    return found == SIZE_MAX ? bytes.n : at + found;
}

line_index source_lines(arena *keep, const source *s)
{
    const uint32_t count = 1 + newlines_in(s->bytes.p, s->bytes.n);
    uint32_t at = 0, *starts = ARENA_ARRAY(keep, uint32_t, count);
    for (size_t i = 0; (i = newline_from(s->bytes, i)) < s->bytes.n; i++)
        starts[++at] = (uint32_t)i + 1;
    assert(at + 1 == count);
    return (line_index){starts, count};
}

uint32_t source_line_of(line_index lines, uint32_t offset)
{
    assert(lines.count > 0 && lines.starts[0] == 0);
    uint32_t begun;
    SORTED_PLACE(begun, lines.count, i, lines.starts[i] <= offset);
    assert(begun > 0);
    return begun;
}

str span_short(arena *keep, const sources *all, span at)
{
    if (at.file == NO_FILE || all == NULL) return STR("");
    assert(at.file < all->count);
    const source *s = &all->items[at.file];
    return str_printf(keep, "%.*s:%u", STR_ARG(s->name), source_place(s, at.start).line);
}

static int by_name(const void *a, const void *b)
{
    return str_cmp(((const source *)a)->name, ((const source *)b)->name);
}

sources sources_sorted(arena *keep, const source *items, uint32_t count)
{
    source *sorted = ARENA_ARRAY(keep, source, count);
    for (uint32_t i = 0; i < count; i++) sorted[i] = items[i];
    SORT(sorted, count, by_name);
    return (sources){sorted, count};
}
