/* Wrapping by display cells: at blanks, and inside a word only where it is wider than the screen.
 */
#include "face/row_wrap.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/unicode.h"

static uint32_t cells_of(str text)
{
    return (uint32_t)unicode_width(text, 0);
}

static str blanks(arena *keep, uint32_t count)
{
    char *bytes = arena_take(keep, count + 1);
    memset(bytes, ' ', count);
    return (str){bytes, count};
}

/* Bytes of the text that fit into so many cells: a mark stays with its letter. At least one
 * character. */
static size_t fitting(str text, uint32_t room)
{
    size_t end = 0;
    uint32_t used = 0;
    while (end < text.n) {
        size_t next = end;
        unicode_next(text, &next);
        const uint32_t cells = cells_of(str_slice(text, end, next));
        if (end > 0 && used + cells > room) break;
        used += cells;
        end = next;
    }
    return end;
}

/* Where the first row of a line ends: before the last blank that fits, else inside the word. */
static size_t row_end(str line, uint32_t room)
{
    const size_t all = fitting(line, room);
    if (all == line.n || line.p[all] == ' ') return all;
    size_t blank = all;
    while (blank > 0 && line.p[blank - 1] != ' ') blank--;
    while (blank > 0 && line.p[blank - 1] == ' ') blank--;
    return blank > 0 ? blank : all;
}

static void add_row(arena *keep, rows *out, const block *b, str lead, str text)
{
    GROW(keep, out->items, out->count, out->room);
    out->items[out->count++] = (row){.ink = b->ink, .lead = lead, .text = text, .block = b};
}

static str without_blanks_before(str text)
{
    size_t from = 0;
    while (from < text.n && text.p[from] == ' ') from++;
    return str_slice(text, from, text.n);
}

static str on_one_line(arena *keep, str text)
{
    char *line = (char *)(uintptr_t)str_copy(keep, text).p;
    for (size_t i = 0; i < text.n; i++)
        if (line[i] == '\n') line[i] = ' ';
    return (str){line, text.n};
}

/* As many rows as the terminal makes of it. */
static void break_block(arena *keep, rows *out, const block *b, uint32_t width)
{
    for (str rest = on_one_line(keep, b->text); rest.n > 0;) {
        const size_t end = fitting(rest, width);
        add_row(keep, out, b, STR(""), str_slice(rest, 0, end));
        out->items[out->count - 1].runs_on = end < rest.n;
        rest = str_slice(rest, end, rest.n);
    }
}

void wrap_block(arena *keep, rows *out, const block *b, uint32_t width)
{
    assert(width >= LEAST_WIDTH);
    if (b->as_it_stands) {
        break_block(keep, out, b, width);
        return;
    }
    const uint32_t lead = cells_of(b->lead), room = width - lead;
    const str hang = blanks(keep, lead);
    assert(lead < width / 2);
    str rest = b->text;
    bool first = true;
    do {
        const size_t newline = str_find_byte(rest, '\n');
        str line = str_slice(rest, 0, newline < rest.n ? newline : rest.n);
        rest = newline < rest.n ? str_slice(rest, newline + 1, rest.n) : (str){rest.p + rest.n, 0};
        do {
            const size_t end = row_end(line, room);
            add_row(keep, out, b, first ? b->lead : hang, str_slice(line, 0, end));
            line = without_blanks_before(str_slice(line, end, line.n));
            first = false;
        } while (line.n > 0);
    } while (rest.n > 0);
}

row cut_row(arena *keep, row r, uint32_t width)
{
    static const char mark[] = " ...";
    const uint32_t room = width - cells_of(r.lead) - (uint32_t)strlen(mark);
    const str kept = cells_of(r.text) > room ? str_slice(r.text, 0, fitting(r.text, room)) : r.text;
    r.text = str_printf(keep, "%.*s%s", STR_ARG(kept), mark);
    return r;
}
