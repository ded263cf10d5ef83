/* The parser tells what it expected next. A person who writes rules wants to know what to write
 * instead, so each of its complaints is taken for the mistake that most often lies behind it, at
 * the place where the mistake was made. */
#include "load/syntax.h"

#include <assert.h>

#include "load/checks.h"

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
