/* Events → tree. A fault never leaves a gap that the next stage would report again: what is missing
 * is given an empty text whose place is silenced. */
#include <assert.h>

#include "load/checks.h"

typedef struct builder {
    arena *keep, *scratch;
    const source *source;
    uint32_t file;
    const events *seen;
    const event *next, *piece_end; /* in the piece that `next` is in */
    uint32_t pieces;               /* begun */
    const text_apart *apart;       /* the first of those to come */
    node *free_nodes;              /* taken from `keep` many at a time */
    uint32_t free_count;
    faults *list;
} builder;

static const node *build_node(builder *b, bool in_flow);

static void next_piece(builder *b)
{
    const uint32_t left = b->seen->count - b->pieces * EVENTS_PIECE;
    assert(b->pieces * EVENTS_PIECE < b->seen->count);
    b->next = b->seen->pieces[b->pieces++];
    b->piece_end = b->next + (left < EVENTS_PIECE ? left : EVENTS_PIECE);
}

static inline const event *coming(builder *b)
{
    if (b->next == b->piece_end) next_piece(b);
    return b->next;
}

static inline const event *take(builder *b)
{
    const event *e = coming(b);
    b->next++;
    return e;
}

/* Not set. */
static inline node *new_node(builder *b)
{
    enum { AT_ONCE = 128 };
    if (b->free_count == 0) {
        const uint32_t left = b->seen->count - (b->pieces - 1) * EVENTS_PIECE;
        b->free_count = left < AT_ONCE ? left : AT_ONCE; /* no more come than events */
        b->free_nodes = arena_take_unset(b->keep, b->free_count * sizeof *b->free_nodes);
    }
    b->free_count--;
    return b->free_nodes++;
}

/* ---- places ---- */

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static uint32_t skip_blanks(const builder *b, uint32_t i)
{
    while (i < b->source->bytes.n && is_blank(b->source->bytes.p[i])) i++;
    return i;
}

static uint32_t skip_word(const builder *b, uint32_t i)
{
    while (i < b->source->bytes.n && !is_blank(b->source->bytes.p[i])) i++;
    return i;
}

/* Says what is wrong with `&name` and `!tag` before a node; returns where the node itself begins.
 */
static uint32_t check_properties(builder *b, const event *e)
{
    uint32_t i = e->start;
    uint32_t left =
        ((e->marks & MARK_ANCHORED) != 0 ? 1U : 0U) + ((e->marks & MARK_TAGGED) != 0 ? 1U : 0U);
    assert(e->start <= b->source->bytes.n);
    for (; left > 0; left--) {
        uint32_t end = skip_word(b, i);
        span at = {b->file, i, end};
        str word = str_slice(b->source->bytes, i, end);
        bool anchor = word.n > 0 && word.p[0] == '&';
        fault *f;
        if (anchor)
            f = fault_add(b->list, FAULT_ANCHOR, at,
                          "'%.*s' marks what follows for use elsewhere; that is not possible here",
                          STR_ARG(word));
        else
            f = fault_add(b->list, FAULT_TAG, at, "'%.*s' is a tag; there are no tags here",
                          STR_ARG(word));
        fault_help(b->list, f,
                   "if it belongs to a text, put the whole text in quotes; otherwise delete it");
        i = skip_blanks(b, end);
    }
    return i;
}

/* Without the line ends behind a block of text. */
static span copied_span(builder *b, const event *e)
{
    if (e->style == STYLE_PLAIN && e->marks == 0) return (span){b->file, e->start, e->end};
    uint32_t start = check_properties(b, e), end = e->end;
    if (start > end) start = end;
    while (end > start && is_blank(b->source->bytes.p[end - 1])) end--;
    assert(start <= end && end <= b->source->bytes.n);
    return (span){b->file, start, end};
}

static inline span text_span(builder *b, const event *e)
{
    return (e->marks & MARK_AS_WRITTEN) != 0 ? (span){b->file, e->start, e->end}
                                             : copied_span(b, e);
}

/* ---- texts ---- */

static inline str take_text(builder *b, const event *e)
{
    return event_text(b->seen, e, &b->apart);
}

static inline bool is_too_long(const event *e)
{
    return (e->marks & MARK_TOO_LONG) != 0;
}

