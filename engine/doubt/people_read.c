/* Every text of a book that people read, or have read to them: for what must hold of all of them,
 * such as that it is there in each language. */
#include <assert.h>

#include "base/grow.h"
#include "doubt/doubt.h"

typedef struct gathering {
    arena *keep;
    read_list all;
    uint32_t room;
} gathering;

static void add_when(gathering *g, const texts *t, const char *what, const label *name,
                     const cond *only_when)
{
    assert(t != NULL && what != NULL && name != NULL);
    if (t->count == 0) return;
    const span at = t->at.file == NO_FILE ? name->at : t->at;
    GROW(g->keep, g->all.items, g->all.count, g->room);
    g->all.items[g->all.count++] = (read_text){t, at, what, name, only_when};
}

static void add(gathering *g, const texts *t, const char *what, const label *name)
{
    add_when(g, t, what, name, NULL);
}

static void add_picture(gathering *g, const picture *p, const label *name)
{
    if (p != NULL) add(g, &p->text, "picture", name);
}

static void add_list(gathering *g, const texts_list *list, const char *what, const label *name)
{
    for (uint32_t i = 0; i < list->count; i++) {
        add(g, &list->items[i], what, name);
        add_picture(g, list->items[i].picture, name);
    }
}

static void add_question(gathering *g, const question *q)
{
    const bool quantity = q->kind == QUESTION_QUANTITY;
    if (q->ours || q->made) return;
    add_when(g, &q->ask, quantity ? "quantity" : "question", &q->id, q->only_when);
    add(g, &q->look, "look", &q->id);
    add(g, &q->because, "because", &q->id);
    add(g, &q->say, "say", &q->id);
    add_picture(g, q->picture, &q->id);
    for (uint32_t k = 0; k < q->answer_count && !q->yes_no; k++) {
        add(g, &q->answers[k].text, "answer", &q->answers[k].id);
        add_picture(g, q->answers[k].picture, &q->answers[k].id);
    }
}

static void add_cause(gathering *g, const cause *c)
{
    add_when(g, &c->text, "cause", &c->id, c->only_when);
    add(g, &c->means, "means", &c->id);
    add_picture(g, c->picture, &c->id);
    add_list(g, &c->spare_parts, "part", &c->id);
}

static void add_fix(gathering *g, const fix *x)
{
    add_when(g, &x->text, "fix", &x->id, x->only_when);
    add_list(g, &x->steps, "step", &x->id);
    add_list(g, &x->once_running, "step", &x->id);
    add_list(g, &x->parts, "part", &x->id);
    add(g, &x->harm.why, "reason", &x->id);
    add(g, &x->undo.text, "put-back", &x->id);
}

static void add_procedure(gathering *g, const procedure *p)
{
    add(g, &p->tell, "line", &p->id);
    add_list(g, &p->isolate, "line", &p->id);
    add_list(g, &p->release, "line", &p->id);
    add_list(g, &p->prove, "line", &p->id);
    add_list(g, &p->restore, "line", &p->id);
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

static void add_conclusion(gathering *g, const conclusion *c)
{
    add(g, &c->text, "conclusion", &c->id);
}

static void add_manifest(gathering *g, const book *b)
{
    static const label manifest = {{"book", 4}, {NO_FILE, 0, 0}};
    if (b->stop_text.at.file != NO_FILE) add(g, &b->stop_text, "stop", &manifest); /* else ours */
    add_list(g, &b->cautions, "caution", &manifest);
    add_picture(g, b->picture, &manifest);
    for (uint32_t i = 0; i < b->hazard_caution_count; i++)
        add(g, &b->hazard_cautions[i].text, "caution", &manifest);
}

read_list what_people_read(const doubter *d)
{
    const book *b = d->book;
    gathering g = {.keep = d->scratch};
    add_manifest(&g, b);
    for (uint32_t i = 0; i < b->question_count; i++) add_question(&g, &b->questions[i]);
    for (uint32_t i = 0; i < b->cause_count; i++) add_cause(&g, &b->causes[i]);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!b->symptoms[i].from_confirms)
            add(&g, &b->symptoms[i].text, "symptom", &b->symptoms[i].id);
    for (uint32_t i = 0; i < b->fix_count; i++) add_fix(&g, &b->fixes[i]);
    for (uint32_t i = 0; i < b->procedure_count; i++) add_procedure(&g, &b->procedures[i]);
    for (uint32_t i = 0; i < b->protection_count; i++)
        add_list(&g, &b->protection[i].worn, "protection", &b->protection[i].id);
    for (uint32_t i = 0; i < b->conclusion_count; i++) add_conclusion(&g, &b->conclusions[i]);
    for (uint32_t i = 0; i < b->rule_count; i++) add_rule(&g, &b->rules[i]);
    for (uint32_t i = 0; i < b->emergency_count; i++) add_emergency(&g, &b->emergencies[i]);
    for (uint32_t i = 0; i < b->place_count; i++)
        add(&g, &b->places[i].text, "place", &b->places[i].id);
    for (uint32_t i = 0; i < b->instrument_count; i++)
        add(&g, &b->instruments[i].text, "instrument", &b->instruments[i].id);
    return g.all;
}
