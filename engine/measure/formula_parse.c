/* Recursive descent; the grammar stands in formula.h. */
#include "measure/formula_reader.h"

#include <assert.h>

#include "base/grow.h"

static formula_node *read_sum(formula_reader *r);

static bool at_end(const formula_reader *r)
{
    return r->at >= r->text.n;
}

/* ---- names ---- */

static void add_subject(formula_reader *r, uint32_t subject)
{
    for (uint32_t i = 0; i < r->subject_count; i++)
        if (r->subjects[i] == subject) return;
    GROW(r->keep, r->subjects, r->subject_count, r->subject_room);
    r->subjects[r->subject_count++] = subject;
}

static formula_node *input_node(formula_reader *r, const formula_input *input, size_t from,
                                size_t to)
{
    formula_node *n = formula_new(r, FORMULA_INPUT, from, to);
    n->subject = input->subject;
    n->in = input->in;
    n->type = (value_type){input->in.dim, input->in.form == UNIT_SCALE};
    add_subject(r, input->subject);
    return n;
}

/* A name that is not known fits everything, so that every such name of a formula is told in one go.
 */
static formula_node *open_node(formula_reader *r, size_t from, size_t to)
{
    formula_node *n = formula_new(r, FORMULA_NUMBER, from, to);
    n->open = true;
    return n;
}

static bool find(formula_reader *r, size_t from, size_t to, const formula_input **inputs,
                 uint32_t *count)
{
    assert(from < to && to <= r->text.n);
    str name = formula_joined(r->keep, formula_text(r, from, to));
    *inputs = NULL;
    *count = 0;
    bool found = r->look_up(r->context, name, (uint32_t)from, (uint32_t)to, inputs, count);
    assert(!found || *count == 0 || *inputs != NULL);
    r->told = r->told || !found;
    return found;
}