static inline bool is_absent(const event *e)
{
    return (e->marks & MARK_AS_WRITTEN) == 0 && e->kind == EVENT_TEXT && e->style == STYLE_PLAIN &&
           e->count == 0 && !is_too_long(e);
}

static inline const node *text_node(builder *b, str text, node_style style, bool in_flow, span at)
{
    assert(at.start <= at.end && at.file == b->file);
    node *n = new_node(b);
    *n = (node){.kind = NODE_TEXT, .style = style, .in_flow = in_flow, .at = at, .text = text};
    return n;
}

/* Stands for what was wrong; nothing more is said about it. */
static const node *silent_node(builder *b, bool in_flow, span at)
{
    faults_silence(b->list, at);
    return text_node(b, STR(""), STYLE_PLAIN, in_flow, at);
}

static void report_too_long(builder *b, span at)
{
    fault *f = fault_add(b->list, FAULT_TEXT_TOO_LONG, at, "This text is longer than %u bytes",
                         (unsigned)LOAD_SCALAR_MAX);
    fault_help(b->list, f,
               "look for a quote or a block of text that goes on too far; split long texts");
}

static const node *build_text(builder *b, const event *e, bool in_flow)
{
    const str text = take_text(b, e);
    span at = text_span(b, e);
    if ((e->marks & MARK_AS_WRITTEN) != 0 && is_fine_as_written(b->source, text, at))
        return text_node(b, text, STYLE_PLAIN, in_flow, at);
    if (is_too_long(e)) {
        report_too_long(b, at);
        return silent_node(b, in_flow, at);
    }
    check_value(b->source, text, e->style, at, b->list);
    return text_node(b, text, e->style, in_flow, at);
}

static void report_alias(builder *b, const event *e)
{
    span at = {b->file, e->start, e->end};
    fault *f = fault_add(b->list, FAULT_ALIAS, at,
                         "'%.*s' stands for something written elsewhere; that is not possible here",
                         STR_ARG(str_slice(b->source->bytes, e->start, e->end)));
    fault_help(b->list, f,
               "write it out; if it is a text that begins with *, put the text in quotes");
}

/* ---- lists ---- */

static const node *build_item(builder *b, bool in_flow, uint32_t list_start)
{
    const event *e = coming(b);
    if (!is_absent(e)) return build_node(b, in_flow);
    take(b);
    /* the parser's place of nothing is behind the '-' */
    uint32_t start = e->start > list_start ? e->start - 1 : list_start;
    span at = {b->file, start, e->start > start ? e->start : start + 1};
    fault *f = fault_add(b->list, FAULT_ITEM_EMPTY, at, "This list item is empty");
    fault_help(b->list, f, "write the item behind '- ', or delete the line");
    return silent_node(b, in_flow, at);
}

static const node *build_list(builder *b, const event *e, bool in_flow)
{
    assert(e->kind == EVENT_LIST_START);
    node *n = new_node(b);
    const node **items = ARENA_ARRAY(b->keep, const node *, e->count);
    uint32_t start = check_properties(b, e), end = start + 1;
    for (uint32_t i = 0; i < e->count; i++) {
        items[i] = build_item(b, e->style == STYLE_FLOW, start);
        if (items[i]->at.end > end) end = items[i]->at.end;
    }
    const event *closing = take(b);
    assert(closing->kind == EVENT_LIST_END);
    if (e->style == STYLE_FLOW) end = closing->end;
    *n = (node){.kind = NODE_LIST,
                .style = e->style,
                .in_flow = in_flow,
                .count = e->count,
                .items = items};
    n->at = (span){b->file, start, end};
    return n;
}

/* ---- maps ---- */

/* Goes past a node that was refused as a key; nothing inside is looked at. */
static span skip_node(builder *b)
{
    const event *first = take(b), *last = first;
    uint32_t depth = first->kind == EVENT_LIST_START || first->kind == EVENT_MAP_START;
    while (depth > 0) {
        last = take(b);
        if (last->kind == EVENT_TEXT) take_text(b, last);
        if (last->kind == EVENT_LIST_START || last->kind == EVENT_MAP_START) depth++;
        if (last->kind == EVENT_LIST_END || last->kind == EVENT_MAP_END) depth--;
    }
    return (span){b->file, first->start, last->end > first->start ? last->end : first->start};
}

