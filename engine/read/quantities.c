/* Quantities: named formulas over readings, and those that comparisons with a set point make. */
#include <assert.h>
#include <stdlib.h>

#include "read/reader.h"

/* ---- names in formulas ---- */

/* The formula's text is part of a node's text, or has something put before it. */
typedef struct formula_place {
    reader *r;
    const node *n;
    size_t skip;   /* bytes of the formula that don't stand in the node */
    size_t begins; /* where the rest stands in the node's text */
} formula_place;

static span place_in(const formula_place *p, uint32_t from, uint32_t to)
{
    if (from < p->skip) return p->n->at;
    size_t first = p->begins + from - p->skip, end = p->begins + to - p->skip;
    if (end > p->n->text.n || first > end) return p->n->at;
    return span_in_text(p->r, p->n, first, end);
}

static bool in_words(const formula_place *p, const question *q, span at)
{
    fault *f = fault_add(p->r->list, FAULT_FORMULA_WRONG, at,
                         "'%.*s' is answered in words, so nothing can be reckoned with it.",
                         STR_ARG(q->id.name));
    fault_note_at(p->r->list, f, q->id.at, "The question stands here.");
    fault_help(p->r->list, f,
               "Use readings, counts and other quantities; for words write cases with 'when'.");
    return false;
}

/* The site has none of the kind; what is written for each still says in which unit it would be. */
static formula_input *unit_of_none(reader *r, str name)
{
    const base_name *base = base_find(r, SECTION_QUESTIONS, base_of_name(name));
    const node *n = base == NULL || base->body == NULL ? NULL : node_get(base->body, "unit");
    formula_input *one = ARENA_NEW(r->keep, formula_input);
    str word;
    *one = (formula_input){.subject = NO_ID, .in = unit_none};
    if (n != NULL &&
        (!read_word(r, n, "a unit", &word) || !read_unit(r, word, n->at, NULL, &one->in)))
        return NULL;
    return one;
}

/* "cut-in-set" where there are 'cut-in' and 'set': names hold hyphens, so a minus needs a space on
 * each side. */
static bool meant_minus(reader *r, str name, span at)
{
    for (size_t i = 1; i + 1 < name.n; i++) {
        str left = str_slice(name, 0, i), right = str_slice(name, i + 1, name.n);
        double number;
        bool known =
            base_find(r, SECTION_QUESTIONS, right) != NULL || str_to_double(right, &number);
        if (name.p[i] != '-' || base_find(r, SECTION_QUESTIONS, left) == NULL || !known) continue;
        fault *f = fault_add(r->list, FAULT_UNKNOWN_NAME, at,
                             "There is no question or quantity '%.*s'.", STR_ARG(name));
        fault_help(r->list, f, "Names hold hyphens, so put spaces round a minus: %.*s - %.*s.",
                   STR_ARG(left), STR_ARG(right));
        return true;
    }
    return false;
}

/* The formula keeps what it needs of them before it looks up the next name. */
static formula_input *room_for_inputs(reader *r, uint32_t count)
{
    if (count <= r->input_room) return r->inputs;
    r->inputs = ARENA_ARRAY(r->scratch, formula_input, count);
    r->input_room = count;
    return r->inputs;
}

static bool look_up_reading(void *context, str name, uint32_t from, uint32_t to,
                            const formula_input **inputs, uint32_t *count)
{
    const formula_place *p = context;
    reader *r = p->r;
    span at = place_in(p, from, to);
    names_found found;
    look_up_state state = look_up(r, SECTION_QUESTIONS, name, at, &found);
    if (state == LOOK_UP_MISSING && !meant_minus(r, name, at))
        resolve_many(r, SECTION_QUESTIONS, name, at, &found);
    if (state != LOOK_UP_FOUND) return false;
    formula_input *all = room_for_inputs(r, found.count);
    for (uint32_t i = 0; i < found.count; i++) {
        const question *q = &r->book->questions[found.ids[i]];
        if (r->tables[SECTION_QUESTIONS].items[found.ids[i]].broken) return false;
        if (q->kind == QUESTION_CHOICE) return in_words(p, q, at);
        all[i] = (formula_input){found.ids[i], q->in};
    }
    *inputs = found.count == 0 ? unit_of_none(r, name) : all;
    *count = found.count;
    return true;
}

static const formula *parse(const formula_place *p, str text)
{
    formula_error wrong = {0};
    reader *r = p->r;
    uint32_t before = faults_errors(r->list);
    const formula *f =
        formula_parse(r->keep, r->scratch, text, look_up_reading, (void *)(uintptr_t)p, &wrong);
    bool told = faults_errors(r->list) >
                before; /* a name that isn't there; what else is wrong may follow from it */
    if (f != NULL || told || wrong.what == NULL) return told ? NULL : f;
    fault *said = fault_add(r->list, FAULT_FORMULA_WRONG, place_in(p, wrong.from, wrong.to), "%s",
                            wrong.what);
    if (wrong.help != NULL) fault_help(r->list, said, "%s", wrong.help);
    return NULL;
}

/* ---- named quantities ---- */

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
    out->is = parse(&p, n->text);
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

/* ---- quantities made by comparing a reading with what is not constant ---- */

