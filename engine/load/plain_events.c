#include "load/plain_events.h"

#include <assert.h>
#include <string.h>

/* A key must be told as such within so many characters. */
enum { KEY_MOST = 1000, FIRST_EVENTS = 64, BYTES_OF_EVENT = 5 };

typedef struct plain {
    arena *scratch;
    const char *p;        /* the file */
    char *copy;           /* the same, for texts: what stands behind one becomes its NUL */
    uint32_t n, at, line; /* where we are, and where its line begins */
    events *out;
    uint32_t capacity, left; /* left: nodes, of the limit */
    uint32_t open[LOAD_DEPTH_MAX], depth;
} plain;

/* ---- characters ---- */

enum { ENDS_PLAIN = 1, NEVER_FIRST = 2, NEEDS_PARSER = 4, IS_FLOW = 8, ENDS_QUOTED = 16 };

/* clang-format off */
#define OF_FLOW (ENDS_PLAIN | NEVER_FIRST | IS_FLOW)
#define ODD_SPACE (ENDS_PLAIN | NEVER_FIRST | ENDS_QUOTED | NEEDS_PARSER)
static const unsigned char class_of[256] = {
    ['\n'] = ENDS_PLAIN | NEVER_FIRST | ENDS_QUOTED, ['\r'] = ODD_SPACE, ['\t'] = ODD_SPACE,
    ['#'] = ENDS_PLAIN | NEVER_FIRST, [':'] = ENDS_PLAIN | NEVER_FIRST, ['?'] = ENDS_PLAIN | NEVER_FIRST,
    [','] = OF_FLOW, ['['] = OF_FLOW, [']'] = OF_FLOW, ['{'] = OF_FLOW, ['}'] = OF_FLOW,
    ['"'] = NEVER_FIRST | ENDS_QUOTED, ['\''] = NEVER_FIRST | ENDS_QUOTED, ['\\'] = ENDS_QUOTED,
    [' '] = NEVER_FIRST, ['-'] = NEVER_FIRST /* but for "-5" */, ['&'] = NEVER_FIRST, ['*'] = NEVER_FIRST,
    ['!'] = NEVER_FIRST, ['|'] = NEVER_FIRST, ['>'] = NEVER_FIRST, ['%'] = NEVER_FIRST,
    ['@'] = NEVER_FIRST, ['`'] = NEVER_FIRST,
};
/* clang-format on */

static bool has_class(char c, unsigned char class)
{
    return (class_of[(unsigned char)c] & class) != 0;
}

/* The end of the file is the end of a line. */
static char byte_at(const plain *r, uint32_t i)
{
    return i < r->n ? r->p[i] : '\n';
}

static char here(const plain *r)
{
    return byte_at(r, r->at);
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\n';
}

static void skip_spaces(plain *r)
{
    while (r->at < r->n && r->p[r->at] == ' ') r->at++;
}

static uint32_t column(const plain *r)
{
    return r->at - r->line;
}

/* ---- events ---- */

static bool more_room(plain *r)
{
    const uint32_t capacity = r->capacity * 2;
    event *items = arena_try_unset(r->scratch, capacity * sizeof *items);
    if (items == NULL) {
        r->out->stop = STOP_NO_MEMORY;
        return false;
    }
    memcpy(items, r->out->items, r->out->count * sizeof *items);
    r->out->items = items;
    r->capacity = capacity;
    return true;
}

static bool add(plain *r, event_kind kind, node_style style, uint32_t start, uint32_t end, str text)
{
    if (r->out->count == r->capacity && !more_room(r)) return false;
    event *e = &r->out->items[r->out->count++];
    *e = (event){
        .kind = (uint8_t)kind, .style = (uint8_t)style, .start = start, .end = end, .text = text};
    return true;
}

/* A child of what is open; false: too many. */
static bool count_node(plain *r)
{
    if (r->depth > 0) r->out->items[r->open[r->depth - 1]].children++;
    return r->left-- > 1;
}

static bool open_node(plain *r, event_kind kind, node_style style, uint32_t start, uint32_t end)
{
    if (r->depth == LOAD_DEPTH_MAX || !count_node(r)) return false;
    r->open[r->depth++] = r->out->count;
    return add(r, kind, style, start, end, (str){NULL, 0});
}

static bool close_node(plain *r, event_kind kind, uint32_t start, uint32_t end)
{
    assert(r->depth > 0);
    r->depth--;
    return add(r, kind, STYLE_PLAIN, start, end, (str){NULL, 0});
}

