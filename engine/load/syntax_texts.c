/* Colons, signs and quotes in the wrong place. */
#include "load/lines.h"
#include "load/syntax.h"

/* ---- colons ---- */

/* The line above it is an item of a list, indented alike. */
static bool follows_item(const syntax *x, uint32_t start)
{
    const uint32_t line = line_start(x->bytes, start);
    if (line == 0 || line_content(x->bytes, line) != start) return false;
    const uint32_t above = line_start(x->bytes, line - 1), content = line_content(x->bytes, above);
    return content - above == start - line && byte_at(x, content) == '-' &&
           byte_at(x, content + 1) == ' ';
}

void report_missing_colon(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    at.end = comment_start(x->bytes, at.start, at.end);
    str line = text_at(x, at);
    size_t colon = str_find_byte(line, ':'), blank = str_find_byte(line, ' ');
    fault *f;
    if (colon != SIZE_MAX && colon > 0 && colon + 1 < line.n &&
        (blank == SIZE_MAX || colon < blank)) {
        f = fault_add(x->list, FAULT_MISSING_COLON, at, "There is no space after the colon");
        fault_help(x->list, f, "write '%.*s: %.*s'", (int)colon, line.p,
                   STR_ARG(str_slice(line, colon + 1, line.n)));
        return;
    }
    const bool dash = line.n > 1 && line.p[0] == '-' && line.p[1] != ' ' && line.p[1] != '-';
    if (dash || follows_item(x, start)) {
        const str item = dash ? str_slice(line, 1, line.n) : line;
        f = fault_add(x->list, FAULT_MISSING_COLON, at,
                      dash ? "There is no space after the dash"
                           : "There is no dash before this item of a list");
        fault_help(x->list, f, "write '- %.*s'", STR_ARG(item));
        return;
    }
    size_t word = blank == SIZE_MAX ? line.n : blank;
    f = fault_add(x->list, FAULT_MISSING_COLON, at, "There is no colon after '%.*s'", (int)word,
                  line.p);
    str rest = str_trim(str_slice(line, word, line.n));
    if (rest.n == 0)
        fault_help(x->list, f, "write '%.*s:'", STR_ARG(line));
    else
        fault_help(x->list, f,
                   "write '%.*s: %.*s'; if the line is more of the text above it, indent it deeper",
                   (int)word, line.p, STR_ARG(rest));
}

void report_colon_in_text(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, at,
                         "A colon and a space inside a text would begin a second value");
    str text = str_trim(text_at(x, at));
    const bool round = text.n > 2 && text.p[0] == '(' && text.p[text.n - 1] == ')';
    if (round)
        fault_help(x->list, f, "a map stands in { }: write '{%.*s}'; if it is a text, in quotes",
                   STR_ARG(str_slice(text, 1, text.n - 1)));
    else
        help_quotes(x, f, "", text_at(x, at));
}

static void report_deeper_line(const syntax *x)
{
    span at = to_line_end(x, line_content(x->bytes, x->at));
    fault *f = fault_add(
        x->list, FAULT_BAD_INDENTATION, at,
        "This line is indented deeper than the one above it, which has its value already");
    fault_help(
        x->list, f,
        "indent it like the line above; if it is more of that text, put the whole text in quotes");
}

static void report_colon_in_lines(const syntax *x, const event *text)
{
    span at = to_line_end(x, line_content(x->bytes, x->at));
    fault *f = fault_add(x->list, FAULT_COLON_IN_TEXT, at,
                         "This line is read as more of the text above it, and a text can't hold a "
                         "colon and a space");
    fault_note_at(x->list, f, (span){x->file, text->start, text->end}, "the text begins here");
    fault_help(x->list, f,
               "put the whole text in quotes, or indent the line like the key it stands beside");
}

static void report_lone_colon(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_KEY_NOT_TEXT, (span){x->file, x->at, x->at + 1},
                         "There is no key before this colon");
    fault_help(x->list, f, "delete it, or give the key and its value a line of their own");
}

void explain_no_space(const syntax *x)
{
    fault *f = fault_add(x->list, FAULT_MISSING_COLON, (span){x->file, x->at, x->at + 1},
                         "There is no space after the colon");
    fault_help(x->list, f, "write ': ' between a key and its value");
}

