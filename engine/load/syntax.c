/* The parser tells what it expected next. A person who writes rules wants to know what to write instead, so each of its
 * complaints is taken for the mistake that most often lies behind it, at the place where the mistake was made. */
#include <assert.h>
#include <string.h>

#include "load/checks.h"
#include "load/lines.h"

typedef struct syntax {
    str bytes;
    const source *source;
    uint32_t file;
    const events *seen;
    uint32_t at, context;
    faults *list;
} syntax;

enum { QUOTED_SHOWN_MAX = 70 }; /* longer texts are not repeated in the help */

static span to_line_end(const syntax *x, uint32_t start)
{
    return (span){x->file, start, line_end_trimmed(x->bytes, start)};
}

static str text_at(const syntax *x, span at)
{
    return str_slice(x->bytes, at.start, at.end);
}

static char byte_at(const syntax *x, uint32_t i)
{
    return i < x->bytes.n ? x->bytes.p[i] : '\0';
}

/* "put the text in quotes", with the text if it is short; `lead` goes before. */
static void help_quotes(const syntax *x, fault *f, const char *lead, str text)
{
    bool has_double = str_find_byte(text, '"') != SIZE_MAX || str_find_byte(text, '\\') != SIZE_MAX;
    bool has_single = str_find_byte(text, '\'') != SIZE_MAX;
    bool shown = text.n <= QUOTED_SHOWN_MAX && str_find_byte(text, '\n') == SIZE_MAX;
    if (shown && !has_double) fault_help(x->list, f, "%sput the whole text in quotes: \"%.*s\"", lead, STR_ARG(text));
    else if (shown && !has_single) fault_help(x->list, f, "%sput the whole text in quotes: '%.*s'", lead, STR_ARG(text));
    else fault_help(x->list, f, "%sput the whole text in quotes", lead);
}

static void explain_otherwise(const syntax *x)
{
    uint32_t start = x->at < x->bytes.n ? x->at : last_character(x->bytes, (uint32_t)x->bytes.n);
    fault *f = fault_add(x->list, FAULT_NOT_YAML, to_line_end(x, start), "This can't be understood (the parser: %s%s%s)",
                         x->seen->while_doing, *x->seen->while_doing == '\0' ? "" : ", ", x->seen->problem);
    fault_help(x->list, f, "look at this line and the one above for a colon, quote or bracket that is missing");
}

/* The last thing read: ends of block lists and maps have no bytes of their own. */
static const event *last_read(const syntax *x)
{
    for (uint32_t i = x->seen->count; i > 0; i--) {
        const event *e = &x->seen->items[i - 1];
        bool block_end = (e->kind == EVENT_LIST_END || e->kind == EVENT_MAP_END) && e->start == e->end;
        if (!block_end) return e;
    }
    return NULL;
}

/* ---- colons ---- */

static void report_missing_colon(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    at.end = comment_start(x->bytes, at.start, at.end);
    str line = text_at(x, at);
    size_t colon = str_find_byte(line, ':'), blank = str_find_byte(line, ' ');
    fault *f;
    if (colon != SIZE_MAX && colon > 0 && colon + 1 < line.n && (blank == SIZE_MAX || colon < blank)) {
        f = fault_add(x->list, FAULT_MISSING_COLON, at, "There is no space after the colon");
        fault_help(x->list, f, "write '%.*s: %.*s'", (int)colon, line.p, STR_ARG(str_slice(line, colon + 1, line.n)));
        return;
    }
    size_t word = blank == SIZE_MAX ? line.n : blank;
    f = fault_add(x->list, FAULT_MISSING_COLON, at, "There is no colon after '%.*s'", (int)word, line.p);
    str rest = str_trim(str_slice(line, word, line.n));
    if (rest.n == 0) fault_help(x->list, f, "write '%.*s:'", STR_ARG(line));
    else fault_help(x->list, f, "write '%.*s: %.*s'; if the line is more of the text above it, indent it deeper",
                    (int)word, line.p, STR_ARG(rest));
}

static void report_colon_in_text(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, at, "A colon and a space inside a text would begin a second value");
    help_quotes(x, f, "", text_at(x, at));
}

