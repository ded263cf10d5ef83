/* Every text of a book that people read, or have read to them: for what must hold of all of them,
 * such as that it is there in each language. */
#include "doubt/people_read.h"

#include <assert.h>

/* Pieces of a kind share lists that name none of them: those of all pieces come one after the
 * other. */
typedef struct gathered {
    const void *list;
    uint32_t first, count, role;
} gathered;
enum { GATHERED = 64 };

typedef struct gathering {
    gathered before[GATHERED];
    const book *of;
    read_list all;
    bool counts;   /* how many there are, before there is room for them */
    uint32_t role; /* who reads what is added now */
} gathering;

enum { LOWEST = 0 }; /* the role that asks for help */

static void add_when(gathering *g, const texts *t, const char *what, const label *name,
                     const cond *only_when)
{
    assert(t != NULL && what != NULL && name != NULL);
    if (t->count == 0) return;
    const span at = t->at.file == NO_FILE ? name->at : t->at;
    const uint32_t i = g->all.count++;
    if (!g->counts) g->all.items[i] = (read_text){t, at, what, name, only_when, g->role, 1};
}

static void add(gathering *g, const texts *t, const char *what, const label *name)
{
    add_when(g, t, what, name, NULL);
}

static void add_picture(gathering *g, const picture *p, const label *name)
{
    if (p != NULL) add(g, &p->text, "picture", name);
}

/* Whether this list was there for another entry: then its texts are read once more. */
static gathered *begin_list(gathering *g, const void *list)
{
    gathered *at = &g->before[((uintptr_t)list >> 4) % GATHERED];
    if (list != NULL && at->list == list && at->role == g->role) {
        for (uint32_t i = 0; i < at->count && !g->counts; i++) g->all.items[at->first + i].times++;
        return NULL;
    }
    *at = (gathered){list, g->all.count, 0, g->role};
    return at;
}

static void add_list(gathering *g, const texts_list *list, const char *what, const label *name)
{
    gathered *at = list->count == 0 ? NULL : begin_list(g, list->items);
    if (at == NULL) return;
    for (uint32_t i = 0; i < list->count; i++) {
        add(g, &list->items[i], what, name);
        add_picture(g, list->items[i].picture, name);
    }
    at->count = g->all.count - at->first;
}

static void add_answers(gathering *g, const question *q)
{
    gathered *at = q->answer_count == 0 || q->yes_no ? NULL : begin_list(g, q->answers);
    if (at == NULL) return;
    for (uint32_t k = 0; k < q->answer_count; k++) {
        add(g, &q->answers[k].text, "answer", &q->answers[k].id);
        add_picture(g, q->answers[k].picture, &q->answers[k].id);
    }
    at->count = g->all.count - at->first;
}

static void add_put_back(gathering *g, const put_back *undo, const label *name)
{
    if (undo->kind == PUT_BACK_TEXT) add(g, &undo->text, "put-back", name);
}

static void add_question(gathering *g, const question *q)
{
    const bool quantity = q->kind == QUESTION_QUANTITY;
    if (q->ours || q->made) return;
    g->role = q->role;
    add_when(g, &q->ask, quantity ? "quantity" : "question", &q->id, q->only_when);
    add(g, &q->look, "look", &q->id);
    add(g, &q->because, "because", &q->id);
    add(g, &q->say, "say", &q->id);
    add_picture(g, q->picture, &q->id);
    add_answers(g, q);
    add_list(g, &q->harm.protect, "protection", &q->id);
    add(g, &q->harm.why, "reason", &q->id);
    add_put_back(g, &q->undo, &q->id);
    g->role = LOWEST;
}

static void add_cause(gathering *g, const cause *c)
{
    add_when(g, &c->text, "cause", &c->id, c->only_when);
    add(g, &c->means, "means", &c->id);
    add_picture(g, c->picture, &c->id);
    add_list(g, &c->spare_parts, "part", &c->id);
}

/* What has to be done is told to everybody, who is then called reads how. */
static void add_fix(gathering *g, const fix *x)
{
    add_when(g, &x->text, "fix", &x->id, x->only_when);
    g->role = x->role;
    add_list(g, &x->steps, "step", &x->id);
    add_list(g, &x->once_running, "step", &x->id);
    add_list(g, &x->parts, "part", &x->id);
    add_list(g, &x->harm.protect, "protection", &x->id);
    add(g, &x->harm.why, "reason", &x->id);
    add_put_back(g, &x->undo, &x->id);
    g->role = LOWEST;
}

static bool is_by(const safety *s, uint32_t procedure)
{
    for (uint32_t i = 0; i < s->procedure_count; i++)
        if (s->procedures[i] == procedure) return true;
    return false;
}