static bool refuse_key(builder *b, const char *what)
{
    span at = skip_node(b);
    fault *f = fault_add(b->list, FAULT_KEY_NOT_TEXT, at, "%s", what);
    fault_help(
        b->list, f,
        "write a word, a colon and a space before the value: 'word: value'; a text that begins "
        "with { or [ needs quotes");
    return false;
}

static bool refuse_merge(builder *b, span at)
{
    fault *f = fault_add(b->list, FAULT_MERGE_KEY, at,
                         "'<<' would copy another map; that is not possible here");
    fault_help(b->list, f, "write the entries out");
    return false;
}

/* False if the entry is to be left out. */
static inline bool take_key(builder *b, node_entry *entry)
{
    const event *e = coming(b);
    if ((e->marks & MARK_AS_WRITTEN) != 0) { /* as most are */
        b->next++;
        entry->key_at = (span){b->file, e->start, e->end};
        entry->key = take_text(b, e);
        return !str_is(entry->key, "<<") || refuse_merge(b, entry->key_at);
    }
    if (e->kind == EVENT_LIST_START) return refuse_key(b, "A list can't be a key");
    if (e->kind == EVENT_MAP_START) return refuse_key(b, "A map can't be a key");
    if (is_absent(e)) return refuse_key(b, "A value stands here without a key");
    take(b);
    if (e->kind == EVENT_ALIAS) {
        report_alias(b, e);
        return false;
    }
    entry->key_at = text_span(b, e);
    entry->key = take_text(b, e);
    if (is_too_long(e)) report_too_long(b, entry->key_at);
    if (is_too_long(e)) return false;
    if (e->style == STYLE_DOUBLE) check_text(b->source, entry->key, entry->key_at, b->list);
    return e->style != STYLE_PLAIN || !str_is(entry->key, "<<") || refuse_merge(b, entry->key_at);
}

static inline const node *take_value(builder *b, const event *map, node_entry *entry)
{
    bool in_flow = map->style == STYLE_FLOW;
    if (!is_absent(coming(b)))
        return b->next->kind == EVENT_TEXT ? build_text(b, b->next++, in_flow)
                                           : build_node(b, in_flow);
    check_properties(b, take(b));
    if (in_flow) return NULL;
    fault *f = fault_add(b->list, FAULT_KEY_WITHOUT_VALUE, entry->key_at, "'%.*s' has no value",
                         STR_ARG(entry->key));
    fault_help(
        b->list, f,
        "write the value after the colon, or indented below it; if there is none, delete the line");
    return silent_node(b, in_flow, entry->key_at);
}

/* What a refused key stood before is still looked at. */
static const node *refused_value(builder *b, const event *map)
{
    if (!is_absent(coming(b))) return build_node(b, map->style == STYLE_FLOW);
    take(b);
    return NULL;
}

/* Digits first, as on both sides of a decimal comma: "0", "95 %". */
static bool is_number(str text)
{
    return text.n > 0 && text.p[0] >= '0' && text.p[0] <= '9';
}

/* `{drop, psi}` and `{x:1}`: nothing in it is an entry. `{text: One, two}`: a comma has split a
 * text. */
static void report_valueless(builder *b, const node_entry *entries, uint32_t i, span map)
{
    assert(entries[i].value == NULL);
    str key = entries[i].key;
    size_t colon = str_find_byte(key, ':');
    fault *f;
    if (colon != SIZE_MAX && colon > 0 && colon + 1 < key.n) {
        f = fault_add(b->list, FAULT_MISSING_COLON, entries[i].key_at,
                      "There is no space after the colon");
        fault_help(b->list, f, "write '%.*s: %.*s'", (int)colon, key.p,
                   STR_ARG(str_slice(key, colon + 1, key.n)));
    } else if (i == 0 && str_find_byte(key, '=') != SIZE_MAX && key.p[0] != '=') {
        const size_t sign = str_find_byte(key, '=');
        f = fault_add(b->list, FAULT_TEXT_LIKE_MAP, map,
                      "Between a key and its value stands a colon, not '='");
        fault_help(b->list, f, "write '{%.*s: %.*s}'", STR_ARG(str_trim(str_slice(key, 0, sign))),
                   STR_ARG(str_trim(str_slice(key, sign + 1, key.n))));
    } else if (i == 0) {
        f = fault_add(b->list, FAULT_TEXT_LIKE_MAP, map,
                      "What stands in { } is a map, but '%.*s' has no value", STR_ARG(key));
        fault_help(
            b->list, f,
            "if it is part of a sentence, put the whole sentence in quotes; if it is one value, "
            "write '%.*s' without { }; otherwise write '{%.*s: value}'",
            STR_ARG(key), STR_ARG(key));
    } else if (is_number(key) && entries[i - 1].value != NULL &&
               entries[i - 1].value->kind == NODE_TEXT && is_number(entries[i - 1].value->text)) {
        const str whole = entries[i - 1].value->text;
        f = fault_add(b->list, FAULT_FLOW_SENTENCE, entries[i].key_at,
                      "A comma ends the number '%.*s' here: the decimal sign is a point",
                      STR_ARG(whole));
        fault_help(b->list, f, "write '%.*s.%.*s'", STR_ARG(whole), STR_ARG(key));
    } else {
        f = fault_add(b->list, FAULT_FLOW_SENTENCE, entries[i].key_at,
                      "'%.*s' has no value: inside { } a comma ends a text", STR_ARG(key));
        fault_help(b->list, f, "give the text a line of its own: '%.*s: ...' without { }",
                   STR_ARG(entries[i - 1].key));
    }
}