/* "mapping values are not allowed": a second ': ' where only one can be. */
void explain_colon(const syntax *x)
{
    const event *e = last_read(x);
    if (e == NULL || e->kind != EVENT_TEXT || e->end > x->at) {
        report_lone_colon(x);
        return;
    }
    uint32_t content = line_content(x->bytes, e->start);
    if (!crosses_line(x->bytes, e->start, x->at))
        report_colon_in_text(x, e->start);
    else if (content == e->start)
        report_missing_colon(x, e->start);
    else if (byte_at(x, content) == '-' && item_content(x->bytes, content) == e->start)
        report_colon_in_lines(x, e);
    else
        report_deeper_line(x);
}

void explain_missing_colon(const syntax *x)
{
    report_missing_colon(x, x->context);
}

/* ---- signs and tabs ---- */

static void report_tab(const syntax *x, uint32_t start)
{
    uint32_t end = start;
    while (byte_at(x, end) == '\t' || byte_at(x, end) == ' ') end++;
    fault *f = fault_add(x->list, FAULT_TAB_INDENT, (span){x->file, start, end},
                         "A tab can't indent a line");
    fault_help(x->list, f, "use spaces; most editors can write spaces when the tab key is pressed");
}

void report_sign(const syntax *x, uint32_t start)
{
    span at = to_line_end(x, start);
    fault *f = fault_add(x->list, FAULT_LEADING_SIGN, at, "A text can't begin with '%c'",
                         byte_at(x, start));
    bool greater = byte_at(x, start) == '>';
    str text = text_at(x, at);
    size_t digits = 1;
    while (digits < text.n && ((text.p[digits] >= '0' && text.p[digits] <= '9') ||
                               text.p[digits] == '.' || text.p[digits] == ' '))
        digits++;
    const str number = str_trim(str_slice(text, 1, digits));
    if (byte_at(x, start) == '%' && number.n > 0)
        fault_help(x->list, f, "write the sign after the number: '%.*s %%'", STR_ARG(number));
    else
        help_quotes(x, f,
                    greater ? "for a comparison write 'above' or 'at least'; for a text, " : "",
                    text_at(x, at));
}

void explain_token(const syntax *x)
{
    if (byte_at(x, x->at) == '\t')
        report_tab(x, x->at);
    else
        report_sign(x, x->at);
}

void explain_tab(const syntax *x)
{
    uint32_t start = line_start(x->bytes, x->at);
    while (byte_at(x, start) == ' ') start++;
    report_tab(x, start);
}

void explain_sign(const syntax *x)
{
    report_sign(x, x->at);
}

void explain_context_sign(const syntax *x)
{
    report_sign(x, x->context);
}

void explain_dash(const syntax *x)
{
    span at = to_line_end(x, x->at);
    fault *f = fault_add(x->list, FAULT_LEADING_SIGN, at, "A list can't begin here");
    help_quotes(x, f, "give each item of a list a line of its own, below the key; for a text, ",
                text_at(x, at));
}

/* ---- quotes ---- */

void explain_open_quote(const syntax *x)
{
    bool single = byte_at(x, x->context) == '\'';
    fault *f = fault_add(x->list, FAULT_QUOTE_OPEN, to_line_end(x, x->context),
                         "This quote is opened and never closed");
    if (single)
        fault_help(x->list, f,
                   "close it with another '; a text that begins with an apostrophe goes into "
                   "double quotes");
    else
        fault_help(x->list, f, "close it with another \"; a \" inside the text is written \\\"");
}

void explain_escape(const syntax *x)
{
    if (byte_at(x, x->context + 1) == '/') {
        fault *f =
            fault_add(x->list, FAULT_PATTERN_IN_QUOTES, to_line_end(x, x->context),
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
    fault *f = fault_add(x->list, FAULT_BAD_ESCAPE, at, "'%.*s' is no character in double quotes",
                         STR_ARG(text_at(x, at)));
    fault_help(x->list, f, "%s",
               number ? "write the character itself"
                      : "use single quotes, in which a backslash is a backslash, or write \\\\");
}

void report_after_quote(const syntax *x, const event *quoted)
{
    if (crosses_line(x->bytes, quoted->start, quoted->end)) {
        span opening = to_line_end(x, quoted->start);
        fault *f = fault_add(x->list, FAULT_QUOTE_OPEN, opening,
                             "This quote is closed only some lines below");
        fault_note_at(x->list, f, (span){x->file, quoted->end - 1, quoted->end},
                      "it is closed here");
        fault_help(x->list, f,
                   "close the quote on its own line; a text that begins with an apostrophe goes "
                   "into double quotes");
        return;
    }
    fault *f = fault_add(x->list, FAULT_TEXT_AFTER_QUOTE, to_line_end(x, x->at),
                         "Nothing can follow a closing quote");
    help_quotes(x, f, "", text_at(x, to_line_end(x, quoted->start)));
}
