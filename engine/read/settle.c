/* What quantities rest on: the order to reckon them in, the readings beneath them, and loops. */
#include <assert.h>
#include <stdlib.h>

#include "read/reader.h"

typedef enum mark { MARK_NEW, MARK_OPEN, MARK_DONE } mark;

/* Depth first with a stack of its own: a chain of formulas may be long. */
typedef struct frame {
    uint32_t quantity, next;
    ids needs;
} frame;

typedef struct settling {
    reader *r;
    question *questions;
    mark *marks;
    frame *stack;
    uint32_t depth;
    uint32_t *order, ordered;
    uint32_t *levels;  /* [quantity] how many quantities rest on each other, this one at the top */
    uint64_t readings; /* beneath quantities, in all */
} settling;

static void add_condition(reader *r, ids_draft *all, const cond *c)
{
    if (c == NULL) return;
    bool asks = c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN;
    if (asks) ids_add(r, all, &(names_found){NAMES_ONE, &c->subject, 1});
    for (uint32_t i = 0; i < c->count; i++) add_condition(r, all, c->parts[i]);
}

/* What its formulas and their cases name, each once. */
static ids needs_of(settling *s, uint32_t quantity)
{
    const question *q = &s->questions[quantity];
    ids_draft all = {0};
    for (uint32_t i = 0; i < q->case_count; i++) {
        uint32_t count;
        const uint32_t *subjects = formula_subjects(q->cases[i].is, &count);
        ids_add(s->r, &all, &(names_found){NAMES_ONE, subjects, count});
        add_condition(s->r, &all, q->cases[i].when);
    }
    return ids_of(all.items, all.count);
}

static void loop_found(settling *s, uint32_t again)
{
    text_builder path = {.keep = s->r->scratch};
    uint32_t from = s->depth - 1;
    while (s->stack[from].quantity != again) from--;
    for (uint32_t i = from; i < s->depth; i++) {
        uint32_t next = i + 1 < s->depth ? s->stack[i + 1].quantity : again;
        text_addf(&path, "%s'%.*s' needs '%.*s'", i == from ? "" : ", ",
                  STR_ARG(s->questions[s->stack[i].quantity].id.name),
                  STR_ARG(s->questions[next].id.name));
    }
    const question *q = &s->questions[again];
    fault *f = fault_add(s->r->list, FAULT_FORMULA_LOOP, q->id.at, "'%.*s' rests on itself: %.*s.",
                         STR_ARG(q->id.name), STR_ARG(text_done(&path)));
    fault_help(s->r->list, f, "Let one of them rest on readings alone.");
}

static void open_quantity(settling *s, uint32_t quantity)
{
    s->marks[quantity] = MARK_OPEN;
    s->stack[s->depth++] = (frame){quantity, 0, needs_of(s, quantity)};
}

static void too_much(settling *s, uint32_t quantity, const char *what, uint32_t most)
{
    const label *id = &s->questions[quantity].id;
    fault *f = fault_add(s->r->list, FAULT_TOO_MANY, id->at,
                         "With '%.*s' there are more than %u %s.", STR_ARG(id->name), most, what);
    fault_help(s->r->list, f, "Let it rest on fewer others.");
}

/* The readings beneath what it needs, each once. Too many: none, with a fault. */
static ids readings_beneath(settling *s, const frame *f)
{
    const bool too_many_before = s->readings > GROUND_NAMES_MAX;
    ids_draft all = {0};
    uint32_t level = 0;
    for (uint32_t i = 0; i < f->needs.count; i++) {
        const uint32_t need = f->needs.items[i];
        const question *one = &s->questions[need];
        names_found more = {NAMES_ONE, &need, 1};
        if (one->kind == QUESTION_QUANTITY)
            more = (names_found){NAMES_ONE, one->beneath.items, one->beneath.count};
        if (s->levels[need] > level) level = s->levels[need];
        s->readings += more.count;
        if (s->readings <= GROUND_NAMES_MAX) ids_add(s->r, &all, &more);
    }
    s->levels[f->quantity] = level + 1;
    if (s->readings > GROUND_NAMES_MAX && !too_many_before)
        too_much(s, f->quantity, "readings beneath quantities, all counted", GROUND_NAMES_MAX);
    if (level == QUANTITIES_DEEPEST)
        too_much(s, f->quantity, "quantities resting on each other", QUANTITIES_DEEPEST);
    return ids_of(all.items, all.count);
}