static formula_node *bad_name(formula_reader *r, size_t from, size_t to)
{
    unit u;
    str bad, word = formula_joined(r->keep, formula_text(r, from, to));
    if (unit_read(r->scratch, word, NULL, &u, &bad) == UNIT_FOUND)
        return formula_fail(
            r, from, to,
            formula_say(r, "'%.*s' is a unit without a number before it.", STR_ARG(word)),
            formula_say(r, "Write '1 %.*s'.", STR_ARG(word)));
    char *small = arena_take(r->keep, word.n + 1);
    for (size_t i = 0; i < word.n; i++) {
        char c = word.p[i];
        small[i] = c == '_' ? '-' : (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
    return formula_fail(
        r, from, to,
        formula_say(r, "'%.*s' is no name: names are small letters, digits and hyphens.",
                    STR_ARG(word)),
        formula_say(r, "Write '%s'.", small));
}

/* A word of a name at r->at; moves behind it. */
static bool read_word(formula_reader *r, size_t *from, size_t *to)
{
    *from = r->at;
    *to = formula_word_end(r, r->at);
    for (size_t i = *from; i < *to; i++) {
        char c = formula_byte(r, i);
        if (c == '_' || (c >= 'A' && c <= 'Z')) return bad_name(r, *from, *to) != NULL;
    }
    if (*to > *from && formula_byte(r, *to - 1) == '-')
        return formula_tight_sign(r, *from, *to - 1) != NULL;
    r->at = *to;
    return true;
}

static bool word_is(const formula_reader *r, size_t at, const char *word)
{
    return str_is(formula_text(r, at, formula_word_end(r, at)), word);
}

static formula_node *of_many(formula_reader *r, size_t from, size_t name_to, size_t to)
{
    assert(from < name_to && name_to <= to);
    str name = formula_text(r, from, name_to),
        whole = formula_joined(r->keep, formula_text(r, from, to));
    const char *help = formula_say(
        r,
        "Write one value of them, such as max(%.*s), or min, sum or mean; to compute with each "
        "first, make that a quantity with for-each.",
        STR_ARG(whole));
    return formula_fail(
        r, from, to,
        formula_say(r, "There can be several '%.*s', and a formula has one value.", STR_ARG(name)),
        help);
}

/* "of any", "of all" and their kin: words of conditions. */
static bool other_many(const formula_reader *r, size_t at)
{
    return word_is(r, at, "any") || word_is(r, at, "all") || word_is(r, at, "each") ||
           word_is(r, at, "none");
}

static formula_node *not_every(formula_reader *r, size_t from, size_t to)
{
    size_t end = formula_word_end(r, formula_skip(r, to));
    str kind = formula_text(r, formula_skip(r, to), end), bad = formula_text(r, from, to);
    return formula_fail(
        r, from, to,
        formula_say(r, "'of %.*s' is no number that could be computed with.", STR_ARG(bad)),
        formula_say(r, "Write 'of every %.*s' inside min, max, sum or mean.",
                    STR_ARG(kind.n == 0 ? STR("kind") : kind)));
}

/* The rest of a name behind its first word; *every if it is "of every". */
static bool read_of(formula_reader *r, bool *every)
{
    size_t of = formula_skip(r, r->at), from, to;
    *every = false;
    if (of == r->at || !word_is(r, of, "of")) return true;
    size_t unit_at = formula_skip(r, of + 2);
    if (other_many(r, unit_at)) return not_every(r, unit_at, formula_word_end(r, unit_at)) != NULL;
    *every = word_is(r, unit_at, "every");
    if (*every) unit_at = formula_skip(r, formula_word_end(r, unit_at));
    r->at = unit_at;
    if (!read_word(r, &from, &to)) return false;
    if (to > from) return true;
    return formula_fail(r, of, of + 2, "Behind 'of' a name is missing.",
                        "Write 'of' and a unit of the site, or 'of every' and a kind.") != NULL;
}

static formula_node *read_name(formula_reader *r, size_t from, size_t word_to)
{
    const formula_input *inputs;
    uint32_t count;
    bool every;
    if (!read_of(r, &every)) return NULL;
    if (every) return of_many(r, from, word_to, r->at);
    if (!find(r, from, r->at, &inputs, &count)) return open_node(r, from, r->at);
    if (count != 1) return of_many(r, from, word_to, r->at);
    return input_node(r, inputs, from, r->at);
}

/* ---- functions ---- */

/* Adds a part behind the last one. */
static void append(formula_node *whole, formula_node **last, formula_node *part)
{
    assert(part != NULL && part->next == NULL && (*last == NULL) == (whole->first == NULL));
    if (*last == NULL)
        whole->first = part;
    else
        (*last)->next = part;
    *last = part;
}

static bool ends_argument(const formula_reader *r, size_t at)
{
    char c = formula_byte(r, at);
    return c == ',' || c == ')' || c == 0;
}

/* All inputs of "x of every kind". None: what the look-up gave still says of which type the list
 * is. */
static void add_every(formula_reader *r, formula_node *call, formula_node **last, size_t from)
{
    const formula_input *inputs;
    uint32_t count;
    if (!find(r, from, r->at, &inputs, &count)) return;
    for (uint32_t i = 0; i < count; i++) append(call, last, input_node(r, &inputs[i], from, r->at));
    if (count > 0 || inputs == NULL || !call->open) return;
    call->type = (value_type){inputs->in.dim, inputs->in.form == UNIT_SCALE};
    call->open = false;
}

/* Is the whole argument "x of every kind"? Then r->at stands behind it. */
static bool skip_every(formula_reader *r)
{
    size_t back = r->at, of, every, kind;
    of = formula_skip(r, formula_word_end(r, r->at));
    every = formula_skip(r, of + 2);
    kind = formula_skip(r, formula_word_end(r, every));
    if (formula_word_end(r, back) == back || !word_is(r, of, "of") || !word_is(r, every, "every"))
        return false;
    r->at = formula_word_end(r, kind);
    if (r->at > kind && ends_argument(r, formula_skip(r, r->at))) return true;
    r->at = back;
    return false;
}

static bool read_argument(formula_reader *r, formula_node *call, formula_node **last)
{
    r->at = formula_skip(r, r->at);
    size_t from = r->at;
    if (formula_call_lists(call->call) && skip_every(r)) {
        add_every(r, call, last, from);
        return true;
    }
    formula_node *part = read_sum(r);
    if (part == NULL) return false;
    append(call, last, part);
    return true;
}

static formula_node *unclosed(formula_reader *r, size_t open)
{
    return formula_fail(r, open, open + 1, "This bracket is never closed.",
                        "Put ')' where it should end.");
}

/* Behind a value in brackets: ')' or something that does not belong there. */
static bool close_bracket(formula_reader *r, size_t open)
{
    assert(formula_byte(r, open) == '(');
    r->at = formula_skip(r, r->at);
    if (formula_byte(r, r->at) == ')') {
        r->at++;
        return true;
    }
    return (at_end(r) ? unclosed(r, open) : formula_stray(r)) != NULL;
}

static bool enter(formula_reader *r)
{
    assert(r->depth <= FORMULA_DEEPEST);
    if (++r->depth <= FORMULA_DEEPEST) return true;
    return formula_fail(r, r->at, r->at + 1, "Brackets stand too deep in each other.",
                        "Make a quantity of the inner part, and use its name here.") != NULL;
}

static bool read_arguments(formula_reader *r, formula_node *call)
{
    formula_node *last = NULL;
    do {
        r->at++;
        if (!read_argument(r, call, &last)) return false;
        r->at = formula_skip(r, r->at);
    } while (formula_byte(r, r->at) == ',');
    return true;
}

static bool right_count(formula_reader *r, const formula_node *call)
{
    bool one = !formula_call_lists(call->call);
    assert(!one || call->first != NULL);
    if (!one || call->first->next == NULL) return true;
    return formula_fail(r, call->first->next->from, r->at - 1,
                        formula_say(r, "%s takes one value.", formula_call_names[call->call]),
                        "Leave the others out, or use min, max, sum or mean.") != NULL;
}

static formula_node *read_call(formula_reader *r, size_t from, formula_call which, size_t open)
{
    formula_node *call = formula_new(r, FORMULA_CALL, from, from);
    call->call = which;
    call->open = true;
    r->at = open;
    if (!enter(r) || !read_arguments(r, call) || !close_bracket(r, open)) return NULL;
    r->depth--;
    call->to = (uint32_t)r->at;
    if (!right_count(r, call) || !formula_type_call(r, call)) return NULL;
    return call;
}

static bool call_named(str word, formula_call *which)
{
    for (int i = 0; i < CALL_COUNT; i++) {
        *which = (formula_call)i;
        if (str_is(word, formula_call_names[i])) return true;
    }
    return false;
}

static formula_node *read_name_or_call(formula_reader *r)
{
    size_t from, to;
    formula_call which;
    if (!read_word(r, &from, &to)) return NULL;
    size_t next = formula_skip(r, to);
    str word = formula_text(r, from, to);
    bool known = call_named(word, &which), bracket = formula_byte(r, next) == '(';
    if (known && bracket) return read_call(r, from, which, next);
    if (bracket) return formula_unknown_call(r, from, to);
    if (!known) return read_name(r, from, to);
    return formula_fail(r, from, to, formula_say(r, "'%.*s' is a function.", STR_ARG(word)),
                        formula_say(r, "Put what it works on in brackets: '%.*s(%s)'.",
                                    STR_ARG(word), formula_call_lists(which) ? "a, b" : "a"));
}

/* ---- factors, terms, sums ---- */

static formula_node *read_brackets(formula_reader *r)
{
    size_t open = r->at;
    if (!enter(r)) return NULL;
    r->at++;
    formula_node *inner = read_sum(r);
    if (inner == NULL || !close_bracket(r, open)) return NULL;
    r->depth--;
    inner->from = (uint32_t)open;
    inner->to = (uint32_t)r->at;
    return inner;
}

static formula_node *read_plain(formula_reader *r)
{
    if (formula_amount_begins(r, r->at)) return formula_amount(r, r->at, false);
    if (formula_byte(r, r->at) == '(') return read_brackets(r);
    if (formula_letter(formula_byte(r, r->at))) return read_name_or_call(r);
    return formula_no_value(r);
}

/* A minus belongs to a number at once: -5 degC is five below freezing, not the negative of 5 degC.
 */
static formula_node *read_factor(formula_reader *r)
{
    r->at = formula_skip(r, r->at);
    size_t from = r->at;
    if (formula_byte(r, from) != '-') return read_plain(r);
    r->at = formula_skip(r, from + 1);
    if (formula_amount_begins(r, r->at)) return formula_amount(r, from, true);
    formula_node *inner = read_plain(r);
    if (inner == NULL) return NULL;
    formula_node *minus = formula_new(r, FORMULA_MINUS, from, r->at);
    minus->first = inner;
    return formula_type_minus(r, minus) ? minus : NULL;
}

/* Is there one of two signs, with its spaces? */
static bool read_sign(formula_reader *r, size_t left, char with, char against, char *sign)
{
    size_t at = formula_skip(r, r->at);
    *sign = formula_byte(r, at);
    if (*sign != with && *sign != against) return false;
    char next = formula_byte(r, at + 1);
    bool spaced = at > r->at && (formula_space(next) || next == 0);
    r->at = at + 1;
    if (*sign == against && !spaced) formula_tight_sign(r, left, at);
    return !r->failed;
}

typedef struct level {
    formula_kind kind;
    char with, against;
    formula_node *(*part)(formula_reader *r);
    bool (*type)(formula_reader *r, formula_node *whole, formula_node *part);
} level;

/* One part alone is the whole. */
static formula_node *read_level(formula_reader *r, const level *l)
{
    assert(l->with != l->against);
    formula_node *first = l->part(r), *last = NULL;
    if (first == NULL) return NULL;
    char sign;
    if (!read_sign(r, first->from, l->with, l->against, &sign)) return r->failed ? NULL : first;
    formula_node *whole = formula_new(r, l->kind, first->from, first->to);
    whole->open = l->kind == FORMULA_SUM && first->open;
    if (!l->type(r, whole, first)) return NULL;
    append(whole, &last, first);
    do {
        formula_node *part = l->part(r);
        if (part == NULL) return NULL;
        part->against = sign == l->against;
        if (!l->type(r, whole, part)) return NULL;
        append(whole, &last, part);
        whole->to = part->to;
    } while (read_sign(r, whole->from, l->with, l->against, &sign));
    return r->failed ? NULL : whole;
}

static formula_node *read_product(formula_reader *r)
{
    static const level product = {FORMULA_PRODUCT, '*', '/', read_factor, formula_type_multiply};
    return read_level(r, &product);
}

static formula_node *read_sum(formula_reader *r)
{
    static const level sum = {FORMULA_SUM, '+', '-', read_product, formula_type_add};
    return read_level(r, &sum);
}

static formula_node *read_whole(formula_reader *r)
{
    if (r->text.n > FORMULA_LONGEST)
        return formula_fail(r, 0, r->text.n, "This formula is too long.",
                            "Make quantities of its parts, and use their names here.");
    if (formula_skip(r, 0) >= r->text.n)
        return formula_fail(r, 0, 0, "There is no formula here.",
                            "Write what to compute, such as 'set-point + 2 psi'.");
    formula_node *root = read_sum(r);
    if (root == NULL) return NULL;
    r->at = formula_skip(r, r->at);
    return at_end(r) ? root : formula_stray(r);
}

const formula *formula_parse(arena *keep, arena *scratch, str text, formula_look_up look_up,
                             void *context, formula_error *error)
{
    formula_reader r = {.keep = keep,
                        .scratch = scratch,
                        .text = text,
                        .look_up = look_up,
                        .context = context,
                        .error = error};
    assert(keep != NULL && scratch != NULL && look_up != NULL && error != NULL);
    *error = (formula_error){0, 0, NULL, NULL};
    const formula_node *root = read_whole(&r);
    if (root == NULL || r.told) return NULL;
    assert(!r.failed && r.depth == 0);
    formula *f = ARENA_NEW(keep, formula);
    *f = (formula){root, r.subjects, r.subject_count};
    return f;
}
