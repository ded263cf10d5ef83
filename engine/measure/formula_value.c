/* A formula's value, and how large the numbers were from which it came.
 *
 * `scale` answers for rounding: a difference of less than FORMULA_ROUNDING * scale is no
 * difference. A number's scale is its own magnitude. A sum's is the largest of its parts, for what
 * was rounded there stays when they cancel. Products, quotients and roots carry it as they carry
 * any small error (the first derivative). So a divisor within rounding of zero is zero, and so is a
 * negative number under a root: `1 / (3.1 bar - 310 kPa)` divides by zero. */
#include "measure/formula_tree.h"

#include <assert.h>
#include <float.h>
#include <math.h>

typedef struct evaluation {
    bool (*value)(void *context, uint32_t subject, double *number);
    void *context;
} evaluation;

static formula_result value_of(const evaluation *e, const formula_node *n);

static formula_result undefined(const formula_node *n, formula_lack why)
{
    return (formula_result){.state = FORMULA_UNDEFINED, .why = why, .from = n->from, .to = n->to};
}

static formula_result defined(const formula_node *n, double base, double scale)
{
    if (!isfinite(base)) return undefined(n, FORMULA_TOO_LARGE);
    scale = fmax(scale, fabs(base)); /* fmax takes the other where one is no number */
    assert(scale >= fabs(base));
    return (formula_result){.base = base, .scale = fmin(scale, DBL_MAX)};
}

/* What is undefined stays so whatever is answered, so it goes before what waits. The first in the
 * text is told. */
static bool joins(formula_result *whole, const formula_result *part)
{
    assert(whole != part);
    if (part->state > whole->state) *whole = *part;
    return whole->state == FORMULA_VALUE;
}

static formula_result value_of_input(const evaluation *e, const formula_node *n)
{
    double number, weight;
    if (!e->value(e->context, n->subject, &number)) return (formula_result){.state = FORMULA_WAITS};
    if (!isfinite(number)) return undefined(n, FORMULA_NO_NUMBER);
    double base = formula_to_base(&n->in, number, &weight);
    return defined(n, base, weight);
}

static formula_result value_of_sum(const evaluation *e, const formula_node *n)
{
    formula_result sum = {.state = FORMULA_VALUE};
    for (const formula_node *part = n->first; part != NULL; part = part->next) {
        formula_result next = value_of(e, part);
        if (!joins(&sum, &next)) continue;
        double base = part->against ? sum.base - next.base : sum.base + next.base;
        sum = defined(n, base, fmax(sum.scale, next.scale));
    }
    return sum;
}

static formula_result times(const formula_node *n, formula_result a, formula_result b)
{
    return defined(n, a.base * b.base, fmax(a.scale * fabs(b.base), fabs(a.base) * b.scale));
}

/* The divisor has been looked at. */
static formula_result over(const formula_node *n, formula_result a, formula_result b)
{
    double size = fabs(b.base), quotient = a.base / b.base;
    assert(size > 0);
    return defined(n, quotient, fmax(a.scale / size, fabs(quotient) * (b.scale / size)));
}

/* A divisor of zero is undefined even while what it divides is not known. */
static formula_result factor_of(const evaluation *e, const formula_node *part)
{
    formula_result f = value_of(e, part);
    bool zero = fabs(f.base) <= FORMULA_ROUNDING * f.scale;
    if (part->against && f.state == FORMULA_VALUE && zero) return undefined(part, FORMULA_BY_ZERO);
    return f;
}

static formula_result value_of_product(const evaluation *e, const formula_node *n)
{
    assert(n->kind == FORMULA_PRODUCT && n->first != NULL);
    formula_result product = factor_of(e, n->first);
    for (const formula_node *part = n->first->next; part != NULL; part = part->next) {
        formula_result next = factor_of(e, part);
        if (joins(&product, &next))
            product = part->against ? over(n, product, next) : times(n, product, next);
    }
    return product;
}

/* Near zero the derivative has no bound, but the root of what was rounded has. */
static formula_result root(const formula_node *n, formula_result a)
{
    if (a.base < -FORMULA_ROUNDING * a.scale) return undefined(n->first, FORMULA_NO_ROOT);
    double whole = a.base > 0 ? sqrt(a.base) : 0, near_zero = sqrt(a.scale / FORMULA_ROUNDING);
    assert(whole >= 0 && near_zero >= whole);
    return defined(n, whole, whole > 0 ? fmin(a.scale / whole, near_zero) : near_zero);
}

static formula_result picked(formula_call call, formula_result a, formula_result b)
{
    assert(call == CALL_MIN || call == CALL_MAX);
    bool second = call == CALL_MIN ? b.base < a.base : b.base > a.base;
    return second ? b : a;
}

static formula_result of_list(const evaluation *e, const formula_node *n, uint32_t *count)
{
    formula_result whole = {.state = FORMULA_VALUE};
    *count = 0;
    for (const formula_node *part = n->first; part != NULL; part = part->next, ++*count) {
        formula_result next = value_of(e, part);
        if (!joins(&whole, &next)) continue;
        if (part == n->first)
            whole = next;
        else if (n->call == CALL_MIN || n->call == CALL_MAX)
            whole = picked(n->call, whole, next);
        else
            whole = defined(n, whole.base + next.base, fmax(whole.scale, next.scale));
    }
    return whole;
}

static formula_result value_of_call(const evaluation *e, const formula_node *n)
{
    uint32_t count;
    formula_result whole = of_list(e, n, &count);
    assert(formula_call_lists(n->call) || count == 1);
    if (whole.state != FORMULA_VALUE) return whole;
    if (count == 0 && n->call != CALL_SUM) return undefined(n, FORMULA_NO_MEMBER);
    if (n->call == CALL_ABS) whole.base = fabs(whole.base);
    if (n->call == CALL_SQRT) return root(n, whole);
    return n->call == CALL_MEAN ? defined(n, whole.base / count, whole.scale) : whole;
}

static formula_result value_of(const evaluation *e, const formula_node *n)
{
    formula_result inner;
    switch (n->kind) {
    case FORMULA_NUMBER:
        return defined(n, n->base, n->weight);
    case FORMULA_INPUT:
        return value_of_input(e, n);
    case FORMULA_SUM:
        return value_of_sum(e, n);
    case FORMULA_PRODUCT:
        return value_of_product(e, n);
    case FORMULA_CALL:
        return value_of_call(e, n);
    case FORMULA_MINUS:
        break;
    }
    inner = value_of(e, n->first);
    inner.base = -inner.base;
    return inner;
}

formula_result formula_value(const formula *f,
                             bool (*value)(void *context, uint32_t subject, double *number),
                             void *context)
{
    assert(f != NULL && value != NULL);
    evaluation e = {value, context};
    formula_result r = value_of(&e, f->root);
    assert(r.state != FORMULA_VALUE || (isfinite(r.base) && r.scale >= fabs(r.base)));
    if (r.state != FORMULA_VALUE) r.base = r.scale = 0;
    return r;
}
