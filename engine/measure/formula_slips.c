/* What people write where the grammar wants something else, and what to write instead. */
#include <assert.h>

#include "measure/formula_reader.h"

#include "base/unicode.h"

enum { SHORT = 40 };

static const struct {
    const char *word, *sign;
} sign_words[] = {
    {"plus", "+"}, {"minus", "-"}, {"less", "-"}, {"times", "*"}, {"x", "*"},
    {"X", "*"},    {"by", "/"},    {"per", "/"},  {"over", "/"},
};

static const char *sign_of_word(str word)
{
    for (size_t i = 0; i < sizeof sign_words / sizeof *sign_words; i++)
        if (str_is(word, sign_words[i].word)) return sign_words[i].sign;
    return NULL;
}

/* Signs of other hands: typographic ones, and those of other languages. */
static const struct {
    const char *bytes, *help;
} slips[] = {
    {"\xE2\x88\x92", "Write '-' with a blank on each side."}, /* minus */
    {"\xE2\x80\x93", "Write '-' with a blank on each side."}, /* dashes */
    {"\xE2\x80\x94", "Write '-' with a blank on each side."},
    {"\xC3\x97", "Write '*' to multiply."}, /* cross */
    {"\xC2\xB7", "Write '*' to multiply."}, /* middle dot */
    {"\xC3\xB7", "Write '/' with a blank on each side."},
    {"\xE2\x88\x9A", "Write 'sqrt(...)' for a root."},
    {"\xC2\xB2", "Write 'a * a' for a square."},
    {"\xC2\xB3", "Write 'a * a * a'."},
    {"^", "Write 'a * a' for a square, 'sqrt(a)' for a root."},
    {"**", "Write 'a * a' for a square, 'sqrt(a)' for a root."},
    {"=", "A formula only computes; compare where it is used, with below, above or '20 to 40'."},
    {"<", "A formula only computes; compare where it is used, with 'below' or 'at most'."},
    {">", "A formula only computes; compare where it is used, with 'above' or 'at least'."},
    {"\xE2\x89\xA4", "A formula only computes; compare where it is used, with 'at most'."},
    {"\xE2\x89\xA5", "A formula only computes; compare where it is used, with 'at least'."},
    {"\"", "Names and amounts stand without quotes."},
    {"'", "Names and amounts stand without quotes."},
    {"[", "Write round brackets: '(' and ')'."},
    {"]", "Write round brackets: '(' and ')'."},
    {"{", "Write the name alone; braces are for texts."},
    {"}", "Write the name alone; braces are for texts."},
    {":", "Write a ratio as '1:50'; divide with '/' and a blank on each side."},
    {"%", "Write it at once behind a number: '2 %'."},
};

static const char *slip_help(str rest)
{
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        if (str_starts(rest, slips[i].bytes)) return slips[i].help;
    return NULL;
}

bool formula_slipped_sign(const formula_reader *r, size_t from, size_t to)
{
    str word = formula_text(r, from, to);
    bool mark = str_starts(word, "'") || str_starts(word, "\""); /* feet and inches */
    return sign_of_word(word) != NULL || (!mark && slip_help(word) != NULL);
}

static size_t character_end(const formula_reader *r, size_t at)
{
    assert(at < r->text.n);
    unicode_next(r->text, &at);
    return at;
}

static formula_node *wrong_character(formula_reader *r)
{
    assert(r->at < r->text.n);
    size_t to =
        str_starts(formula_text(r, r->at, r->text.n), "**") ? r->at + 2 : character_end(r, r->at);
    const char *help = slip_help(formula_text(r, r->at, r->text.n));
    if (help == NULL) help = "A formula holds names, amounts, + - * / ( ) and functions.";
    str bad = formula_text(r, r->at, to);
    return formula_fail(
        r, r->at, to, formula_say(r, "'%.*s' can't stand here in a formula.", STR_ARG(bad)), help);
}

static bool begins_value(const formula_reader *r)
{
    char c = formula_byte(r, r->at);
    return c == '(' || formula_amount_begins(r, r->at) || formula_word_end(r, r->at) > r->at;
}

