/* The only file that knows the YAML parser. While the parser lives nothing here leaves by the
 * guard: all memory is asked for with arena_try, so that the parser's own memory is always given
 * back. */
#include <assert.h>
#include <string.h>
#include <yaml.h>

#include "base/unicode.h"
#include "load/events.h"

typedef struct reading {
    arena *keep, *scratch;
    const source *source;
    uint32_t *budget;
    yaml_parser_t parser;
    events out;
    uint32_t documents;
    event *next, *piece_end;         /* where events go; in the piece that was begun last */
    event *open[LOAD_DEPTH_MAX + 1]; /* the lists and maps that we are inside of, and what stands
                                        around all */
    event around;
    uint32_t pieces; /* begun */
    uint32_t depth;
    size_t from, to, shift; /* characters between which each is a byte, and how many bytes further
                               than characters these stand */
    char *copy;             /* of the file */
    const text_apart **last_apart; /* where the next one is hung on */
} reading;

/* On to what follows the run: one character that is not plain, and the run behind it. */
static void next_run(reading *r)
{
    const str bytes = r->source->bytes;
    size_t at = r->to + r->shift;
    assert(at < bytes.n);
    do at++;
    while (at < bytes.n && ((unsigned char)bytes.p[at] & 0xC0) == 0x80);
    r->from = r->to + 1;
    r->shift = at - r->from;
    r->to = unicode_plain_end(bytes, at) - r->shift;
}

static uint32_t byte_before(const reading *r, size_t character)
{
    size_t at = r->from + r->shift;
    for (size_t left = r->from - character; left > 0; left--) {
        assert(at > 0);
        do at--;
        while (((unsigned char)r->source->bytes.p[at] & 0xC0) == 0x80);
    }
    return (uint32_t)at;
}

static uint32_t byte_outside(reading *r, size_t character)
{
    while (character > r->to && r->to + r->shift < r->source->bytes.n) next_run(r);
    if (character < r->from) return byte_before(r, character);
    return (uint32_t)((character < r->to ? character : r->to) + r->shift);
}

/* The parser counts characters from where the text begins. Places come in order, but for what a
 * fault says last, so one run of plain characters after the other is enough. */
static inline uint32_t byte_of(reading *r, yaml_mark_t mark)
{
    return mark.index >= r->from && mark.index <= r->to ? (uint32_t)(mark.index + r->shift)
                                                        : byte_outside(r, mark.index);
}

static bool stop(reading *r, stop_cause cause, uint32_t at)
{
    assert(cause != STOP_AT_END && r->out.stop == STOP_AT_END);
    r->out.stop = cause;
    r->out.at = at;
    return false;
}

static bool new_piece(reading *r)
{
    assert(r->pieces < EVENTS_PIECES);
    event *piece = arena_try_unset(r->scratch, EVENTS_PIECE * sizeof *piece);
    if (piece == NULL) return stop(r, STOP_NO_MEMORY, 0);
    r->out.pieces[r->pieces++] = piece;
    r->next = piece;
    r->piece_end = piece + EVENTS_PIECE;
    return true;
}

static node_style text_style(yaml_scalar_style_t style)
{
    switch (style) {
    case YAML_SINGLE_QUOTED_SCALAR_STYLE:
        return STYLE_SINGLE;
    case YAML_DOUBLE_QUOTED_SCALAR_STYLE:
        return STYLE_DOUBLE;
    case YAML_LITERAL_SCALAR_STYLE:
        return STYLE_LITERAL;
    case YAML_FOLDED_SCALAR_STYLE:
        return STYLE_FOLDED;
    default:
        return STYLE_PLAIN;
    }
}

static inline uint32_t marks_of(const yaml_char_t *anchor, const yaml_char_t *tag)
{
    return (anchor != NULL ? MARK_ANCHORED : 0U) | (tag != NULL ? MARK_TAGGED : 0U);
}

/* Set in one go. */
static inline event event_from(reading *r, event_kind kind, node_style style, uint32_t marks,
                               size_t count, const yaml_event_t *y)
{
    event e = {.kind = kind, .style = style, .marks = marks & 15, .count = count & EVENT_COUNT_MAX};
    if (y->start_mark.index >= r->from && y->end_mark.index <= r->to) { /* both in the run */
        e.start = (uint32_t)(y->start_mark.index + r->shift);
        e.end = (uint32_t)(y->end_mark.index + r->shift);
    } else {
        e.start = byte_of(r, y->start_mark);
        e.end = byte_of(r, y->end_mark);
    }
    return e;
}

/* Any text but a plain one of one line is kept by itself. */
static bool copy_text(reading *r, event *e, const yaml_event_t *y)
{
    const size_t length = y->data.scalar.length;
    const bool too_long = length > LOAD_SCALAR_MAX;
    const uint32_t marks = marks_of(y->data.scalar.anchor, y->data.scalar.tag);
    *e = event_from(r, EVENT_TEXT, text_style(y->data.scalar.style),
                    marks | (too_long ? MARK_TOO_LONG : 0U), too_long ? 0 : length, y);
    if (too_long || length == 0) return true;
    text_apart *copy = arena_try_unset(r->keep, sizeof *copy + length + 1);
    if (copy == NULL) return stop(r, STOP_NO_MEMORY, e->start);
    memcpy(copy->bytes, y->data.scalar.value, length);
    copy->bytes[length] = '\0';
    copy->next = NULL;
    *r->last_apart = copy;
    r->last_apart = &copy->next;
    return true;
}

static inline bool is_as_written(const yaml_event_t *y)
{
    return y->data.scalar.style == YAML_PLAIN_SCALAR_STYLE &&
           y->start_mark.line == y->end_mark.line && y->data.scalar.anchor == NULL &&
           y->data.scalar.tag == NULL && y->data.scalar.length - 1 < LOAD_SCALAR_MAX;
}