/* Its letters are in the copy, from `from` on. */
static bool add_text(plain *r, node_style style, uint32_t start, uint32_t end, uint32_t from,
                     uint32_t to)
{
    if (to - from > LOAD_SCALAR_MAX || !count_node(r)) return false;
    if (to == from) return add(r, EVENT_TEXT, style, start, end, STR(""));
    r->copy[to] = '\0';
    return add(r, EVENT_TEXT, style, start, end, (str){r->copy + from, to - from});
}

/* ---- lines ---- */

static bool at_comment(const plain *r)
{
    return here(r) == '#' && (r->at == r->line || r->p[r->at - 1] == ' ');
}

static bool at_line_end(const plain *r)
{
    return here(r) == '\n' || at_comment(r);
}

static void skip_comment(plain *r)
{
    if (!at_comment(r)) return;
    const char *const end = memchr(r->p + r->at, '\n', r->n - r->at);
    r->at = end == NULL ? r->n : (uint32_t)(end - r->p);
}

/* What begins a line in the first column and may end a document. */
static bool may_be_marker(const plain *r)
{
    if (r->at != r->line) return false;
    const char c = here(r);
    return (c == '-' && byte_at(r, r->at + 1) == '-') || c == '.' || c == '%';
}

/* From the end of what was read to what comes next, on this line or a later one. */
static bool next_content(plain *r)
{
    for (;;) {
        skip_spaces(r);
        skip_comment(r);
        if (r->at == r->n || r->p[r->at] != '\n') return !may_be_marker(r);
        r->line = ++r->at;
    }
}

/* The same, where the rest of the line has to be empty. */
static bool next_line(plain *r)
{
    skip_spaces(r);
    return at_line_end(r) && next_content(r);
}

/* ---- texts ---- */

static bool begins_plain(const plain *r)
{
    const char c = here(r), next = byte_at(r, r->at + 1);
    if (c == '-') return !is_blank(next) && next != '-' && !has_class(next, NEVER_FIRST);
    return !has_class(c, NEVER_FIRST | NEEDS_PARSER);
}

/* Whether a plain text ends before the character at `i`. `ask`: it is for the parser to say. */
static bool ends_plain(const plain *r, uint32_t i, bool flow, bool *ask)
{
    const char c = r->p[i];
    *ask = has_class(c, NEEDS_PARSER) || (flow && c == '?');
    if (*ask || c == '\n') return true;
    if (c == '#') return r->p[i - 1] == ' ';
    if (c != ':') return flow && has_class(c, IS_FLOW);
    const char next = byte_at(r, i + 1);
    *ask = flow && (next == '?' || has_class(next, IS_FLOW));
    return *ask || is_blank(next);
}

/* Goes to what ends the part of a plain text that is on this line; `end` is that of its letters. */
static bool plain_part(plain *r, bool flow, uint32_t *end)
{
    uint32_t i = r->at;
    bool ask = false;
    do i++;
    while (i < r->n && (!has_class(r->p[i], ENDS_PLAIN) || !ends_plain(r, i, flow, &ask)));
    r->at = *end = i;
    while (r->p[*end - 1] == ' ') --*end;
    return !ask;
}

/* The breaks between two parts: one is a space, and of more each but the first stays. */
static uint32_t put_breaks(plain *r, uint32_t to, uint32_t breaks)
{
    assert(breaks > 0);
    if (breaks == 1) r->copy[to++] = ' ';
    for (; breaks > 1; breaks--) r->copy[to++] = '\n';
    return to;
}

/* Over the end of a line and empty ones, to what stands next; how many ends that were. */
static uint32_t skip_breaks(plain *r)
{
    uint32_t breaks = 0;
    skip_spaces(r);
    for (; r->at < r->n && r->p[r->at] == '\n'; breaks++) {
        r->line = ++r->at;
        skip_spaces(r);
    }
    return breaks;
}

/* A plain text that may go on in lines that are further in than `indent`. */
static bool plain_value(plain *r, uint32_t indent)
{
    const uint32_t start = r->at;
    uint32_t end, to;
    if (!plain_part(r, false, &end)) return false;
    to = end;
    while (here(r) == '\n') {
        const uint32_t stop = r->at, line = r->line, breaks = skip_breaks(r);
        if (r->at == r->n || column(r) <= indent || here(r) == '#') {
            r->at = stop;
            r->line = line;
            break;
        }
        const uint32_t from = r->at;
        if (has_class(here(r), NEEDS_PARSER) || here(r) == ':' || !plain_part(r, false, &end))
            return false;
        to = put_breaks(r, to, breaks);
        memmove(r->copy + to, r->p + from, end - from);
        to += end - from;
    }
    return add_text(r, STYLE_PLAIN, start, end, start, to);
}