static void report_deeper_line(const syntax *x)
{
    span at = to_line_end(x, line_content(x->bytes, x->at));
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, at,
                         "This line is indented deeper than the one above it, which has its value already");
    fault_help(x->list, f, "indent it like the line above; if it is more of that text, put the whole text in quotes");
}

static void report_colon_in_lines(const syntax *x, const event *text)
{
    span at = to_line_end(x, line_content(x->bytes, x->at));
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, at,
                         "This line is read as more of the text above it, and a text can't hold a colon and a space");
    fault_note_at(x->list, f, (span){x->file, text->start, text->end}, "the text begins here");
    fault_help(x->list, f, "put the whole text in quotes, or indent the line like the key it stands beside");
}

static void report_lone_colon(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_KEY_NOT_TEXT, (span){x->file, x->at, x->at + 1}, "There is no key before this colon");
    fault_help(x->list, f, "delete it, or give the key and its value a line of their own");
}

static void explain_no_space(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_MISSING_COLON, (span){x->file, x->at, x->at + 1}, "There is no space after the colon");
    fault_help(x->list, f, "write ': ' between a key and its value");
}

/* "mapping values are not allowed": a second ': ' where only one can be. */
static void explain_colon(const syntax *x)
{
    const event *e = last_read(x);
    if (e == NULL || e->kind != EVENT_TEXT || e->end > x->at) {
        report_lone_colon(x);
        return;
    }
    uint32_t content = line_content(x->bytes, e->start);
    if (!crosses_line(x->bytes, e->start, x->at)) report_colon_in_text(x, e->start);
    else if (content == e->start) report_missing_colon(x, e->start);
    else if (byte_at(x, content) == '-' && item_content(x->bytes, content) == e->start) report_colon_in_lines(x, e);
    else report_deeper_line(x);
}

static void explain_missing_colon(const syntax *x)
{
    report_missing_colon(x, x->context);
}

/* ---- signs and tabs ---- */

static void report_tab(const syntax *x, uint32_t start)
{
    uint32_t end = start;
    while (byte_at(x, end) == '\t' || byte_at(x, end) == ' ') end++;
    fault *f = fault_add(x->list, FAULT_TAB_INDENT, (span){x->file, start, end}, "A tab can't indent a line");
    fault_help(x->list, f, "use spaces; most editors can write spaces when the tab key is pressed");
}

static void report_sign(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    fault *f = fault_add(x->list, FAULT_LEADING_SIGN, at, "A text can't begin with '%c'", byte_at(x, start));
    bool greater = byte_at(x, start) == '>';
    help_quotes(x, f, greater ? "for a comparison write 'above' or 'at least'; for a text, " : "", text_at(x, at));
}

static void explain_token(const syntax *x)
{
    if (byte_at(x, x->at) == '\t') report_tab(x, x->at);
    else report_sign(x, x->at);
}

static void explain_tab(const syntax *x)
{
    uint32_t start = line_start(x->bytes, x->at);
    while (byte_at(x, start) == ' ') start++;
    report_tab(x, start);
}

static void explain_sign(const syntax *x)
{
    report_sign(x, x->at);
}

static void explain_context_sign(const syntax *x)
{
    report_sign(x, x->context);
}

static void explain_dash(const syntax *x)
{
    span at = to_line_end(x, x->at);
    bool own_line = line_content(x->bytes, x->at) == x->at;
    fault *f = fault_add(x->list, own_line ? FAULT_BAD_INDENTATION : FAULT_LEADING_SIGN, at,
                         "A list can't begin here");
    if (own_line) fault_help(x->list, f, "indent the '-' like the other items, below the key that has no value of its own");
    else help_quotes(x, f, "give each item of a list a line of its own, below the key; for a text, ", text_at(x, at));
}

/* ---- quotes ---- */

static void explain_open_quote(const syntax *x)
{
    bool single = byte_at(x, x->context) == '\'';
    fault *f = fault_add(x->list, FAULT_QUOTE_OPEN, to_line_end(x, x->context), "This quote is opened and never closed");
    if (single) fault_help(x->list, f, "close it with another '; a text that begins with an apostrophe goes into double quotes");
    else fault_help(x->list, f, "close it with another \"; a \" inside the text is written \\\"");
}