/* One fault for the map, since one mistake makes several entries without a value. */
static void check_flow_values(builder *b, node_entry *entries, uint32_t count, span at)
{
    bool reported = false;
    for (uint32_t i = 0; i < count; i++) {
        if (entries[i].value != NULL) continue;
        if (!reported) report_valueless(b, entries, i, at);
        reported = true;
        entries[i].value = text_node(b, STR(""), STYLE_PLAIN, true, entries[i].key_at);
    }
    if (reported) faults_silence(b->list, at);
}

static const node *build_map(builder *b, const event *e, bool in_flow)
{
    assert(e->kind == EVENT_MAP_START && e->count % 2 == 0);
    node *n = new_node(b);
    node_entry *const entries = arena_take_unset(b->keep, e->count / 2 * sizeof *entries),
                      *next = entries;
    uint32_t letters = 0, start = e->marks == 0 ? e->start : check_properties(b, e),
             end = start + 1;
    for (uint32_t left = e->count / 2; left > 0; left--) {
        const bool good = take_key(b, next);
        const node *value = good ? take_value(b, e, next) : refused_value(b, e);
        next->value = value;
        if (value != NULL && value->at.end > end) end = value->at.end;
        if (!good) continue;
        if (next->key.n > 0) letters |= letter_bit(next->key.p[0]);
        next++;
    }
    uint32_t count = (uint32_t)(next - entries);
    const event *closing = take(b);
    assert(closing->kind == EVENT_MAP_END);
    if (e->style == STYLE_FLOW && closing->end > end) end = closing->end;
    span at = {b->file, start, end};
    count = keys_once(b->scratch, entries, count, b->list);
    check_flow_values(b, entries, count, at);
    *n = (node){.kind = NODE_MAP,
                .style = e->style,
                .in_flow = in_flow,
                .at = at,
                .count = count,
                .letters = letters,
                .entries = entries};
    return n;
}

static const node *build_node(builder *b, bool in_flow)
{
    const event *e = take(b);
    switch (e->kind) {
    case EVENT_TEXT:
        return build_text(b, e, in_flow);
    case EVENT_LIST_START:
        return build_list(b, e, in_flow);
    case EVENT_MAP_START:
        return build_map(b, e, in_flow);
    default:
        assert(e->kind == EVENT_ALIAS);
    }
    report_alias(b, e);
    return silent_node(b, in_flow, (span){b->file, e->start, e->end});
}

const node *build_tree(arena *keep, arena *scratch, const source *s, uint32_t file,
                       const events *seen, faults *list)
{
    builder b = {.keep = keep,
                 .scratch = scratch,
                 .source = s,
                 .file = file,
                 .seen = seen,
                 .apart = seen->apart,
                 .list = list};
    assert(keep != scratch && seen->stop == STOP_AT_END);
    if (seen->count == 0) return NULL;
    const event *first = coming(&b);
    if (is_absent(first) && first->marks == 0) return NULL;
    const node *root = build_node(&b, false);
    assert(b.next == b.piece_end && b.pieces * (uint64_t)EVENTS_PIECE >= seen->count &&
           b.apart == NULL);
    return root;
}
