/* Which values may be added, multiplied, compared, and what comes out. */
#include <assert.h>

#include "measure/formula_reader.h"

enum { LARGEST_POWER = 30, QUOTED = 60 };

/* A part of the text for a sentence: "'cut-in'", or "this" where it is long. */
static const char *quoted(formula_reader *r, const formula_node *n)
{
    str text = formula_joined(r->keep, formula_text(r, n->from, n->to));
    return text.n > QUOTED ? "this" : formula_say(r, "'%.*s'", STR_ARG(text));
}

static const char *type_words(formula_reader *r, value_type t)
{
    if (t.scale) return "a temperature";
    value_type difference = {{{0}}, false};
    difference.dim.power[BASE_TEMPERATURE] = 1;
    if (dimension_same(t.dim, difference.dim)) return "a difference of temperatures";
    return dimension_words(r->keep, t.dim).p;
}

static const char *wanted_words(formula_reader *r, value_type t)
{
    if (t.scale || dimension_is_none(t.dim)) return "";
    str units = unit_examples(r->keep, t.dim, 3);
    return units.n == 0 ? "" : formula_say(r, " (%.*s)", STR_ARG(units));
}

static bool refuse(formula_reader *r, const formula_node *n, const char *what, const char *help)
{
    formula_fail(r, n->from, n->to, what, help);
    return false;
}

/* ---- sums, and lists whose members must be alike ---- */

/* Makes the two dimensions one if a spelling that means both allows it, "oz" for one. `before` is
 * all that the whole has so far, or null. */
static bool alike(formula_reader *r, formula_node *whole, formula_node *before, formula_node *part)
{
    assert(whole != part && before != part);
    if (dimension_same(whole->type.dim, part->type.dim)) return true;
    if (formula_amount_as(r, part, whole->type.dim)) return true;
    if (before == NULL || !formula_amount_as(r, before, part->type.dim)) return false;
    whole->type = before->type;
    return true;
}

static bool bare(const formula_node *n)
{
    return n != NULL && n->kind == FORMULA_NUMBER && n->in.text.n == 0;
}

/* A number whose unit was forgotten is the commonest reason. */
static const char *alike_help(formula_reader *r, const formula_node *whole,
                              const formula_node *part)
{
    const formula_node *number = bare(part) ? part : bare(whole->first) ? whole->first : NULL;
    str units = unit_examples(r->keep, number == part ? whole->type.dim : part->type.dim, 1);
    if (number != NULL && units.n > 0)
        return formula_say(r, "Give the number its unit, such as '%.*s %.*s'.",
                           STR_ARG(number->digits), STR_ARG(units));
    if (whole->type.scale)
        return "For a step of temperature write 'interval', such as '5 degF interval'.";
    return formula_say(r, "Use %s%s here, or multiply or divide first.", type_words(r, whole->type),
                       wanted_words(r, whole->type));
}

static bool not_alike(formula_reader *r, const formula_node *whole, const formula_node *part)
{
    assert(!part->open);
    const char *is = type_words(r, part->type), *before = type_words(r, whole->type);
    const char *what =
        whole->kind == FORMULA_CALL
            ? formula_say(r, "%s is %s, but what stands before it in the list is %s.",
                          quoted(r, part), is, before)
            : formula_say(r, "%s is %s and can't be %s %s.", quoted(r, part), is,
                          part->against ? "taken from" : "added to", before);
    return refuse(r, part, what, alike_help(r, whole, part));
}

static bool two_temperatures(formula_reader *r, const formula_node *part)
{
    return refuse(
        r, part,
        formula_say(r, "%s is a temperature, and two temperatures can't be added.",
                    quoted(r, part)),
        "For a step write 'interval', such as '5 degF interval'; for a mean, 'mean(a, b)'.");
}

/* Temperature - temperature is a difference; temperature ± difference a temperature. */
static bool add_temperatures(formula_reader *r, formula_node *sum, const formula_node *part)
{
    bool left = sum->type.scale, right = part->type.scale;
    if (left && right && !part->against) return two_temperatures(r, part);
    if (!left && right && part->against)
        return refuse(r, part,
                      formula_say(r, "%s is a temperature and can't be taken from a difference.",
                                  quoted(r, part)),
                      "Put the temperature first.");
    sum->type.scale = left != right;
    return true;
}

