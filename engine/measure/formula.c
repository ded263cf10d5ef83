/* What is asked of a formula that is read: its type, what it reads, and how it is written again. */
#include "measure/formula_tree.h"

#include <assert.h>
#include <math.h>

const char *const formula_call_names[CALL_COUNT] = {"min", "max", "abs", "sqrt", "sum", "mean"};

bool formula_call_lists(formula_call c)
{
    return c != CALL_ABS && c != CALL_SQRT;
}

double formula_to_base(const unit *in, double number, double *weight)
{
    assert(in->factor > 0);
    double base = unit_to_base(in, number);
    double without = fabs(number * in->factor);
    *weight = fmax(fabs(base), in->offset == 0 ? 0 : fmax(without, fabs(in->offset)));
    return base;
}

value_type formula_type(const formula *f)
{
    assert(f != NULL && f->root != NULL);
    return f->root->type;
}

const uint32_t *formula_subjects(const formula *f, uint32_t *count)
{
    assert(f != NULL && count != NULL);
    *count = f->subject_count;
    return f->subjects;
}

/* ---- written again ---- */

typedef struct writer {
    text_builder out;
    str (*name_of)(void *context, uint32_t subject);
    void *context;
} writer;

static void write_node(writer *w, const formula_node *n);

static void write_in_brackets(writer *w, const formula_node *n)
{
    text_add(&w->out, STR("("));
    write_node(w, n);
    text_add(&w->out, STR(")"));
}

/* A sum or product in a product keeps its brackets, and so does a sum in a sum: another order would
 * round otherwise. */
static void write_part(writer *w, const formula_node *n, formula_kind whole)
{
    if (n->kind == FORMULA_SUM || (n->kind == FORMULA_PRODUCT && whole != FORMULA_SUM))
        write_in_brackets(w, n);
    else
        write_node(w, n);
}

static void write_parts(writer *w, const formula_node *n, str with, str against)
{
    assert(n->first != NULL && !n->first->against);
    for (const formula_node *part = n->first; part != NULL; part = part->next) {
        if (part != n->first) text_add(&w->out, part->against ? against : with);
        write_part(w, part, n->kind);
    }
}

static void write_call(writer *w, const formula_node *n)
{
    assert((int)n->call < CALL_COUNT);
    text_add(&w->out, str_of(formula_call_names[n->call]));
    text_add(&w->out, STR("("));
    for (const formula_node *part = n->first; part != NULL; part = part->next) {
        if (part != n->first) text_add(&w->out, STR(", "));
        write_node(w, part);
    }
    text_add(&w->out, STR(")"));
}

static void write_number(writer *w, const formula_node *n)
{
    assert(n->digits.n > 0);
    text_add(&w->out, n->digits);
    if (n->in.text.n == 0) return;
    text_add(&w->out, STR(" "));
    text_add(&w->out, n->in.text);
}

/* A minus at once before a number would become part of it. */
static void write_minus(writer *w, const formula_node *n)
{
    assert(n->first != NULL && n->first->next == NULL);
    text_add(&w->out, STR("-"));
    if (n->first->kind == FORMULA_INPUT || n->first->kind == FORMULA_CALL)
        write_node(w, n->first);
    else
        write_in_brackets(w, n->first);
}

static void write_node(writer *w, const formula_node *n)
{
    switch (n->kind) {
    case FORMULA_NUMBER:
        write_number(w, n);
        break;
    case FORMULA_INPUT:
        text_add(&w->out, w->name_of(w->context, n->subject));
        break;
    case FORMULA_SUM:
        write_parts(w, n, STR(" + "), STR(" - "));
        break;
    case FORMULA_PRODUCT:
        write_parts(w, n, STR(" * "), STR(" / "));
        break;
    case FORMULA_MINUS:
        write_minus(w, n);
        break;
    case FORMULA_CALL:
        write_call(w, n);
        break;
    }
}

str formula_words(arena *keep, const formula *f, str (*name_of)(void *context, uint32_t subject),
                  void *context)
{
    assert(f != NULL && f->root != NULL && name_of != NULL);
    writer w = {{.keep = keep}, name_of, context};
    write_node(&w, f->root);
    return text_done(&w.out);
}