/* What a backslash and the letter behind it stand for; 0: the parser knows. */
static char escaped(char letter)
{
    return letter == '"' || letter == '\\' ? letter : letter == 'n' ? '\n' : '\0';
}

/* One character that ends a run of others within quotes. True: it was the closing one. */
static bool in_quotes(plain *r, char quote, uint32_t *to, bool *ask)
{
    const char c = here(r), next = byte_at(r, r->at + 1);
    uint32_t width = 1;
    char put = c;
    if (c == quote && (quote == '"' || next != '\'')) return true;
    if (c == '\'' && quote == '\'') width = 2;
    if (c == '\\' && quote == '"') {
        width = 2;
        put = escaped(next);
    }
    *ask = put == '\0' || has_class(c, NEEDS_PARSER);
    r->copy[(*to)++] = put;
    r->at += width;
    return false;
}

static bool break_in_quotes(plain *r, uint32_t from, uint32_t *to)
{
    while (*to > from && r->copy[*to - 1] == ' ') --*to;
    *to = put_breaks(r, *to, skip_breaks(r));
    return r->at < r->n && column(r) > 0 && !has_class(here(r), NEEDS_PARSER);
}

static bool quoted(plain *r, bool one_line)
{
    const char quote = here(r);
    const uint32_t start = r->at++, from = r->at;
    uint32_t to = from;
    bool ask = false;
    while (!ask) {
        const uint32_t run = r->at;
        while (r->at < r->n && !has_class(r->p[r->at], ENDS_QUOTED)) r->at++;
        if (to != run) memmove(r->copy + to, r->p + run, r->at - run);
        to += r->at - run;
        if (r->at >= r->n) return false;
        if (r->p[r->at] == '\n')
            ask = one_line || !break_in_quotes(r, from, &to);
        else if (in_quotes(r, quote, &to, &ask))
            break;
    }
    r->at++;
    const node_style style = quote == '"' ? STYLE_DOUBLE : STYLE_SINGLE;
    return !ask && add_text(r, style, start, r->at, from, to);
}

static bool is_quote(char c)
{
    return c == '"' || c == '\'';
}

/* A text of one line: a key, or within { } and [ ]. */
static bool short_text(plain *r, bool flow)
{
    if (is_quote(here(r))) return quoted(r, true);
    const uint32_t start = r->at;
    uint32_t end;
    return begins_plain(r) && plain_part(r, flow, &end) &&
           add_text(r, STYLE_PLAIN, start, end, start, end);
}

static bool key(plain *r, bool flow)
{
    const uint32_t start = r->at;
    if (!short_text(r, flow)) return false;
    skip_spaces(r);
    if (here(r) != ':' || !is_blank(byte_at(r, r->at + 1)) || r->at - start > KEY_MOST)
        return false;
    r->at++;
    return true;
}

/* ---- within { } and [ ] ---- */

static bool flow_node(plain *r);

static bool flow_item(plain *r)
{
    const char c = here(r);
    return c == '{' || c == '[' ? flow_node(r) : short_text(r, true);
}

static bool flow_entry(plain *r)
{
    return key(r, true) && next_content(r) && flow_item(r);
}

/* Behind what stands in it: a comma and more, or its end. */
static bool flow_goes_on(plain *r, char close, bool *more)
{
    if (!next_content(r)) return false;
    *more = here(r) == ',';
    if (!*more) return here(r) == close;
    r->at++;
    return next_content(r) && here(r) != close;
}

static bool flow_node(plain *r)
{
    const bool map = here(r) == '{';
    const char close = map ? '}' : ']';
    const uint32_t start = r->at++;
    if (!open_node(r, map ? EVENT_MAP_START : EVENT_LIST_START, STYLE_FLOW, start, r->at))
        return false;
    bool more = next_content(r) && here(r) != close;
    if (!more && here(r) != close) return false;
    while (more)
        if (!(map ? flow_entry(r) : flow_item(r)) || !flow_goes_on(r, close, &more)) return false;
    r->at++;
    return close_node(r, map ? EVENT_MAP_END : EVENT_LIST_END, r->at - 1, r->at);
}

/* ---- by indentation: each of these goes to what comes next ---- */

static bool block_value(plain *r, uint32_t indent, bool of_map);