static void explain_escape(const syntax *x)
{
    if (byte_at(x, x->context + 1) == '/') {
        fault *f = fault_add(x->list, FAULT_PATTERN_IN_QUOTES, to_line_end(x, x->context),
                             "A backslash in double quotes does not reach the pattern as it stands");
        fault_help(x->list, f, "write the pattern without quotes, or in single quotes");
        return;
    }
    uint32_t start = x->at; /* of a character's number the parser names what is behind \u */
    while (start > x->context && byte_at(x, start) != '\\') start--;
    char kind = byte_at(x, start + 1);
    span at = {x->file, start, character_end(x->bytes, start + 1)};
    bool number = kind == 'u' || kind == 'U' || kind == 'x';
    if (number) at.end = escape_end(x->bytes, at.end);
    fault *f = fault_add(x->list, FAULT_BAD_ESCAPE, at, "'%.*s' is no character in double quotes", STR_ARG(text_at(x, at)));
    fault_help(x->list, f, "%s", number ? "write the character itself"
                                        : "use single quotes, in which a backslash is a backslash, or write \\\\");
}

static void report_after_quote(const syntax *x, const event *quoted)
{
    if (crosses_line(x->bytes, quoted->start, quoted->end)) {
        span opening = to_line_end(x, quoted->start);
        fault *f = fault_add(x->list, FAULT_QUOTE_OPEN, opening, "This quote is closed only some lines below");
        fault_note_at(x->list, f, (span){x->file, quoted->end - 1, quoted->end}, "it is closed here");
        fault_help(x->list, f, "close the quote on its own line; a text that begins with an apostrophe goes into double quotes");
        return;
    }
    fault *f = fault_add(x->list, FAULT_TEXT_AFTER_QUOTE, to_line_end(x, x->at), "Nothing can follow a closing quote");
    help_quotes(x, f, "", text_at(x, to_line_end(x, quoted->start)));
}

/* ---- brackets ---- */

static uint32_t opening_of(const syntax *x, const event *closing)
{
    const event *e = closing;
    for (uint32_t depth = 1; depth > 0;) {
        assert(e > x->seen->items);
        e--;
        if (e->kind == EVENT_LIST_END || e->kind == EVENT_MAP_END) depth++;
        if (e->kind == EVENT_LIST_START || e->kind == EVENT_MAP_START) depth--;
    }
    return e->start;
}

static bool is_closing(char c)
{
    return c == ']' || c == '}';
}

static void report_extra_bracket(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_BRACKET_OPEN, (span){x->file, x->at, x->at + 1}, "This '%c' closes nothing",
                         byte_at(x, x->at));
    fault_help(x->list, f, "delete it, or add the bracket that it should close");
}

static void report_text_like_map(const syntax *x, uint32_t opening)
{
    span at = to_line_end(x, opening);
    bool brace = byte_at(x, opening) == '{';
    fault *f = fault_add(x->list, FAULT_TEXT_LIKE_MAP, at, "What begins with '%c' is a %s, and nothing can follow its end",
                         byte_at(x, opening), brace ? "map" : "list");
    help_quotes(x, f, "if it is a sentence, ", text_at(x, at));
}

static void report_open_bracket(const syntax *x)
{
    span at = {x->file, x->context, x->context + 1};
    fault *f = fault_add(x->list, FAULT_BRACKET_OPEN, at, "This '%c' is opened and never closed", byte_at(x, x->context));
    fault_help(x->list, f, "close it with '%c'", byte_at(x, x->context) == '{' ? '}' : ']');
}

static void report_wrong_bracket(const syntax *x)
{
    char opening = byte_at(x, x->context);
    fault *f = fault_add(x->list, FAULT_BRACKET_OPEN, (span){x->file, x->at, x->at + 1},
                         "This '%c' can't close a '%c'", byte_at(x, x->at), opening);
    fault_note_at(x->list, f, (span){x->file, x->context, x->context + 1}, "it was opened here");
    fault_help(x->list, f, "write '%c'", opening == '{' ? '}' : ']');
}

static void report_missing_comma(const syntax *x, uint32_t start)
{
    fault *f = fault_add(x->list, FAULT_MISSING_COMMA, to_line_end(x, start), "There is no comma before this");
    fault_help(x->list, f, "write a comma between two entries; a sentence can't stand inside %s",
               byte_at(x, x->context) == '{' ? "{ }" : "[ ]");
}

