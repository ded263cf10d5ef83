/* A formula as it stands in a node: what its names mean, and where it is wrong. */

#include "read/reader.h"

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
    const named *base = base_find(r, SECTION_QUESTIONS, base_of_name(name));
    const node *n = base == NULL ? NULL : node_get(base->body, "unit");
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

const formula *formula_in_text(const formula_place *p, str text)
{
    formula_error wrong = {0};
    reader *r = p->r;
    uint32_t before = faults_met(r->list);
    const formula *f =
        formula_parse(r->keep, r->scratch, text, look_up_reading, (void *)(uintptr_t)p, &wrong);
    /* of a name that isn't there; what else is wrong may follow from it */
    bool told = faults_met(r->list) > before;
    if (f != NULL || told || wrong.what == NULL) return told ? NULL : f;
    fault *said = fault_add(r->list, FAULT_FORMULA_WRONG, place_in(p, wrong.from, wrong.to), "%s",
                            wrong.what);
    if (wrong.help != NULL) fault_help(r->list, said, "%s", wrong.help);
    return NULL;
}
