/* Brackets that do not fit, and lines that stand where nothing can stand. */
#include <assert.h>
#include <string.h>

#include "load/lines.h"
#include "load/syntax.h"

/* ---- brackets ---- */

static uint32_t opening_of(const syntax *x, const event *closing)
{
    assert(closing->kind == EVENT_LIST_END || closing->kind == EVENT_MAP_END);
    uint32_t at = x->seen->count;
    do {
        assert(at > 0);
        at--;
    } while (event_at(x->seen, at) != closing);
    const event *e = closing;
    for (uint32_t depth = 1; depth > 0;) {
        assert(at > 0);
        e = event_at(x->seen, --at);
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
    fault *f = fault_add(x->list, FAULT_BRACKET_OPEN, (span){x->file, x->at, x->at + 1},
                         "This '%c' closes nothing", byte_at(x, x->at));
    fault_help(x->list, f, "delete it, or add the bracket that it should close");
}

static void report_text_like_map(const syntax *x, uint32_t opening)
{
    span at = to_line_end(x, opening);
    bool brace = byte_at(x, opening) == '{';
    fault *f = fault_add(x->list, FAULT_TEXT_LIKE_MAP, at,
                         "What begins with '%c' is a %s, and nothing can follow its end",
                         byte_at(x, opening), brace ? "map" : "list");
    help_quotes(x, f, "if it is a sentence, ", text_at(x, at));
}

static void report_open_bracket(const syntax *x)
{
    span at = {x->file, x->context, x->context + 1};
    fault *f = fault_add(x->list, FAULT_BRACKET_OPEN, at, "This '%c' is opened and never closed",
                         byte_at(x, x->context));
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
    fault *f = fault_add(x->list, FAULT_MISSING_COMMA, to_line_end(x, start),
                         "There is no comma before this");
    fault_help(x->list, f, "write a comma between two entries; a sentence can't stand inside %s",
               byte_at(x, x->context) == '{' ? "{ }" : "[ ]");
}

static void report_colon_in_flow(const syntax *x, const event *text)
{
    uint32_t end = text->end;
    while (end < line_end_trimmed(x->bytes, text->start) && byte_at(x, end) != ',' &&
           !is_closing(byte_at(x, end)))
        end++;
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, (span){x->file, text->start, end},
                         "A colon and a space inside a text would begin a second value");
    fault_help(
        x->list, f,
        "write a comma before the next key; a sentence goes on a line of its own, in quotes");
}

/* Inside brackets neither a comma nor the end came. A line that stands as far left as the one with
 * the bracket was not meant to be inside. */
void explain_flow(const syntax *x)
{
    uint32_t at = next_character(x->bytes, x->at);
    const event *e = last_read(x);
    char c = byte_at(x, at);
    bool other_line = crosses_line(x->bytes, x->context, at);
    bool left = other_line && indentation(x->bytes, at) <= indentation(x->bytes, x->context);
    if (c == '\0' || left)
        report_open_bracket(x);
    else if (is_closing(c))
        report_wrong_bracket(x);
    else if (c != ':' || e == NULL)
        report_missing_comma(x, at);
    else if (crosses_line(x->bytes, e->start, at))
        report_missing_comma(x, line_content(x->bytes, at));
    else
        report_colon_in_flow(x, e);
}

static void report_no_key(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_KEY_NOT_TEXT, to_line_end(x, x->at),
                         "A value stands here without a key");
    fault_help(x->list, f, "write a word before the colon");
}

void explain_node(const syntax *x)
{
    char c = byte_at(x, x->at);
    bool in_flow = strstr(x->seen->while_doing, "flow") != NULL;
    if (c == '\0')
        explain_otherwise(x);
    else if (c == ':')
        report_no_key(x);
    else if (!in_flow && (c == ',' || is_closing(c)))
        report_sign(x, x->at);
    else if (is_closing(c))
        report_extra_bracket(x);
    else if (c == ',') {
        fault *f = fault_add(x->list, FAULT_MISSING_COMMA, (span){x->file, x->at, x->at + 1},
                             "There is nothing before this comma");
        fault_help(x->list, f, "delete it");
    } else
        report_sign(x, x->at);
}