/* What could not be read may rest on signs of a fault. */
static bool is_broken(const reader *r, uint32_t quantity)
{
    return quantity < r->book->named_questions &&
           r->tables[SECTION_QUESTIONS].items[quantity].broken;
}

/* All that it needs is settled: the readings beneath it, how often people get them all right,
 * whether it is a fact. */
static void close_quantity(settling *s, const frame *f)
{
    question *q = &s->questions[f->quantity];
    bool fact = !q->trend && !is_broken(s->r, f->quantity);
    for (uint32_t i = 0; i < f->needs.count; i++)
        fact &= s->questions[f->needs.items[i]].about != ABOUT_FAULT;
    q->beneath = readings_beneath(s, f);
    q->about = fact ? ABOUT_SITE : ABOUT_FAULT;
    q->read_right = 1;
    for (uint32_t i = 0; i < q->beneath.count; i++)
        q->read_right *= s->questions[q->beneath.items[i]].read_right;
    s->marks[f->quantity] = MARK_DONE;
    s->order[s->ordered++] = f->quantity;
}

static void settle_from(settling *s, uint32_t quantity)
{
    open_quantity(s, quantity);
    while (s->depth > 0) {
        frame *top = &s->stack[s->depth - 1];
        if (top->next == top->needs.count) {
            close_quantity(s, top);
            s->depth--;
            continue;
        }
        uint32_t need = top->needs.items[top->next++];
        if (s->questions[need].kind != QUESTION_QUANTITY || s->marks[need] == MARK_DONE) continue;
        if (s->marks[need] == MARK_OPEN)
            loop_found(s, need);
        else
            open_quantity(s, need);
    }
}

/* ---- looking again ---- */

static void add_looked_at(reader *r, ids_draft *all, uint32_t id)
{
    const question *q = &r->book->questions[id];
    if (q->kind != QUESTION_QUANTITY) ids_add(r, all, &(names_found){NAMES_ONE, &id, 1});
    for (uint32_t i = 0; i < q->beneath.count; i++)
        if (r->book->questions[q->beneath.items[i]].about == ABOUT_FAULT)
            ids_add(r, all, &(names_found){NAMES_ONE, &q->beneath.items[i], 1});
}

/* Looking again at a quantity is looking at the readings beneath it. */
static void look_at_readings(reader *r)
{
    for (uint32_t f = 0; f < r->book->fix_count; f++) {
        fix *one = (fix *)(uintptr_t)&r->book->fixes[f];
        ids_draft all = {0};
        for (uint32_t i = 0; i < one->look_again.count; i++)
            add_looked_at(r, &all, one->look_again.items[i]);
        one->look_again = ids_of(all.items, all.count);
    }
}

void settle_quantities(reader *r)
{
    uint32_t count = r->book->question_count;
    settling s = {.r = r, .questions = (question *)(uintptr_t)r->book->questions};
    s.marks = ARENA_ARRAY(r->scratch, mark, count);
    s.stack = ARENA_ARRAY(r->scratch, frame, (size_t)count + 1);
    s.order = ARENA_ARRAY(r->keep, uint32_t, count);
    s.levels = ARENA_ARRAY(r->scratch, uint32_t, count);
    for (uint32_t q = 0; q < count; q++)
        if (s.questions[q].kind == QUESTION_QUANTITY && s.marks[q] == MARK_NEW) settle_from(&s, q);
    r->book->reckon_order = s.order;
    r->book->reckon_count = s.ordered;
    look_at_readings(r);
}
