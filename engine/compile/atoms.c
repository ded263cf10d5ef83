/* The propositions that are derived, numbered, and the conditions under which each holds: what
 * chaining is built from. */
#include <assert.h>

#include "compile/program_parts.h"

static uint32_t *numbered(arena *keep, uint32_t count, uint32_t *next)
{
    uint32_t *atoms = ARENA_ARRAY(keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) atoms[i] = (*next)++;
    return atoms;
}

/* Atoms are numbered symptom, rule, applicability of questions, fixes and causes, conclusion: the
 * order that wm_changes gives them in. */
void program_name_atoms(arena *keep, program *p)
{
    const book *b = p->book;
    uint32_t next = 0;
    p->symptom_atom = numbered(keep, b->symptom_count, &next);
    p->rule_atom = numbered(keep, b->rule_count, &next);
    uint32_t *ask = ARENA_ARRAY(keep, uint32_t, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        ask[q] = b->questions[q].only_when == NULL ? NO_ID : next++;
    p->ask_atom = ask;
    uint32_t *offer = ARENA_ARRAY(keep, uint32_t, b->fix_count);
    for (uint32_t f = 0; f < b->fix_count; f++)
        offer[f] = b->fixes[f].only_when == NULL ? NO_ID : next++;
    p->fix_atom = offer;
    uint32_t *possible = ARENA_ARRAY(keep, uint32_t, b->cause_count);
    for (uint32_t c = 0; c < b->cause_count; c++)
        possible[c] = b->causes[c].only_when == NULL ? NO_ID : next++;
    p->cause_atom = possible;
    const uint32_t **conclusions = ARENA_ARRAY(keep, const uint32_t *, b->conclusion_count);
    for (uint32_t c = 0; c < b->conclusion_count; c++)
        conclusions[c] = numbered(keep, b->conclusions[c].answer_count, &next);
    p->conclusion_atom = conclusions;
}

typedef struct draft {
    arena *keep;
    const program *p;
    logic_atom *atoms;
    logic_body *bodies;
    uint32_t atom_count, body_count;
} draft;

static void add_atom(draft *d, uint32_t atom, str name, span at)
{
    assert(d->atoms[atom].name.p == NULL);
    d->atoms[atom] = (logic_atom){name, at};
    d->atom_count++;
}

static void add_body(draft *d, uint32_t atom, const expr *when, span at)
{
    d->bodies[d->body_count++] = (logic_body){atom, when, at};
}

static void add_conditioned(draft *d, uint32_t atom, const char *kind, const label *id,
                            const cond *when)
{
    add_atom(d, atom, str_printf(d->keep, "%s %.*s", kind, STR_ARG(id->name)), id->at);
    add_body(d, atom, program_condition(d->keep, d->p, when), when->at);
}

static void add_applicability(draft *d)
{
    const book *b = d->p->book;
    for (uint32_t q = 0; q < b->question_count; q++)
        if (d->p->ask_atom[q] != NO_ID)
            add_conditioned(d, d->p->ask_atom[q], "only-when of", &b->questions[q].id,
                            b->questions[q].only_when);
    for (uint32_t f = 0; f < b->fix_count; f++)
        if (d->p->fix_atom[f] != NO_ID)
            add_conditioned(d, d->p->fix_atom[f], "only-when of", &b->fixes[f].id,
                            b->fixes[f].only_when);
    for (uint32_t c = 0; c < b->cause_count; c++)
        if (d->p->cause_atom[c] != NO_ID)
            add_conditioned(d, d->p->cause_atom[c], "only-when of", &b->causes[c].id,
                            b->causes[c].only_when);
}

static void add_conclusion(draft *d, uint32_t conclusion)
{
    const struct conclusion *c = &d->p->book->conclusions[conclusion];
    for (uint32_t a = 0; a < c->answer_count; a++)
        add_atom(d, d->p->conclusion_atom[conclusion][a],
                 str_printf(d->keep, "%.*s is %.*s", STR_ARG(c->id.name),
                            STR_ARG(c->answers[a].id.name)),
                 c->id.at);
}

static void add_rule(draft *d, uint32_t rule)
{
    const struct rule *r = &d->p->book->rules[rule];
    add_conditioned(d, d->p->rule_atom[rule], "rule", &r->id, r->when);
    for (uint32_t i = 0; i < r->set_count; i++)
        add_body(d, d->p->conclusion_atom[r->sets[i].conclusion][r->sets[i].answer],
                 expr_atom(d->keep, d->p->rule_atom[rule], r->sets[i].at), r->sets[i].at);
}

static const logic_finding *logic_findings(arena *keep, const program *p)
{
    const book *b = p->book;
    logic_finding *all = ARENA_ARRAY(keep, logic_finding, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++) {
        uint32_t states = program_states(p, q);
        str *names = ARENA_ARRAY(keep, str, states);
        for (uint32_t s = 0; s < states; s++)
            names[s] = b->questions[q].kind == QUESTION_CHOICE ? b->questions[q].answers[s].id.name
                                                               : program_state_words(keep, p, q, s);
        all[q] = (logic_finding){b->questions[q].id.name, states, names};
    }
    return all;
}

static const logic_group *conclusion_groups(arena *keep, const program *p)
{
    logic_group *groups = ARENA_ARRAY(keep, logic_group, p->book->conclusion_count);
    for (uint32_t c = 0; c < p->book->conclusion_count; c++)
        groups[c] = (logic_group){p->book->conclusions[c].id.name, p->conclusion_atom[c],
                                  p->book->conclusions[c].answer_count};
    return groups;
}

static void count_atoms(const book *b, uint32_t *atoms, uint32_t *bodies)
{
    *bodies = b->symptom_count + b->rule_count;
    for (uint32_t q = 0; q < b->question_count; q++) *bodies += b->questions[q].only_when != NULL;
    for (uint32_t f = 0; f < b->fix_count; f++) *bodies += b->fixes[f].only_when != NULL;
    for (uint32_t c = 0; c < b->cause_count; c++) *bodies += b->causes[c].only_when != NULL;
    *atoms = *bodies;
    for (uint32_t c = 0; c < b->conclusion_count; c++) *atoms += b->conclusions[c].answer_count;
    for (uint32_t r = 0; r < b->rule_count; r++) *bodies += b->rules[r].set_count;
}

const logic_input *program_logic(arena *keep, const program *p)
{
    const book *b = p->book;
    uint32_t atoms, bodies;
    count_atoms(b, &atoms, &bodies);
    draft d = {keep, p, ARENA_ARRAY(keep, logic_atom, atoms), ARENA_ARRAY(keep, logic_body, bodies),
               0,    0};
    for (uint32_t s = 0; s < b->symptom_count; s++)
        add_conditioned(&d, p->symptom_atom[s], "symptom", &b->symptoms[s].id, b->symptoms[s].when);
    for (uint32_t c = 0; c < b->conclusion_count; c++) add_conclusion(&d, c);
    for (uint32_t r = 0; r < b->rule_count; r++) add_rule(&d, r);
    add_applicability(&d);
    assert(d.atom_count == atoms && d.body_count == bodies);
    logic_input *in = ARENA_NEW(keep, logic_input);
    *in = (logic_input){logic_findings(keep, p),
                        b->question_count,
                        d.atoms,
                        d.atom_count,
                        d.bodies,
                        d.body_count,
                        conclusion_groups(keep, p),
                        b->conclusion_count};
    return in;
}