/* The lowest role whose work is by this procedure; the highest there is if nobody's is. */
static uint32_t reader_of(const book *b, uint32_t procedure)
{
    uint32_t lowest = b->role_count - 1;
    assert(b->role_count > 0 && procedure < b->procedure_count);
    for (uint32_t i = 0; i < b->fix_count; i++)
        if (is_by(&b->fixes[i].harm, procedure) && b->fixes[i].role < lowest)
            lowest = b->fixes[i].role;
    for (uint32_t i = 0; i < b->question_count; i++)
        if (is_by(&b->questions[i].harm, procedure) && b->questions[i].role < lowest)
            lowest = b->questions[i].role;
    return lowest;
}

static void add_procedure(gathering *g, uint32_t which)
{
    const procedure *p = &g->of->procedures[which];
    g->role = reader_of(g->of, which);
    add(g, &p->tell, "line", &p->id);
    add_list(g, &p->isolate, "line", &p->id);
    add_list(g, &p->release, "line", &p->id);
    add_list(g, &p->prove, "line", &p->id);
    add_list(g, &p->restore, "line", &p->id);
    add_list(g, &p->wear, "protection", &p->id);
    g->role = LOWEST;
}

static void add_rule(gathering *g, const rule *r)
{
    add(g, &r->caution, "caution", &r->id);
    add(g, &r->stop, "stop", &r->id);
}

static void add_emergency(gathering *g, const emergency *e)
{
    if (e->ours) return;
    add(g, &e->text, "emergency", &e->id);
    add_list(g, &e->do_now, "line", &e->id);
    add_list(g, &e->then, "line", &e->id);
}

static void add_kind(gathering *g, const equipment_kind *k)
{
    add(g, &k->one, "kind", &k->id);
    add(g, &k->ask, "question", &k->id);
}

static void add_instrument(gathering *g, const instrument *i)
{
    add(g, &i->text, "instrument", &i->id);
    add(g, &i->another, "instrument", &i->id);
}

static void add_conclusion(gathering *g, const conclusion *c)
{
    add(g, &c->text, "conclusion", &c->id);
}

static void add_manifest(gathering *g, const book *b)
{
    static const label manifest = {{"book", 4}, {NO_FILE, 0, 0}};
    add(g, &b->title, "title", &manifest);
    if (b->stop_text.at.file != NO_FILE) add(g, &b->stop_text, "stop", &manifest); /* else ours */
    add_list(g, &b->cautions, "caution", &manifest);
    add_picture(g, b->picture, &manifest);
    for (uint32_t i = 0; i < b->hazard_caution_count; i++)
        add(g, &b->hazard_cautions[i].text, "caution", &manifest);
}

static void add_sections(gathering *g, const book *b)
{
    for (uint32_t i = 0; i < b->question_count; i++) add_question(g, &b->questions[i]);
    for (uint32_t i = 0; i < b->cause_count; i++) add_cause(g, &b->causes[i]);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!b->symptoms[i].from_confirms)
            add(g, &b->symptoms[i].text, "symptom", &b->symptoms[i].id);
    for (uint32_t i = 0; i < b->fix_count; i++) add_fix(g, &b->fixes[i]);
    for (uint32_t i = 0; i < b->procedure_count; i++) add_procedure(g, i);
    for (uint32_t i = 0; i < b->conclusion_count; i++) add_conclusion(g, &b->conclusions[i]);
    for (uint32_t i = 0; i < b->rule_count; i++) add_rule(g, &b->rules[i]);
    for (uint32_t i = 0; i < b->emergency_count; i++) add_emergency(g, &b->emergencies[i]);
}

static uint32_t add_all(gathering *g, const book *b)
{
    add_manifest(g, b);
    add_sections(g, b);
    for (uint32_t i = 0; i < b->role_count; i++) add(g, &b->role_text[i], "role", &b->roles[i]);
    for (uint32_t i = 0; i < b->place_count; i++)
        add(g, &b->places[i].text, "place", &b->places[i].id);
    for (uint32_t i = 0; i < b->instrument_count; i++) add_instrument(g, &b->instruments[i]);
    for (uint32_t i = 0; i < b->kind_count; i++) add_kind(g, &b->kinds[i]);
    for (uint32_t i = 0; i < b->piece_count; i++)
        if (!b->pieces[i].stand_in) add(g, &b->pieces[i].text, "piece", &b->pieces[i].id);
    return g->all.count;
}

read_list what_people_read(const doubter *d)
{
    gathering counts = {.of = d->book, .role = LOWEST, .counts = true},
              g = {.of = d->book, .role = LOWEST};
    const uint32_t count = add_all(&counts, d->book);
    g.all.items = arena_take_unset(d->scratch, count * sizeof *g.all.items);
    add_all(&g, d->book);
    assert(g.all.count == count);
    return g.all;
}
