/* What all that explains syntax errors needs: places, and the words for quotes. */
#include <assert.h>

#include "load/lines.h"
#include "load/syntax.h"

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
