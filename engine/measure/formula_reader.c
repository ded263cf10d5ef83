/* Reading a formula: errors, nodes, bytes. */
#include "measure/formula_reader.h"

#include <assert.h>

#include "measure/number.h"

/* ---- errors and nodes ---- */

formula_node *formula_fail(formula_reader *r, size_t from, size_t to, const char *what,
                           const char *help)
{
    assert(from <= to && to <= r->text.n);
    assert(what != NULL && help != NULL);
    if (!r->failed) *r->error = (formula_error){(uint32_t)from, (uint32_t)to, what, help};
    r->failed = true;
    return NULL;
}

const char *formula_say(formula_reader *r, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    str text = str_vprintf(r->keep, format, arguments);
    va_end(arguments);
    return text.p;
}

formula_node *formula_new(formula_reader *r, formula_kind kind, size_t from, size_t to)
{
    assert(from <= to && to <= r->text.n);
    formula_node *n = ARENA_NEW(r->keep, formula_node);
    n->kind = kind;
    n->from = (uint32_t)from;
    n->to = (uint32_t)to;
    n->in = unit_none;
    return n;
}

/* ---- bytes ---- */

bool formula_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool formula_digit(char c)
{
    return c >= '0' && c <= '9';
}

char formula_byte(const formula_reader *r, size_t at)
{
    return at < r->text.n ? r->text.p[at] : 0;
}

size_t formula_skip(const formula_reader *r, size_t at)
{
    while (formula_space(formula_byte(r, at))) at++;
    return at;
}

str formula_text(const formula_reader *r, size_t from, size_t to)
{
    return str_slice(r->text, from, to);
}

str formula_joined(arena *keep, str text)
{
    char *copy = arena_take(keep, text.n + 1);
    size_t used = 0;
    for (size_t i = 0; i < text.n; i++) {
        bool space = formula_space(text.p[i]);
        if (space && used > 0 && copy[used - 1] == ' ') continue;
        copy[used++] = space ? ' ' : text.p[i];
    }
    assert(used <= text.n);
    return str_trim((str){copy, used});
}

bool formula_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

size_t formula_word_end(const formula_reader *r, size_t at)
{
    if (!formula_letter(formula_byte(r, at))) return at;
    char c = formula_byte(r, at);
    while (formula_letter(c) || formula_digit(c) || c == '-' || c == '_') c = formula_byte(r, ++at);
    return at;
}

bool formula_amount_begins(const formula_reader *r, size_t at)
{
    return formula_byte(r, at) != ',' && number_begins(formula_text(r, at, r->text.n));
}
