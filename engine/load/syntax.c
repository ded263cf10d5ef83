/* The parser tells what it expected next. A person who writes rules wants to know what to write
 * instead, so each of its complaints is taken for the mistake that most often lies behind it, at
 * the place where the mistake was made. */
#include "load/syntax.h"

#include <assert.h>

#include "load/checks.h"
#include "load/lines.h"

enum { QUOTED_SHOWN_MAX = 70 }; /* longer texts are not repeated in the help */

span to_line_end(const syntax *x, uint32_t start)
{
    return (span){x->file, start, line_end_trimmed(x->bytes, start)};
}

str text_at(const syntax *x, span at)
{
    assert(at.file == x->file && at.start <= at.end && at.end <= x->bytes.n);
    return str_slice(x->bytes, at.start, at.end);
}

char byte_at(const syntax *x, uint32_t i)
{
    return i < x->bytes.n ? x->bytes.p[i] : '\0';
}

/* "put the text in quotes", with the text if it is short; `lead` goes before. */
void help_quotes(const syntax *x, fault *f, const char *lead, str text)
{
    bool has_double = str_find_byte(text, '"') != SIZE_MAX || str_find_byte(text, '\\') != SIZE_MAX;
    bool has_single = str_find_byte(text, '\'') != SIZE_MAX;
    bool shown = text.n <= QUOTED_SHOWN_MAX && str_find_byte(text, '\n') == SIZE_MAX;
    if (shown && !has_double)
        fault_help(x->list, f, "%sput the whole text in quotes: \"%.*s\"", lead, STR_ARG(text));
    else if (shown && !has_single)
        fault_help(x->list, f, "%sput the whole text in quotes: '%.*s'", lead, STR_ARG(text));
    else
        fault_help(x->list, f, "%sput the whole text in quotes", lead);
}

void explain_otherwise(const syntax *x)
{
    uint32_t start = x->at < x->bytes.n ? x->at : last_character(x->bytes, (uint32_t)x->bytes.n);
    fault *f = fault_add(x->list, FAULT_NOT_YAML, to_line_end(x, start),
                         "This can't be understood (the parser: %s%s%s)", x->seen->while_doing,
                         *x->seen->while_doing == '\0' ? "" : ", ", x->seen->problem);
    fault_help(x->list, f,
               "look at this line and the one above for a colon, quote or bracket that is missing");
}

/* The last thing read: ends of block lists and maps have no bytes of their own. */
const event *last_read(const syntax *x)
{
    for (uint32_t i = x->seen->count; i > 0; i--) {
        const event *e = event_at(x->seen, i - 1);
        bool block_end =
            (e->kind == EVENT_LIST_END || e->kind == EVENT_MAP_END) && e->start == e->end;
        if (!block_end) return e;
    }
    return NULL;
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
        if (!str_starts(doing, complaints[i].while_doing) ||
            !str_starts(problem, complaints[i].problem))
            continue;
        complaints[i].explain(&x);
        return;
    }
    explain_otherwise(&x);
}
