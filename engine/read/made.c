/* Quantities that conditions make: a reading less what is not constant, and its trend. */
#include "read/reader.h"

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
    const formula *f = formula_in_text(&p, whole);
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