static void report_colon_in_flow(const syntax *x, const event *text)
{
    uint32_t end = text->end;
    while (end < line_end_trimmed(x->bytes, text->start) && byte_at(x, end) != ',' && !is_closing(byte_at(x, end))) end++;
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, (span){x->file, text->start, end},
                         "A colon and a space inside a text would begin a second value");
    fault_help(x->list, f, "write a comma before the next key; a sentence goes on a line of its own, in quotes");
}

/* Inside brackets neither a comma nor the end came. A line that stands as far left as the one with the bracket was not
 * meant to be inside. */
static void explain_flow(const syntax *x)
{
    uint32_t at = next_character(x->bytes, x->at);
    const event *e = last_read(x);
    char c = byte_at(x, at);
    bool other_line = crosses_line(x->bytes, x->context, at);
    bool left = other_line && indentation(x->bytes, at) <= indentation(x->bytes, x->context);
    if (c == '\0' || left) report_open_bracket(x);
    else if (is_closing(c)) report_wrong_bracket(x);
    else if (c != ':' || e == NULL) report_missing_comma(x, at);
    else if (crosses_line(x->bytes, e->start, at)) report_missing_comma(x, line_content(x->bytes, at));
    else report_colon_in_flow(x, e);
}

static void report_no_key(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_KEY_NOT_TEXT, to_line_end(x, x->at), "A value stands here without a key");
    fault_help(x->list, f, "write a word before the colon");
}

static void explain_node(const syntax *x)
{
    char c = byte_at(x, x->at);
    bool in_flow = strstr(x->seen->while_doing, "flow") != NULL;
    if (c == '\0') explain_otherwise(x);
    else if (c == ':') report_no_key(x);
    else if (!in_flow && (c == ',' || is_closing(c))) report_sign(x, x->at);
    else if (is_closing(c)) report_extra_bracket(x);
    else if (c == ',') {
        fault *f = fault_add(x->list, FAULT_MISSING_COMMA, (span){x->file, x->at, x->at + 1}, "There is nothing before this comma");
        fault_help(x->list, f, "delete it");
    } else report_sign(x, x->at);
}

/* ---- lines that fit nowhere ---- */

static void report_after_flow(const syntax *x, const event *closing)
{
    if (is_closing(byte_at(x, x->at))) report_extra_bracket(x);
    else report_text_like_map(x, opening_of(x, closing));
}

static void report_same_line(const syntax *x, const event *e)
{
    bool flow_end = e->kind == EVENT_LIST_END || e->kind == EVENT_MAP_END;
    bool quoted = e->kind == EVENT_TEXT && (e->style == STYLE_SINGLE || e->style == STYLE_DOUBLE);
    if (flow_end) report_after_flow(x, e);
    else if (quoted) report_after_quote(x, e);
    else if (e->kind == EVENT_ALIAS) report_sign(x, e->start);
    else explain_otherwise(x);
}

/* Begins a line, at the same column as the entries around it, but is no such entry. */
static void report_other_kind(const syntax *x, bool in_list)
{
    span at = to_line_end(x, x->at);
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, at, in_list ? "A key stands here among the items of a list"
                                                                     : "A list item stands here among the keys of a map");
    fault_note_at(x->list, f, to_line_end(x, x->context), in_list ? "the list begins here" : "the map begins here");
    fault_help(x->list, f, "%s", in_list ? "begin the line with '- ', or indent the list below a key"
                                         : "indent the list below the key it belongs to; that key has no other value");
}

static void report_indentation(const syntax *x, bool in_list)
{
    uint32_t around = x->context;
    if (*x->seen->while_doing == '\0' && x->seen->count > 0) around = x->seen->items[0].start;
    uint32_t here = source_place(x->source, x->at).column - 1, there = source_place(x->source, around).column - 1;
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, to_line_end(x, x->at),
                         "This line is indented by %u, which is neither the %u of the %s it stands in nor that of another one",
                         here, there, in_list ? "list" : "map");
    fault_note_at(x->list, f, to_line_end(x, around), "the %s begins here", in_list ? "list" : "map");
    fault_help(x->list, f, "indent all entries of one %s alike, and more of a text deeper than its key", in_list ? "list" : "map");
}

