/* Comma-separated values, read and written. */
#include "revise/csv.h"

#include <assert.h>

#include "base/grow.h"
#include "base/unicode.h"

/* ---- writing ---- */

static bool wants_quotes(str cell)
{
    for (size_t i = 0; i < cell.n; i++)
        if (str_find_byte(STR(",;\t\"\r\n"), cell.p[i]) != SIZE_MAX) return true;
    return cell.n > 0 && (cell.p[0] == ' ' || cell.p[cell.n - 1] == ' ');
}

void csv_add(text_builder *out, str cell, bool first)
{
    assert(out->keep != NULL);
    if (!first) text_add(out, STR(","));
    if (!wants_quotes(cell)) {
        text_add(out, cell);
        return;
    }
    text_add(out, STR("\""));
    for (size_t i = 0; i < cell.n; i++) {
        if (cell.p[i] == '"') text_add(out, STR("\""));
        text_add(out, str_slice(cell, i, i + 1));
    }
    text_add(out, STR("\""));
}

void csv_end_row(text_builder *out)
{
    text_add(out, STR("\r\n"));
}

/* ---- reading ---- */

typedef struct scanner {
    arena *keep;
    faults *list;
    str bytes;
    size_t at;
    char comma;
    csv_cell *cells;
    uint32_t count, room, total;
} scanner;

/* The first mark of the first line that parts cells. */
static char comma_of(str bytes, size_t from)
{
    bool quoted = false;
    for (size_t i = from; i < bytes.n && (quoted || bytes.p[i] != '\n'); i++) {
        char c = bytes.p[i];
        if (c == '"') quoted = !quoted;
        if (!quoted && (c == ',' || c == ';' || c == '\t')) return c;
    }
    return ',';
}

static bool is_end(const scanner *s, size_t at)
{
    if (at >= s->bytes.n) return true;
    char c = s->bytes.p[at];
    return c == s->comma || c == '\n' ||
           (c == '\r' && at + 1 < s->bytes.n && s->bytes.p[at + 1] == '\n');
}

static bool open_quote(scanner *s, size_t from)
{
    fault *f = fault_add(s->list, FAULT_CSV_QUOTE, (span){0, (uint32_t)from, (uint32_t)from + 1},
                         "Here a quoted cell begins that does not end as one.");
    fault_help(s->list, f, "Save the table again as CSV; within quotes a quote is written twice.");
    return false;
}

static bool read_quoted(scanner *s, str *text)
{
    size_t from = s->at++;
    text_builder b = {.keep = s->keep};
    for (; s->at < s->bytes.n; s->at++) {
        bool quote = s->bytes.p[s->at] == '"';
        if (quote && s->at + 1 < s->bytes.n && s->bytes.p[s->at + 1] == '"')
            s->at++;
        else if (quote)
            break;
        text_add(&b, str_slice(s->bytes, s->at, s->at + 1));
    }
    if (s->at >= s->bytes.n || !is_end(s, s->at + 1)) return open_quote(s, from);
    s->at++;
    *text = b.length == 0 ? STR("") : text_done(&b);
    return true;
}

static bool read_cell(scanner *s)
{
    size_t from = s->at;
    str text;
    if (from < s->bytes.n && s->bytes.p[from] == '"') {
        if (!read_quoted(s, &text)) return false;
    } else {
        while (!is_end(s, s->at)) s->at++;
        text = str_slice(s->bytes, from, s->at);
    }
    GROW(s->keep, s->cells, s->count, s->room);
    s->cells[s->count++] = (csv_cell){str_trim(text), {0, (uint32_t)from, (uint32_t)s->at}};
    s->total++;
    return true;
}

static bool read_row(scanner *s)
{
    s->cells = NULL;
    s->count = s->room = 0;
    for (;;) {
        if (!read_cell(s)) return false;
        if (s->at >= s->bytes.n || s->bytes.p[s->at] != s->comma) break;
        s->at++;
    }
    if (s->at < s->bytes.n) s->at += s->bytes.p[s->at] == '\r' ? 2 : 1;
    return true;
}

static bool is_blank(const scanner *s)
{
    for (uint32_t i = 0; i < s->count; i++)
        if (s->cells[i].text.n > 0) return false;
    return true;
}

static bool too_large(scanner *s)
{
    fault *f = fault_add(s->list, FAULT_CSV_HEAD, (span){0, 0, 0},
                         "The table has more than %d cells.", CSV_CELLS_MAX);
    fault_help(s->list, f, "It is none that 'telltale table' wrote.");
    return false;
}

static bool is_text(const sources *all, faults *list)
{
    str bytes = all->items[0].bytes;
    for (size_t i = 0; i < bytes.n;) {
        size_t from = i;
        uint32_t point = unicode_next(bytes, &i);
        bool replaced = point == 0xFFFD && !str_is(str_slice(bytes, from, i), "\xEF\xBF\xBD");
        if (!replaced && point != 0) continue;
        fault *f = fault_add(list, FAULT_CSV_TEXT, (span){0, (uint32_t)from, (uint32_t)i},
                             "The table is no UTF-8 text from here on.");
        fault_help(list, f, "Save it as CSV with the character set UTF-8.");
        return false;
    }
    return true;
}

bool csv_read(arena *keep, const sources *all, faults *list, csv *out)
{
    assert(all->count == 1);
    csv_row *rows = NULL;
    uint32_t count = 0, room = 0;
    if (!is_text(all, list)) return false;
    scanner s = {.keep = keep, .list = list, .bytes = all->items[0].bytes};
    s.at = source_text_start(&all->items[0]);
    s.comma = comma_of(s.bytes, s.at);
    while (s.at < s.bytes.n) {
        if (!read_row(&s)) return false;
        if (s.total > CSV_CELLS_MAX) return too_large(&s);
        if (is_blank(&s)) continue;
        GROW(keep, rows, count, room);
        rows[count++] = (csv_row){s.cells, s.count};
    }
    *out = (csv){rows, count};
    return true;
}
