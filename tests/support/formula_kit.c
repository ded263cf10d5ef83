#include "formula_kit.h"

#include "testing.h"

#include "test_sources.h"

formula_kit formula_kit_new(void)
{
    return (formula_kit){.keep = test_arena(), .scratch = test_arena()};
}

void formula_kit_free(formula_kit *k)
{
    arena_free(k->keep);
    arena_free(k->scratch);
}

unit formula_kit_unit(formula_kit *k, const char *text)
{
    unit u;
    str bad;
    if (unit_read(k->keep, str_of(text), NULL, &u, &bad) != UNIT_FOUND)
        fail_msg("'%s' is no unit", text);
    return u;
}

static kit_name *add_name(formula_kit *k, const char *name)
{
    assert_true(k->name_count < KIT_NAMES);
    kit_name *n = &k->names[k->name_count++];
    n->name = str_of(name);
    return n;
}

uint32_t formula_kit_name(formula_kit *k, const char *name, double number, const char *unit_text)
{
    kit_name *n = add_name(k, name);
    uint32_t subject = k->subject_count++;
    n->inputs[0] = (formula_input){subject, formula_kit_unit(k, unit_text)};
    n->count = 1;
    k->subject_names[subject] = n->name;
    k->numbers[subject] = number;
    k->known[subject] = true;
    return subject;
}

void formula_kit_every(formula_kit *k, const char *name, uint32_t first, uint32_t count,
                       const char *unit_text)
{
    kit_name *n = add_name(k, name);
    assert_true(count <= KIT_MEMBERS);
    n->inputs[0].in = formula_kit_unit(k, unit_text);
    n->count = count;
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t j = 0; j < k->name_count; j++)
            if (k->names[j].count == 1 && k->names[j].inputs[0].subject == first + i)
                n->inputs[i] = k->names[j].inputs[0];
}

static bool look_up(void *context, str name, uint32_t from, uint32_t to,
                    const formula_input **inputs, uint32_t *count)
{
    formula_kit *k = context;
    assert_true(from < to);
    for (uint32_t i = 0; i < k->name_count; i++) {
        if (!str_eq(k->names[i].name, name)) continue;
        *inputs = k->names[i].inputs;
        *count = k->names[i].count;
        return true;
    }
    k->refused = str_printf(k->keep, "%.*s%.*s ", STR_ARG(k->refused), STR_ARG(name));
    return false;
}

const formula *formula_kit_parse(formula_kit *k, const char *text)
{
    k->refused = STR("");
    return formula_parse(k->keep, k->scratch, str_of(text), look_up, k, &k->error);
}

const formula *formula_kit_good(formula_kit *k, const char *text)
{
    const formula *f = formula_kit_parse(k, text);
    if (f == NULL)
        fail_msg("'%s': %s %s (%u to %u)", text, k->error.what, k->error.help, k->error.from,
                 k->error.to);
    return f;
}

static bool number_of(void *context, uint32_t subject, double *number)
{
    const formula_kit *k = context;
    assert_true(subject < k->subject_count);
    *number = k->numbers[subject];
    return k->known[subject];
}

formula_result formula_kit_value(formula_kit *k, const formula *f)
{
    return formula_value(f, number_of, k);
}

double formula_kit_in(formula_kit *k, const char *text, const char *unit_text)
{
    const formula *f = formula_kit_good(k, text);
    unit u = formula_kit_unit(k, unit_text);
    value_type t = formula_type(f);
    if (!dimension_same(t.dim, u.dim) || t.scale != (u.form == UNIT_SCALE))
        fail_msg("'%s' is %s, not in '%s'", text, dimension_words(k->keep, t.dim).p, unit_text);
    formula_result r = formula_kit_value(k, f);
    if (r.state != FORMULA_VALUE) fail_msg("'%s' has no value: lack %d", text, (int)r.why);
    return unit_from_base(&u, r.base);
}

static str name_of(void *context, uint32_t subject)
{
    const formula_kit *k = context;
    return k->subject_names[subject];
}

str formula_kit_words(formula_kit *k, const formula *f)
{
    return formula_words(k->keep, f, name_of, k);
}
