/* Quantities: named formulas over readings; at the end those that comparisons make join them. */
#include <assert.h>
#include <stdlib.h>

#include "read/reader.h"

bool read_quantity(reader *r, const node *map, question *q)
{
    q->kind = QUESTION_QUANTITY;
    q->in = unit_none;
    q->undo.kind = PUT_BACK_NOT_NEEDED;
    q->read_right = 1;
    if (!check_map(r, map, KEYS_QUANTITY)) return false;
    read_keys(r, map, q->id, KEYS_QUANTITY, q);
    const node *unit = node_get(map, "unit"), *over_time = node_get(map, "over-time");
    str word;
    if (over_time != NULL) read_yes(r, over_time, "'over-time'", &q->over_time);
    bool good = unit == NULL ||
                (read_word(r, unit, "a unit", &word) && read_unit(r, word, unit->at, NULL, &q->in));
    return need(r, map, q->id, KEYS_QUANTITY, "formula") != NULL && good;
}

static void other_type(reader *r, const node *n, const question *q, value_type t)
{
    const char *scale = t.scale ? " on its scale" : "";
    str given = dimension_words(r->scratch, t.dim), some = unit_examples(r->scratch, t.dim, 3);
    fault *f;
    if (q->in.text.n == 0)
        f = fault_add(r->list, FAULT_FORMULA_UNIT, n->at,
                      "This formula gives %.*s%s, but '%.*s' has no unit.", STR_ARG(given), scale,
                      STR_ARG(q->id.name));
    else
        f = fault_add(r->list, FAULT_FORMULA_UNIT, n->at,
                      "This formula gives %.*s%s, but the unit of '%.*s' is '%.*s'.",
                      STR_ARG(given), scale, STR_ARG(q->id.name), STR_ARG(q->in.text));
    if (some.n > 0)
        fault_help(r->list, f, "Mend the formula, or write 'unit:' with such as %.*s.",
                   STR_ARG(some));
}

static bool read_formula(reader *r, const node *n, const question *q, formula_case *out)
{
    str text;
    if (!read_word(r, n, "a formula", &text)) return false;
    formula_place p = {r, n, 0, 0};
    out->is = formula_in_text(&p, n->text);
    out->at = n->at;
    if (out->is == NULL) return false;
    value_type t = formula_type(out->is);
    if (dimension_same(t.dim, q->in.dim) && t.scale == (q->in.form == UNIT_SCALE)) return true;
    other_type(r, n, q, t);
    return false;
}

static void wrong_cases(reader *r, span at, const char *what)
{
    fault *f = fault_add(r->list, FAULT_FORMULA_CASES, at, "%s", what);
    fault_help(
        r->list, f,
        "Write '- when: {…}' with 'is:' for each case, and last '- is:' alone for all the rest.");
}

static const node *conditions_only_on_answers(reader *r, const node *when, const cond *c)
{
    bool leaf = c->kind == COND_SYMPTOM || c->kind == COND_CONCLUSION;
    if (leaf) {
        fault *f = fault_add(
            r->list, FAULT_FORMULA_CASES, c->at,
            "A formula's case rests on what is asked or measured, not on symptoms or conclusions.");
        fault_help(r->list, f, "Name the question or the quantity itself.");
        return NULL;
    }
    for (uint32_t i = 0; i < c->count; i++)
        if (conditions_only_on_answers(r, when, c->parts[i]) == NULL) return NULL;
    return when;
}

static bool read_case_of(reader *r, const node *n, bool last, const question *q, formula_case *out)
{
    if (!check_map(r, n, KEYS_FORMULA_CASE)) return false;
    const node *when = node_get(n, "when"),
               *is = need(r, n, (label){STR(""), n->at}, KEYS_FORMULA_CASE, "is");
    if (when == NULL && !last) {
        wrong_cases(
            r, n->at,
            "A case without 'when' holds always, so what stands below it is never reached.");
        return false;
    }
    if (when != NULL) out->when = read_condition(r, when);
    if (out->when != NULL && conditions_only_on_answers(r, when, out->when) == NULL) return false;
    return is != NULL && read_formula(r, is, q, out) && (when == NULL || out->when != NULL);
}

static bool read_cases_of(reader *r, const node *n, question *q)
{
    bool list = n->kind == NODE_LIST, good = true;
    uint32_t count = list ? n->count : 1;
    if (n->kind == NODE_MAP || count == 0) {
        wrong_cases(r, n->at, "A formula is one line, or a list of cases.");
        return false;
    }
    formula_case *cases = ARENA_ARRAY(r->keep, formula_case, count);
    for (uint32_t i = 0; i < count; i++)
        good &= list ? read_case_of(r, n->items[i], i + 1 == count, q, &cases[i])
                     : read_formula(r, n, q, &cases[i]);
    q->cases = cases;
    q->case_count = good ? count : 0;
    return good;
}

static void read_usual_of(reader *r, const node *n, question *q)
{
    if (n != NULL) q->has_usual = read_range_in(r, q, n, "'usual'", &q->usual_low, &q->usual_high);
}

void read_quantities(reader *r)
{
    name_table *t = &r->tables[SECTION_QUESTIONS];
    for (uint32_t i = 0; i < t->count; i++) {
        named *e = &t->items[i];
        if (!e->quantity || e->broken) continue;
        enter(r, e);
        question *q = (question *)(uintptr_t)&r->book->questions[i];
        e->broken = !read_cases_of(r, node_get(e->body, "formula"), q);
        if (!e->broken) read_usual_of(r, node_get(e->body, "usual"), q);
    }
}

/* ---- at the end: named and made ones in one table ---- */

typedef struct made_place {
    str name;
    uint32_t before; /* its place among the made ones as they came */
} made_place;

static int by_made_name(const void *a, const void *b)
{
    return str_cmp(((const made_place *)a)->name, ((const made_place *)b)->name);
}

/* Made ones stand last, by name: the order in which conditions were read changes nothing. */
void join_quantities(reader *r)
{
    uint32_t given_count = r->book->question_count;
    if (r->made_count == 0) return;
    made_place *places = ARENA_ARRAY(r->scratch, made_place, r->made_count);
    uint32_t *moved = ARENA_ARRAY(r->scratch, uint32_t, r->made_count);
    for (uint32_t i = 0; i < r->made_count; i++) places[i] = (made_place){r->made[i].id.name, i};
    if (r->made_count > 1) qsort(places, r->made_count, sizeof *places, by_made_name);
    question *all = ARENA_ARRAY(r->keep, question, (size_t)given_count + r->made_count);
    for (uint32_t i = 0; i < given_count; i++) all[i] = r->book->questions[i];
    for (uint32_t i = 0; i < r->made_count; i++) {
        all[given_count + i] = r->made[places[i].before];
        moved[places[i].before] = given_count + i;
    }
    for (made_cond *m = r->made_conds; m != NULL; m = m->next)
        m->c->subject = moved[m->c->subject - given_count];
    r->book->questions = all;
    r->book->question_count = given_count + r->made_count;
    assert(r->made_conds == NULL || r->made_count > 0);
}
