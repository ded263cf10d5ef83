/* Events → tree. A fault never leaves a gap that the next stage would report again: what is missing
 * is given an empty text whose place is silenced. */
#include <assert.h>

#include "base/str_head.h"
#include "load/checks.h"

typedef struct builder {
    arena *keep, *scratch;
    const source *source;
    uint32_t file;
    const events *seen;
    const event *next, *piece_end; /* in the piece that `next` is in */
    uint32_t pieces;               /* begun */
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
    uint32_t left = (uint32_t)e->anchored + (uint32_t)e->tagged;
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
static span text_span(builder *b, const event *e)
{
    if (e->style == STYLE_PLAIN && !e->anchored && !e->tagged)
        return (span){b->file, e->start, e->end};
    uint32_t start = check_properties(b, e), end = e->end;
    if (start > end) start = end;
    while (end > start && is_blank(b->source->bytes.p[end - 1])) end--;
    assert(start <= end && end <= b->source->bytes.n);
    return (span){b->file, start, end};
}

/* ---- texts ---- */

static bool is_absent(const event *e)
{
    return e->kind == EVENT_TEXT && e->style == STYLE_PLAIN && e->text.n == 0 && !e->too_long;
}

static const node *text_node(builder *b, str text, node_style style, bool in_flow, span at)
{
    assert(at.start <= at.end && at.file == b->file);
    node *n = arena_take_unset(b->keep, sizeof *n);
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
    span at = text_span(b, e);
    if (e->too_long) {
        report_too_long(b, at);
        return silent_node(b, in_flow, at);
    }
    check_value(b->source, e->text, e->style, at, b->list);
    return text_node(b, e->text, e->style, in_flow, at);
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
    node *n = ARENA_NEW(b->keep, node);
    const node **items = ARENA_ARRAY(b->keep, const node *, e->children);
    uint32_t start = check_properties(b, e), end = start + 1;
    for (uint32_t i = 0; i < e->children; i++) {
        items[i] = build_item(b, e->style == STYLE_FLOW, start);
        if (items[i]->at.end > end) end = items[i]->at.end;
    }
    const event *closing = take(b);
    assert(closing->kind == EVENT_LIST_END);
    if (e->style == STYLE_FLOW) end = closing->end;
    *n = (node){.kind = NODE_LIST,
                .style = e->style,
                .in_flow = in_flow,
                .count = e->children,
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
static bool take_key(builder *b, node_entry *entry)
{
    const event *e = coming(b);
    if (e->kind == EVENT_LIST_START) return refuse_key(b, "A list can't be a key");
    if (e->kind == EVENT_MAP_START) return refuse_key(b, "A map can't be a key");
    if (is_absent(e)) return refuse_key(b, "A value stands here without a key");
    take(b);
    if (e->kind == EVENT_ALIAS) {
        report_alias(b, e);
        return false;
    }
    entry->key_at = text_span(b, e);
    entry->key = e->text;
    if (e->too_long) report_too_long(b, entry->key_at);
    if (e->too_long) return false;
    if (e->style == STYLE_DOUBLE) check_text(b->source, e->text, entry->key_at, b->list);
    return e->style != STYLE_PLAIN || !str_is(e->text, "<<") || refuse_merge(b, entry->key_at);
}

static const node *take_value(builder *b, const event *map, node_entry *entry)
{
    bool in_flow = map->style == STYLE_FLOW;
    if (!is_absent(coming(b))) return build_node(b, in_flow);
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

typedef struct keyed {
    uint64_t head;
    str key;
    uint32_t position;
} keyed;

static int by_key(const void *left, const void *right)
{
    const keyed *a = left, *b = right;
    const int order = str_cmp_headed(a->head, a->key, b->head, b->key);
    return order != 0 ? order : THREE_WAY(a->position, b->position);
}

static void report_twice(builder *b, const node_entry *first, const node_entry *again)
{
    assert(str_eq(first->key, again->key) && first->key_at.start < again->key_at.start);
    fault *f = fault_add(b->list, FAULT_KEY_TWICE, again->key_at,
                         "'%.*s' stands twice in the same map", STR_ARG(again->key));
    fault_note_at(b->list, f, first->key_at, "it stands here first");
    fault_help(b->list, f, "give one of them another name, or write both as one");
}

/* Of the few entries that most maps have, each is compared with each. */
static bool few_have_doubles(const node_entry *entries, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++)
        for (uint32_t k = 0; k < i; k++) {
            const str a = entries[i].key, c = entries[k].key;
            if (a.n == c.n && (a.n == 0 || (a.p[0] == c.p[0] && str_eq(a, c)))) return true;
        }
    return false;
}

static uint32_t mixed(str key)
{
    const uint64_t odd = UINT64_C(0x9E3779B97F4A7C15);
    uint64_t hash = str_head(key) * odd;
    if (key.n > 8) hash = (hash ^ str_head(str_slice(key, key.n - 8, key.n)) ^ key.n) * odd;
    return (uint32_t)(((hash ^ hash >> 32) * odd) >> 32);
}

/* Of many, each is looked for in a table of those before it. Names made to meet there would cost
 * more than putting all in order, so that is done for those who step too often. */
static bool may_have_doubles(builder *b, const node_entry *entries, uint32_t count)
{
    uint32_t room = 64, steps = 0;
    while (room < 2 * count) room *= 2;
    uint32_t *slots = ARENA_ARRAY(b->scratch, uint32_t, room);
    for (uint32_t i = 0; i < count; i++) {
        const str key = entries[i].key;
        uint32_t at = mixed(key) & (room - 1);
        for (; slots[at] != 0; at = (at + 1) & (room - 1))
            if (str_eq(entries[slots[at] - 1].key, key) || steps++ > 4 * count) return true;
        slots[at] = i + 1;
    }
    return false;
}

/* False: each has a name of its own. */
static bool has_doubles(builder *b, const node_entry *entries, uint32_t count)
{
    enum { FEW = 12 };
    if (count <= FEW) return few_have_doubles(entries, count);
    const arena_mark mark = arena_here(b->scratch);
    const bool may = may_have_doubles(b, entries, count);
    arena_back_to(b->scratch, mark);
    return may;
}

/* The first of each name stays. */
static uint32_t without_doubles(builder *b, node_entry *entries, uint32_t count)
{
    if (count < 2 || !has_doubles(b, entries, count)) return count;
    arena_mark mark = arena_here(b->scratch);
    keyed *sorted = ARENA_ARRAY(b->scratch, keyed, count);
    bool *gone = ARENA_ARRAY(b->scratch, bool, count);
    for (uint32_t i = 0; i < count; i++)
        sorted[i] = (keyed){str_head(entries[i].key), entries[i].key, i};
    SORT(sorted, count, by_key);
    uint32_t first = 0, kept = 0;
    for (uint32_t i = 1; i < count; i++) {
        if (!str_eq(sorted[i].key, sorted[first].key)) {
            first = i;
            continue;
        }
        gone[sorted[i].position] = true;
        report_twice(b, &entries[sorted[first].position], &entries[sorted[i].position]);
    }
    for (uint32_t i = 0; i < count; i++)
        if (!gone[i]) entries[kept++] = entries[i];
    assert(kept > 0 && kept <= count);
    arena_back_to(b->scratch, mark);
    return kept;
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

static uint32_t letters_of(const node_entry *entries, uint32_t count)
{
    uint32_t letters = 0;
    for (uint32_t i = 0; i < count; i++)
        if (entries[i].key.n > 0) letters |= letter_bit(entries[i].key.p[0]);
    return letters;
}

static const node *build_map(builder *b, const event *e, bool in_flow)
{
    assert(e->kind == EVENT_MAP_START && e->children % 2 == 0);
    node *n = ARENA_NEW(b->keep, node);
    node_entry *entries = ARENA_ARRAY(b->keep, node_entry, e->children / 2);
    uint32_t count = 0, start = check_properties(b, e), end = start + 1;
    for (uint32_t i = 0; i < e->children / 2; i++) {
        node_entry entry = {0};
        bool good = take_key(b, &entry);
        entry.value = good ? take_value(b, e, &entry) : refused_value(b, e);
        if (entry.value != NULL && entry.value->at.end > end) end = entry.value->at.end;
        if (good) entries[count++] = entry;
    }
    const event *closing = take(b);
    assert(closing->kind == EVENT_MAP_END);
    if (e->style == STYLE_FLOW && closing->end > end) end = closing->end;
    span at = {b->file, start, end};
    count = without_doubles(b, entries, count);
    check_flow_values(b, entries, count, at);
    *n = (node){.kind = NODE_MAP,
                .style = e->style,
                .in_flow = in_flow,
                .at = at,
                .count = count,
                .letters = letters_of(entries, count),
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
    builder b = {
        .keep = keep, .scratch = scratch, .source = s, .file = file, .seen = seen, .list = list};
    assert(keep != scratch && seen->stop == STOP_AT_END);
    if (seen->count == 0) return NULL;
    const event *first = coming(&b);
    if (is_absent(first) && !first->anchored && !first->tagged) return NULL;
    const node *root = build_node(&b, false);
    assert(b.next == b.piece_end && b.pieces * (uint64_t)EVENTS_PIECE >= seen->count);
    return root;
}