static formula_node *side_by_side(formula_reader *r)
{
    size_t end = formula_word_end(r, r->at);
    if (formula_amount_begins(r, r->at) || end == r->at) end = r->at + 1;
    while (formula_digit(formula_byte(r, r->at)) && formula_digit(formula_byte(r, end))) end++;
    assert(end > r->at && end <= r->text.n);
    str word = formula_text(r, r->at, end);
    const char *sign = sign_of_word(word);
    if (sign != NULL)
        return formula_fail(r, r->at, end, formula_say(r, "'%.*s' is no sign.", STR_ARG(word)),
                            formula_say(r, "Write ' %s ', with a blank on each side.", sign));
    return formula_fail(r, r->at, end,
                        formula_say(r, "There is no sign before '%.*s'.", STR_ARG(word)),
                        "Write +, -, * or / between two values, with a blank on each side; one "
                        "amount in two units is a sum: '5 ft + 6 in'.");
}

formula_node *formula_stray(formula_reader *r)
{
    switch (formula_byte(r, r->at)) {
    case 0:
        return formula_no_value(r);
    case ')':
        return formula_fail(r, r->at, r->at + 1, "This bracket closes nothing.",
                            "Leave it out, or put '(' where it should begin.");
    case ',':
        return formula_fail(r, r->at, r->at + 1, "A comma stands only in the list of a function.",
                            "Write a point for decimals: '2.5'.");
    default:
        return begins_value(r) ? side_by_side(r) : wrong_character(r);
    }
}

formula_node *formula_no_value(formula_reader *r)
{
    char c = formula_byte(r, r->at);
    if (c != 0 && c != ')' && c != ',' && c != '+' && c != '*' && c != '/' && c != '-')
        return wrong_character(r);
    if (r->at > 0 && c == '*' && formula_byte(r, r->at - 1) == '*') {
        r->at--;
        return wrong_character(r);
    }
    size_t to = c == 0 ? r->at : r->at + 1;
    return formula_fail(r, r->at, to, "Here a value is missing.",
                        "Write a name, an amount, a function or something in brackets.");
}

/* The text behind a sign up to where something else begins, for an example. */
static str right_of(const formula_reader *r, size_t sign)
{
    size_t from = formula_skip(r, sign + 1), to = from;
    while (to < r->text.n && str_find_byte(STR("+*(),"), r->text.p[to]) == SIZE_MAX) {
        bool next_sign = r->text.p[to] == '-' || r->text.p[to] == '/';
        if (next_sign && formula_space(formula_byte(r, to + 1)) && to > from) break;
        to++;
    }
    return str_trim(formula_text(r, from, to));
}

formula_node *formula_tight_sign(formula_reader *r, size_t left, size_t sign)
{
    assert(left <= sign && (formula_byte(r, sign) == '-' || formula_byte(r, sign) == '/'));
    str before = str_trim(formula_text(r, left, sign)), after = right_of(r, sign);
    bool minus = formula_byte(r, sign) == '-';
    const char *what = minus ? "A minus needs a blank on each side, because names hold hyphens."
                             : "A '/' that divides needs a blank on each side; without, it belongs "
                               "to a unit.";
    const char *help = formula_say(r, "Write ' %c '.", minus ? '-' : '/');
    if (before.n > 0 && before.n < SHORT && after.n > 0 && after.n < SHORT)
        help = formula_say(r, "Write '%.*s %c %.*s'.", STR_ARG(before), minus ? '-' : '/',
                           STR_ARG(after));
    return formula_fail(r, sign, sign + 1, what, help);
}

formula_node *formula_unknown_call(formula_reader *r, size_t from, size_t to)
{
    assert(from < to);
    str names[CALL_COUNT], word = formula_text(r, from, to);
    for (int i = 0; i < CALL_COUNT; i++) names[i] = str_of(formula_call_names[i]);
    size_t near = str_nearest(r->scratch, word, names, CALL_COUNT);
    const char *help = formula_say(
        r,
        "The functions are min, max, abs, sqrt, sum and mean; to multiply, write '%.*s * (...)'.",
        STR_ARG(word));
    if (near != SIZE_MAX)
        help = formula_say(r, "Did you mean '%s'? %s", formula_call_names[near], help);
    return formula_fail(r, from, to, formula_say(r, "There is no function '%.*s'.", STR_ARG(word)),
                        help);
}