static inline bool fill_text(reading *r, event *e, const yaml_event_t *y)
{
    if (!is_as_written(y)) return copy_text(r, e, y);
    *e = event_from(r, EVENT_TEXT, STYLE_PLAIN, MARK_AS_WRITTEN, y->data.scalar.length, y);
    assert(y->data.scalar.length == e->end - e->start);
    r->copy[e->end] = '\0'; /* no text begins there */
    return true;
}

/* One more of what we are inside of. */
static inline bool within_budget(reading *r, const event *e)
{
    if (*r->budget <= 1) return stop(r, STOP_NODES, e->start);
    --*r->budget;
    r->open[r->depth]->count++;
    return true;
}

/* The parser's work grows with the square of the depth of [ and {, so depth is looked at before
 * each next step. */
static inline bool open_one(reading *r, event *e)
{
    if (!within_budget(r, e)) return false;
    if (r->depth == LOAD_DEPTH_MAX) return stop(r, STOP_DEPTH, e->start);
    r->open[++r->depth] = e;
    return true;
}

static inline bool close_one(reading *r)
{
    assert(r->depth > 0);
    r->depth--;
    return true;
}

static bool take_document(reading *r, const yaml_event_t *y)
{
    if (r->documents++ == 0) return true;
    return stop(r, STOP_SECOND_DOCUMENT, byte_of(r, y->start_mark));
}

/* False: nothing more is to be read. There is room for an event. */
static inline bool take_event(reading *r, const yaml_event_t *y)
{
    event *const e = r->next;
    switch (y->type) {
    case YAML_SCALAR_EVENT:
        r->next++;
        return fill_text(r, e, y) && within_budget(r, e);
    case YAML_MAPPING_START_EVENT:
        r->next++;
        *e = event_from(r, EVENT_MAP_START,
                        y->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE ? STYLE_FLOW
                                                                               : STYLE_BLOCK,
                        marks_of(y->data.mapping_start.anchor, y->data.mapping_start.tag), 0, y);
        return open_one(r, e);
    case YAML_SEQUENCE_START_EVENT:
        r->next++;
        *e = event_from(r, EVENT_LIST_START,
                        y->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE ? STYLE_FLOW
                                                                                 : STYLE_BLOCK,
                        marks_of(y->data.sequence_start.anchor, y->data.sequence_start.tag), 0, y);
        return open_one(r, e);
    case YAML_MAPPING_END_EVENT:
        r->next++;
        *e = event_from(r, EVENT_MAP_END, STYLE_PLAIN, 0, 0, y);
        return close_one(r);
    case YAML_SEQUENCE_END_EVENT:
        r->next++;
        *e = event_from(r, EVENT_LIST_END, STYLE_PLAIN, 0, 0, y);
        return close_one(r);
    case YAML_ALIAS_EVENT:
        r->next++;
        *e = event_from(r, EVENT_ALIAS, STYLE_PLAIN, 0, 0, y);
        return within_budget(r, e);
    case YAML_DOCUMENT_START_EVENT:
        return take_document(r, y);
    case YAML_STREAM_START_EVENT:
    case YAML_DOCUMENT_END_EVENT:
        return true;
    default:
        assert(y->type == YAML_STREAM_END_EVENT || y->type == YAML_NO_EVENT);
        return false;
    }
}

static void take_error(reading *r)
{
    const yaml_parser_t *p = &r->parser;
    /* at some places the parser fails for want of memory without saying so */
    bool no_memory = p->error == YAML_MEMORY_ERROR || p->error == YAML_NO_ERROR;
    stop(r, no_memory ? STOP_NO_MEMORY : STOP_SYNTAX, byte_of(r, p->problem_mark));
    r->out.context = byte_of(r, p->context_mark);
    r->out.while_doing = p->context == NULL ? "" : p->context;
    r->out.problem = p->problem == NULL ? "" : p->problem;
}

static void parse_all(reading *r)
{
    bool more = true;
    while (more) {
        yaml_event_t y;
        if (!yaml_parser_parse(&r->parser, &y)) {
            take_error(r);
            return;
        }
        more = (r->next < r->piece_end || new_piece(r)) && take_event(r, &y);
        yaml_event_delete(&y);
    }
}

events read_events(arena *keep, arena *scratch, const source *s, uint32_t *budget)
{
    size_t first = source_text_start(s);
    reading r = {.keep = keep,
                 .scratch = scratch,
                 .source = s,
                 .budget = budget,
                 .to = unicode_plain_end(s->bytes, first) - first,
                 .shift = first,
                 .copy = arena_try_unset(keep, s->bytes.n + 1)};
    r.open[0] = &r.around;
    r.out.copy = r.copy;
    r.last_apart = &r.out.apart;
    r.out.pieces = arena_try_unset(scratch, EVENTS_PIECES * sizeof *r.out.pieces);
    if (r.copy == NULL || r.out.pieces == NULL || !yaml_parser_initialize(&r.parser)) {
        r.out.stop = STOP_NO_MEMORY;
        return r.out;
    }
    memcpy(r.copy, s->bytes.p, s->bytes.n);
    str text = str_slice(s->bytes, first, s->bytes.n);
    yaml_parser_set_encoding(&r.parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&r.parser, (const unsigned char *)text.p, text.n);
    parse_all(&r);
    if (r.pieces > 0) r.out.count = r.pieces * EVENTS_PIECE - (uint32_t)(r.piece_end - r.next);
    assert(r.out.stop != STOP_AT_END || r.depth == 0);
    yaml_parser_delete(&r.parser);
    return r.out;
}