/* What can stand behind a key on its line. */
static bool line_value(plain *r, uint32_t indent)
{
    const char c = here(r);
    const bool good = c == '{' || c == '[' ? flow_node(r)
                      : is_quote(c)        ? quoted(r, false)
                                           : begins_plain(r) && plain_value(r, indent);
    return good && next_line(r);
}

static bool is_dash(const plain *r)
{
    return here(r) == '-' && is_blank(byte_at(r, r->at + 1));
}

/* Whether what comes next stands in this column, and whether it stands further in. */
static bool goes_on(const plain *r, uint32_t indent)
{
    return r->at < r->n && column(r) == indent;
}

static bool is_inside(const plain *r, uint32_t indent)
{
    return r->at < r->n && column(r) > indent;
}

/* In a map the dashes may stand in the column of the keys; the next key ends such a list. */
static bool block_list(plain *r, bool below_key)
{
    const uint32_t indent = column(r);
    if (!open_node(r, EVENT_LIST_START, STYLE_BLOCK, r->at, r->at + below_key)) return false;
    do {
        r->at++;
        if (!block_value(r, indent, false)) return false;
    } while (goes_on(r, indent) && is_dash(r));
    if (is_inside(r, indent) || (goes_on(r, indent) && !below_key)) return false;
    return close_node(r, EVENT_LIST_END, r->at, r->at);
}

static bool block_map(plain *r)
{
    const uint32_t indent = column(r);
    if (!open_node(r, EVENT_MAP_START, STYLE_BLOCK, r->at, r->at)) return false;
    do
        if (!key(r, false) || !block_value(r, indent, true)) return false;
    while (goes_on(r, indent));
    return !is_inside(r, indent) && close_node(r, EVENT_MAP_END, r->at, r->at);
}

/* Where a text in quotes ends that begins here, if it does on this line. */
static uint32_t quotes_end(const plain *r)
{
    const char quote = here(r);
    uint32_t i = r->at + 1;
    for (; byte_at(r, i) != '\n'; i++) {
        if (r->p[i] == '\\' && quote == '"')
            i++;
        else if (r->p[i] == quote && (quote == '"' || byte_at(r, i + 1) != quote))
            return i + 1;
        else if (r->p[i] == quote)
            i++;
    }
    return i;
}

/* Whether the text that begins here is a key. */
static bool is_key(const plain *r)
{
    plain look = *r;
    uint32_t end;
    if (is_quote(here(r)))
        look.at = quotes_end(r);
    else if (!begins_plain(r) || !plain_part(&look, false, &end))
        return false;
    skip_spaces(&look);
    return here(&look) == ':';
}

static bool block_node(plain *r, uint32_t indent)
{
    if (is_dash(r)) return block_list(r, false);
    return is_key(r) ? block_map(r) : line_value(r, indent);
}

/* What stands behind a key or a dash of this column. */
static bool block_value(plain *r, uint32_t indent, bool of_map)
{
    skip_spaces(r);
    if (!at_line_end(r)) return of_map ? line_value(r, indent) : block_node(r, indent);
    if (!next_content(r) || r->at == r->n) return false;
    if (of_map && column(r) == indent && is_dash(r)) return block_list(r, true);
    return column(r) > indent && block_node(r, indent);
}

static bool whole_file(plain *r)
{
    if (!next_content(r) || r->at == r->n) return false;
    if (is_dash(r)) return block_list(r, false) && r->at == r->n;
    return is_key(r) && block_map(r) && r->at == r->n;
}

bool plain_events(arena *keep, arena *scratch, const source *s, uint32_t *budget, events *out)
{
    const uint32_t n = (uint32_t)s->bytes.n, first = (uint32_t)source_text_start(s);
    const arena_mark kept = arena_here(keep), used = arena_here(scratch);
    plain r = {.scratch = scratch,
               .p = s->bytes.p,
               .n = n,
               .at = first,
               .line = first,
               .out = out,
               .capacity = n / BYTES_OF_EVENT + FIRST_EVENTS,
               .left = *budget};
    *out = (events){.items = arena_try_unset(scratch, r.capacity * sizeof *out->items)};
    r.copy = arena_try_unset(keep, (size_t)n + 1);
    if (r.copy == NULL || out->items == NULL) {
        out->stop = STOP_NO_MEMORY;
        return true;
    }
    memcpy(r.copy, r.p, n);
    const bool good = whole_file(&r);
    if (good || out->stop == STOP_NO_MEMORY) {
        *budget = r.left;
        return true;
    }
    arena_back_to(scratch, used);
    arena_back_to(keep, kept);
    return false;
}
