/* Faults as people read them: place, text, the line with a mark under what is meant, notes, help.
 */
#include <assert.h>

#include "base/faults.h"
#include "base/unicode.h"

enum {
    LINE_CELLS_MAX = 120,
    LEAD_CELLS = 30
}; /* of a long line only a window round the mark is shown */

typedef struct printer {
    text_builder out;
    arena *keep;
    const sources *all;
    uint32_t file, offset; /* the last place that was computed: in a sorted list the next is near */
    place at;
} printer;

static place place_of(printer *p, span at)
{
    if (at.file != p->file || at.start < p->offset) {
        p->file = at.file;
        p->offset = 0;
        p->at = (place){1, 1};
    }
    p->at = source_place_after(&p->all->items[at.file], p->at, p->offset, at.start);
    p->offset = at.start;
    return p->at;
}

static void add_place(printer *p, span at)
{
    if (at.file == NO_FILE) return;
    assert(at.file < p->all->count);
    place where = place_of(p, at);
    str name = unicode_clean(p->keep, p->all->items[at.file].name);
    text_addf(&p->out, "%.*s:%u:%u: ", STR_ARG(name), where.line, where.column);
}

/* ---- the line ---- */

/* The line around `offset`, without its end and without a byte-order mark. */
static span line_around(const source *s, span at)
{
    size_t first = source_text_start(s), start = at.start, end = at.start;
    if (start > s->bytes.n) start = end = s->bytes.n;
    while (start > first && s->bytes.p[start - 1] != '\n' && s->bytes.p[start - 1] != '\r') start--;
    while (end < s->bytes.n && s->bytes.p[end] != '\n' && s->bytes.p[end] != '\r') end++;
    if (start < first) start = first;
    if (end < start) end = start;
    assert(end <= s->bytes.n);
    return (span){at.file, (uint32_t)start, (uint32_t)end};
}

/* One character as shown in `cells`: a tab as spaces, what a terminal would obey as U+FFFD. */
static void add_shown(text_builder *b, str character, uint32_t point, size_t cells)
{
    if (point == '\t')
        for (size_t i = 0; i < cells; i++) text_add(b, STR(" "));
    else if (point == 0xFFFD || unicode_unsafe(point))
        text_add(b, STR("\xEF\xBF\xBD"));
    else
        text_add(b, character);
}

static size_t shown_width(str character, uint32_t point, size_t cell)
{
    return point != '\t' && unicode_unsafe(point) ? 1 : unicode_width(character, cell);
}

typedef struct shown_line {
    text_builder line, mark;
    str bytes;
    size_t from, to; /* the mark, in bytes of the line */
    size_t skipped;  /* cells left of the window */
    size_t cell;
} shown_line;

static void add_mark(shown_line *l, size_t byte, size_t cells)
{
    for (size_t i = 0; i < cells; i++) {
        bool inside = byte >= l->from && byte < l->to;
        bool head = byte == l->from && i == 0;
        if (byte <= l->from || inside)
            text_add(&l->mark, head ? STR("^") : inside ? STR("~") : STR(" "));
    }
}

static size_t cells_before(str line, size_t end)
{
    size_t cell = 0;
    for (size_t i = 0; i < end;) {
        size_t start = i;
        uint32_t point = unicode_next(line, &i);
        cell += shown_width(str_slice(line, start, i), point, cell);
    }
    return cell;
}

static void cut_left(shown_line *l)
{
    size_t head = cells_before(l->bytes, l->from);
    if (head + LEAD_CELLS <= LINE_CELLS_MAX) return;
    l->skipped = head - LEAD_CELLS;
    text_add(&l->line, STR("..."));
    text_add(&l->mark, STR("   "));
}

static void lay_out(shown_line *l)
{
    cut_left(l);
    for (size_t i = 0; i < l->bytes.n;) {
        size_t start = i;
        uint32_t point = unicode_next(l->bytes, &i);
        str character = str_slice(l->bytes, start, i);
        size_t cells = shown_width(character, point, l->cell);
        bool left = l->cell<l->skipped, right = l->cell + cells> l->skipped + LINE_CELLS_MAX;
        if (right) {
            text_add(&l->line, STR("..."));
            return;
        }
        l->cell += cells;
        if (left) continue;
        add_shown(&l->line, character, point, cells);
        add_mark(l, start, cells);
    }
    if (l->from >= l->bytes.n) text_add(&l->mark, STR("^"));
}

static void add_line(printer *p, span at)
{
    if (at.file == NO_FILE) return;
    const source *s = &p->all->items[at.file];
    span line = line_around(s, at);
    shown_line l = {.line.keep = p->keep, .mark.keep = p->keep};
    l.bytes = str_slice(s->bytes, line.start, line.end);
    l.from = at.start > line.start ? at.start - line.start : 0;
    size_t end = at.end < line.end ? at.end : line.end;
    l.to = end > line.start + l.from ? end - line.start : l.from + 1;
    if (l.from > l.bytes.n) l.from = l.bytes.n;
    assert(l.from < l.to);
    lay_out(&l);
    text_addf(&p->out, "%5u | %.*s\n", place_of(p, at).line, STR_ARG(text_done(&l.line)));
    text_addf(&p->out, "      | %.*s\n", STR_ARG(text_done(&l.mark)));
}

/* ---- a fault, and all of them ---- */

static void add_notes(printer *p, const fault *f)
{
    for (const fault_note *n = f->notes; n != NULL; n = n->next) {
        add_place(p, n->at);
        text_addf(&p->out, "note: %.*s\n", STR_ARG(n->text));
    }
}

static void add_fault(printer *p, const fault *f)
{
    bool error = fault_severity_of(f->code) == SEVERITY_ERROR;
    add_place(p, f->at);
    text_addf(&p->out, "%s: %.*s [%s]\n", error ? "error" : "warning", STR_ARG(f->text),
              fault_id(f->code));
    add_line(p, f->at);
    add_notes(p, f);
    if (f->help.n > 0) text_addf(&p->out, "help: %.*s\n", STR_ARG(f->help));
}

static void add_count(text_builder *out, uint32_t count, const char *what)
{
    if (count > 0)
        text_addf(out, "%s%u %s%s", out->length > 0 ? ", " : "", count, what,
                  count == 1 ? "" : "s");
}

static void add_last_line(printer *p, uint32_t errors, uint32_t warnings, uint32_t shown)
{
    assert(shown <= errors + warnings);
    text_builder counts = {.keep = p->keep};
    add_count(&counts, errors, "error");
    add_count(&counts, warnings, "warning");
    uint32_t hidden = errors + warnings - shown;
    text_add(&p->out, text_done(&counts));
    if (hidden > 0) text_addf(&p->out, "; %u not shown", hidden);
    text_add(&p->out, STR("\n"));
}

str faults_text(faults *list, arena *keep, const sources *all, uint32_t most)
{
    uint32_t count;
    const fault *sorted = faults_sorted(list, keep, &count);
    if (count == 0) return STR("");
    printer p = {.out.keep = keep, .keep = keep, .all = all, .file = NO_FILE};
    uint32_t shown = most == 0 || most > count ? count : most;
    for (uint32_t i = 0; i < shown; i++) add_fault(&p, &sorted[i]);
    add_last_line(&p, faults_errors(list), faults_warnings(list), shown);
    return text_done(&p.out);
}