/* ---- lines that fit nowhere ---- */

static void report_after_flow(const syntax *x, const event *closing)
{
    if (is_closing(byte_at(x, x->at)))
        report_extra_bracket(x);
    else
        report_text_like_map(x, opening_of(x, closing));
}

static void report_same_line(const syntax *x, const event *e)
{
    bool flow_end = e->kind == EVENT_LIST_END || e->kind == EVENT_MAP_END;
    bool quoted = e->kind == EVENT_TEXT && (e->style == STYLE_SINGLE || e->style == STYLE_DOUBLE);
    if (flow_end)
        report_after_flow(x, e);
    else if (quoted)
        report_after_quote(x, e);
    else if (e->kind == EVENT_ALIAS)
        report_sign(x, e->start);
    else
        explain_otherwise(x);
}

/* Begins a line, at the same column as the entries around it, but is no such entry. */
static void report_other_kind(const syntax *x, bool in_list)
{
    span at = to_line_end(x, x->at);
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, at,
                         in_list ? "A key stands here among the items of a list"
                                 : "A list item stands here among the keys of a map");
    fault_note_at(x->list, f, to_line_end(x, x->context),
                  in_list ? "the list begins here" : "the map begins here");
    fault_help(x->list, f, "%s",
               in_list
                   ? "begin the line with '- ', or indent the list below a key"
                   : "indent the list below the key it belongs to; that key has no other value");
}

static void report_indentation(const syntax *x, bool in_list)
{
    uint32_t around = x->context;
    if (*x->seen->while_doing == '\0' && x->seen->count > 0) around = event_at(x->seen, 0)->start;
    uint32_t here = source_place(x->source, x->at).column - 1,
             there = source_place(x->source, around).column - 1;
    fault *f = fault_add(x->list, FAULT_BAD_INDENTATION, to_line_end(x, x->at),
                         "This line is indented by %u, which is neither the %u of the %s it stands "
                         "in nor that of another one",
                         here, there, in_list ? "list" : "map");
    fault_note_at(x->list, f, to_line_end(x, around), "the %s begins here",
                  in_list ? "list" : "map");
    fault_help(x->list, f,
               "indent all entries of one %s alike, and more of a text deeper than its key",
               in_list ? "list" : "map");
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
    fault *f =
        fault_add(x->list, FAULT_BAD_INDENTATION, to_line_end(x, x->at),
                  "This line can't be more of the text above it, which ended before its '#'");
    fault_note_at(x->list, f, (span){x->file, text->start, text->end}, "this is the whole text");
    fault_help(x->list, f,
               "from ' #' on all is a comment: put the whole text in quotes, or the comment on a "
               "line of its own "
               "above the text");
}

void explain_place(const syntax *x)
{
    const event *e = last_read(x);
    char c = byte_at(x, x->at);
    bool in_list = strstr(x->seen->while_doing, "collection") != NULL;
    bool beside = *x->seen->while_doing != '\0' &&
                  column_of(x->bytes, x->at) == column_of(x->bytes, x->context);
    if (e != NULL && !crosses_line(x->bytes, e->end, x->at)) {
        if (e->end > 0 && e->kind != EVENT_LIST_START && e->kind != EVENT_MAP_START) {
            report_same_line(x, e);
            return;
        }
    }
    if (c == ':')
        report_no_key(x);
    else if (is_closing(c))
        report_extra_bracket(x);
    else if (ended_by_comment(x, e))
        report_cut_text(x, e);
    else if (beside && (in_list || c == '-'))
        report_other_kind(x, in_list);
    else
        report_indentation(x, in_list);
}

void explain_second_document(const syntax *x)
{
    uint32_t line = line_start(x->bytes, x->at);
    uint32_t before = line == 0 ? 0 : line_start(x->bytes, line - 1);
    if (!str_starts(str_slice(x->bytes, before, x->bytes.n), "...")) {
        explain_place(x);
        return;
    }
    fault *f = fault_add(x->list, FAULT_SECOND_DOCUMENT, to_line_end(x, before),
                         "'...' ends the file's one document, but more follows");
    fault_help(x->list, f, "delete this line, or put what follows into a file of its own");
}