/* A text that was cut off by ` #`, so that its next line fits nowhere. */
static bool ended_by_comment(const syntax *x, const event *e)
{
    if (e == NULL || e->kind != EVENT_TEXT || e->style != STYLE_PLAIN) return false;
    uint32_t sign = e->end;
    while (byte_at(x, sign) == ' ' || byte_at(x, sign) == '\t') sign++;
    return byte_at(x, sign) == '#' && column_of(x->bytes, x->at) > column_of(x->bytes, x->context);
}

static void report_cut_text(const syntax *x, const event *text)
{
    if (line_content(x->bytes, text->start) == text->start) {
        report_missing_colon(x, text->start);
        return;
    }
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, to_line_end(x, x->at),
                         "This line can't be more of the text above it, which ended before its '#'");
    fault_note_at(x->list, f, (span){x->file, text->start, text->end}, "this is the whole text");
    fault_help(x->list, f, "from ' #' on all is a comment: put the whole text in quotes, or the comment on a line of its own "
                           "above the text");
}

static void explain_place(const syntax *x)
{
    const event *e = last_read(x);
    char c = byte_at(x, x->at);
    bool in_list = strstr(x->seen->while_doing, "collection") != NULL;
    bool beside = *x->seen->while_doing != '\0' && column_of(x->bytes, x->at) == column_of(x->bytes, x->context);
    if (e != NULL && !crosses_line(x->bytes, e->end, x->at)) {
        if (e->end > 0 && e->kind != EVENT_LIST_START && e->kind != EVENT_MAP_START) {
            report_same_line(x, e);
            return;
        }
    }
    if (c == ':') report_no_key(x);
    else if (is_closing(c)) report_extra_bracket(x);
    else if (ended_by_comment(x, e)) report_cut_text(x, e);
    else if (beside && (in_list || c == '-')) report_other_kind(x, in_list);
    else report_indentation(x, in_list);
}

static void explain_second_document(const syntax *x)
{
    uint32_t line = line_start(x->bytes, x->at);
    uint32_t before = line == 0 ? 0 : line_start(x->bytes, line - 1);
    if (!str_starts(str_slice(x->bytes, before, x->bytes.n), "...")) {
        explain_place(x);
        return;
    }
    fault *f = fault_add(x->list, FAULT_SECOND_DOCUMENT, to_line_end(x, before), "'...' ends the file's one document, but more follows");
    fault_help(x->list, f, "delete this line, or put what follows into a file of its own");
}

/* ---- which is which ---- */

static const struct {
    const char *while_doing, *problem; /* how the parser's words begin */
    void (*explain)(const syntax *);
} complaints[] = {
    {"", "mapping values are not allowed", explain_colon},
    {"", "block sequence entries are not allowed", explain_dash},
    {"", "mapping keys are not allowed", explain_sign},
    {"while scanning a simple key", "could not find expected ':'", explain_missing_colon},
    {"while scanning for the next token", "found character that cannot start", explain_token},
    {"while scanning an alias", "", explain_context_sign},
    {"while scanning an anchor", "", explain_context_sign},
    {"while scanning a tag", "", explain_context_sign},
    {"while parsing a tag", "", explain_context_sign},
    {"", "found a tab character", explain_tab},
    {"while scanning a plain scalar", "found unexpected ':'", explain_no_space},
    {"while scanning a block scalar", "", explain_context_sign},
    {"while scanning a quoted scalar", "", explain_open_quote},
    {"while parsing a quoted scalar", "", explain_escape},
    {"while parsing a block mapping", "did not find expected key", explain_place},
    {"while parsing a block collection", "", explain_place},
    {"while parsing a flow", "did not find expected ','", explain_flow},
    {"", "did not find expected <document start>", explain_second_document},
    {"", "did not find expected node content", explain_node},
};

void report_syntax(const source *s, uint32_t file, const events *seen, faults *list)
{
    syntax x = {.bytes = s->bytes, .source = s, .file = file, .seen = seen, .list = list};
    x.at = seen->at;
    x.context = seen->context;
    assert(x.at <= s->bytes.n && x.context <= s->bytes.n);
    str doing = str_of(seen->while_doing), problem = str_of(seen->problem);
    for (size_t i = 0; i < sizeof complaints / sizeof *complaints; i++) {
        if (!str_starts(doing, complaints[i].while_doing) || !str_starts(problem, complaints[i].problem)) continue;
        complaints[i].explain(&x);
        return;
    }
    explain_otherwise(&x);
}
