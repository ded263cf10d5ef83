/* Book to program, and the state that a reading is in. */
#include "compile/program.h"

#include <assert.h>

#include "compile/program_parts.h"

/* Facts of the book in the forms that chaining and belief want. */
const program *program_build(arena *keep, arena *scratch, const book *b, faults *list)
{
    assert(keep != scratch);
    program *p = ARENA_NEW(keep, program);
    p->book = b;
    p->tables = program_cut_readings(keep, scratch, b, list);
    if (p->tables == NULL) return NULL;
    program_name_atoms(keep, p);
    const logic_input *rules = program_logic(keep, p);
    p->rules = logic_build(keep, scratch, rules, list);
    if (p->rules == NULL) return NULL; /* with a loop there is no way to expand the symptoms */
    net_input *evidence = program_evidence(keep, p, list);
    if (evidence == NULL) return NULL;
    program_mark_use(keep, p, evidence);
    p->facts = facts_build(keep, scratch, p, evidence);
    facts_tell_readers(keep, p->facts, evidence);
    p->evidence = net_build(keep, scratch, evidence, list);
    if (p->evidence == NULL) return NULL;
    p->evidence = facts_mix_site(keep, scratch, p->facts, p->evidence);
    return p;
}

uint32_t program_states(const program *p, uint32_t question)
{
    assert(question < p->book->question_count);
    const struct question *q = &p->book->questions[question];
    return q->kind == QUESTION_CHOICE ? q->answer_count : p->tables[question].cut_count + 1;
}

uint32_t program_state_of(const program *p, uint32_t question, double number)
{
    return program_state_near(p, question, number, number);
}

static bool is_past(const cut *c, double number, double magnitude)
{
    return number_is_at(number, magnitude, c->at) ? !c->above : number > c->at;
}

uint32_t program_state_near(const program *p, uint32_t question, double number, double magnitude)
{
    assert(question < p->book->question_count);
    const state_table *t = &p->tables[question];
    uint32_t state = 0;
    while (state < t->cut_count && is_past(&t->cuts[state], number, magnitude)) state++;
    return state;
}