static uint32_t find_made(const reader *r, str name)
{
    for (uint32_t i = 0; i < r->made_count; i++)
        if (str_eq(r->made[i].id.name, name)) return r->book->question_count + i;
    return NO_ID;
}

static str name_of_subject(void *context, uint32_t subject)
{
    const reader *r = context;
    return r->tables[SECTION_QUESTIONS].items[subject].id.name;
}

/* "foam-air of left - (set + 5 psi)" as people read it: Foam air of left minus (set + 5 psi). */
static str words_of_made(reader *r, str name)
{
    text_builder b = {.keep = r->keep};
    for (size_t i = 0; i < name.n; i++) {
        char c = name.p[i];
        bool sign = c == '-' && i > 0 && name.p[i - 1] == ' ';
        if (i == 0 && c >= 'a' && c <= 'z') c = (char)(c - 'a' + 'A');
        if (c == '-') c = ' ';
        text_add(&b, sign ? STR("minus") : (str){&c, 1});
    }
    return text_done(&b);
}

static question *new_made(reader *r, const question *q, uint32_t reading, str name)
{
    if (r->made_count == r->made_room) {
        uint32_t room = r->made_room == 0 ? 16 : r->made_room * 2;
        question *more = ARENA_ARRAY(r->keep, question, room);
        for (uint32_t i = 0; i < r->made_count; i++) more[i] = r->made[i];
        r->made = more;
        r->made_room = room;
    }
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, words_of_made(r, name)};
    question *out = &r->made[r->made_count++];
    *out = (question){.id = {name, q->id.at},
                      .of = {name, q->of.piece, NO_ID, q->of.lone},
                      .kind = QUESTION_QUANTITY,
                      .place = NO_ID,
                      .instrument = NO_ID,
                      .good = NO_ID,
                      .ask = {.items = item, .count = 1, .at = q->id.at},
                      .made = true,
                      .has_usual = true,
                      .undo = {.kind = PUT_BACK_NOT_NEEDED},
                      .read_right = 1,
                      .judged = reading};
    return out;
}

static uint32_t add_made(reader *r, const question *q, uint32_t reading, str name, const formula *f,
                         span at)
{
    formula_case *one = ARENA_NEW(r->keep, formula_case);
    *one = (formula_case){NULL, f, at};
    question *made = new_made(r, q, reading, name);
    made->ask.at = at;
    made->in = difference_unit(r, &q->in);
    made->cases = one;
    made->case_count = 1;
    return r->book->question_count + r->made_count - 1;
}

uint32_t trend_of(reader *r, uint32_t reading, span at)
{
    const question *q = &r->book->questions[reading];
    const str name = str_printf(r->keep, "%.*s: trend", STR_ARG(q->id.name));
    const uint32_t id = find_made(r, name);
    if (id != NO_ID) return id;
    question *made = new_made(r, q, reading, name);
    made->ask.at = at;
    made->in = unit_none;
    made->trend = true;
    return r->book->question_count + r->made_count - 1;
}

/* Two temperatures on their scales differ by an interval, two ratios by a share. */
unit difference_unit(reader *r, const unit *u)
{
    unit out = *u;
    str bad;
    if (u->form == UNIT_SCALE)
        unit_read(r->keep, str_printf(r->keep, "%.*s interval", STR_ARG(u->text)), NULL, &out,
                  &bad);
    if (unit_is_ratio(u)) unit_read(r->keep, STR("%"), NULL, &out, &bad);
    return out;
}

/* A sum is taken away as a whole. */
static bool is_sum(str text)
{
    return str_find(text, STR(" + ")) != SIZE_MAX || str_find(text, STR(" - ")) != SIZE_MAX;
}

/* "set - 4 degF" takes one temperature from another: what is left is a difference, and no set point
 * to compare a temperature with. */
static void step_wanted(reader *r, const node *n, size_t begins, str right)
{
    span at = span_in_text(r, n, begins, begins + right.n);
    fault *f = fault_add(
        r->list, FAULT_FORMULA_WRONG, at,
        "'%.*s' is a difference of temperatures, and a temperature can't be compared with it.",
        STR_ARG(right));
    fault_help(r->list, f, "For a step write 'interval', such as 'set-point - 5 degF interval'.");
}

/* The reading less the formula that stands at `begins` in the node's text; NO_ID with a fault. */
uint32_t quantity_of_difference(reader *r, uint32_t reading, const node *n, size_t begins,
                                str right)
{
    const question *q = &r->book->questions[reading];
    bool sum = is_sum(right);
    str left = str_printf(r->keep, "%.*s - %s", STR_ARG(q->id.name), sum ? "(" : "");
    str whole = str_printf(r->keep, "%.*s%.*s%s", STR_ARG(left), STR_ARG(right), sum ? ")" : "");
    formula_place p = {r, n, left.n, begins};
    const formula *f = parse(&p, whole);
    if (f == NULL) return NO_ID;
    if (formula_type(f).scale) {
        step_wanted(r, n, begins, right);
        return NO_ID;
    }
    str name = formula_words(r->keep, f, name_of_subject, r);
    uint32_t id = find_made(r, name);
    return id != NO_ID ? id : add_made(r, q, reading, name, f, n->at);
}

void remember_made(reader *r, cond *c)
{
    made_cond *one = ARENA_NEW(r->scratch, made_cond);
    *one = (made_cond){c, r->made_conds};
    r->made_conds = one;
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