bool formula_type_add(formula_reader *r, formula_node *sum, formula_node *part)
{
    assert(sum->kind == FORMULA_SUM);
    if (part->open) return true;
    if (sum->open || sum->first == NULL) {
        sum->type = part->type;
        sum->open = false;
        return true;
    }
    formula_node *before = sum->first->next == NULL ? sum->first : NULL;
    if (!alike(r, sum, before, part)) return not_alike(r, sum, part);
    return add_temperatures(r, sum, part);
}

static bool list_type(formula_reader *r, formula_node *call)
{
    formula_node *before = NULL;
    for (formula_node *part = call->first; part != NULL; part = part->next) {
        if (part->open) continue;
        if (call->open) call->type = part->type;
        if (!alike(r, call, before, part) || call->type.scale != part->type.scale)
            return not_alike(r, call, part);
        before = call->open ? part : NULL;
        call->open = false;
    }
    return true;
}

/* ---- products ---- */

/* A part of the text for an example, in brackets where it needs them; "a" for a long one. */
static const char *example(formula_reader *r, const formula_node *n)
{
    str text = formula_joined(r->keep, formula_text(r, n->from, n->to));
    if (text.n > QUOTED) return "a";
    bool brackets = n->kind == FORMULA_SUM && text.p[0] != '(';
    return brackets ? formula_say(r, "(%.*s)", STR_ARG(text))
                    : formula_say(r, "%.*s", STR_ARG(text));
}

static bool no_temperature(formula_reader *r, const formula_node *n, const char *done)
{
    if (!n->type.scale) return true;
    const char *what =
        formula_say(r, "%s is a temperature on its scale and can't be %s.", quoted(r, n), done);
    return refuse(
        r, n, what,
        formula_say(r, "Take a difference first, such as '(%s - 32 degF)'.", example(r, n)));
}

bool formula_type_multiply(formula_reader *r, formula_node *product, formula_node *part)
{
    assert(product->kind == FORMULA_PRODUCT);
    if (part->against) formula_amount_step(part);
    if (!no_temperature(r, part, part->against ? "divided by" : "multiplied or divided"))
        return false;
    product->open = product->open || part->open;
    for (int i = 0; i < BASE_COUNT; i++) {
        int power = product->type.dim.power[i];
        power += part->against ? -part->type.dim.power[i] : part->type.dim.power[i];
        if (power > LARGEST_POWER || power < -LARGEST_POWER)
            return refuse(r, part, "So many lengths, times or weights can't be multiplied.",
                          "Look for a sign or a name too many.");
        product->type.dim.power[i] = (int8_t)power;
    }
    return true;
}

/* ---- one value ---- */

bool formula_type_minus(formula_reader *r, formula_node *minus)
{
    assert(minus->kind == FORMULA_MINUS && minus->first != NULL);
    minus->type = minus->first->type;
    minus->open = minus->first->open;
    return no_temperature(r, minus->first, "made negative");
}

static bool no_root(formula_reader *r, const formula_node *under)
{
    str units = unit_examples(r->keep, under->type.dim, 1);
    const char *help = "Divide by one of its unit first, such as 'sqrt(pressure / 1 psi)'.";
    if (units.n > 0)
        help = formula_say(r, "Divide by one of its unit first, such as 'sqrt(%s / 1 %.*s)'.",
                           example(r, under), STR_ARG(units));
    return refuse(r, under,
                  formula_say(r, "%s is %s, of which there is no root.", quoted(r, under),
                              type_words(r, under->type)),
                  help);
}

static bool root_type(formula_reader *r, formula_node *call)
{
    assert(call->first != NULL && !call->type.scale);
    const formula_node *under = call->first;
    for (int i = 0; i < BASE_COUNT; i++) {
        if (under->type.dim.power[i] % 2 != 0) return no_root(r, under);
        call->type.dim.power[i] = (int8_t)(under->type.dim.power[i] / 2);
    }
    return true;
}

static bool sum_type(formula_reader *r, formula_node *call)
{
    if (call->first == NULL && !no_temperature(r, call, "added up")) return false;
    for (const formula_node *part = call->first; part != NULL; part = part->next)
        if (!no_temperature(r, part, "added up")) return false;
    return list_type(r, call);
}

bool formula_type_call(formula_reader *r, formula_node *call)
{
    assert(call->kind == FORMULA_CALL && (call->first != NULL || formula_call_lists(call->call)));
    if (call->call == CALL_SUM) return sum_type(r, call);
    if (formula_call_lists(call->call)) return list_type(r, call);
    call->open = call->first->open;
    if (!no_temperature(r, call->first, "used here")) return false;
    if (call->call == CALL_SQRT) return root_type(r, call);
    call->type = call->first->type;
    return true;
}
