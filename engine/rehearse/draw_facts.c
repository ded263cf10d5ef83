/* The facts of a made-up call. */
#include "rehearse/draw_facts.h"

#include <assert.h>
#include <string.h>

#include "believe/untold.h"

static dice dice_of_fact(const program *p, uint64_t seed, uint64_t call, uint32_t question)
{
    return dice_for(seed, call, DICE_FACT, dice_named(p->book->questions[question].id.name, 0));
}

static bool is_fact(const program *p, uint32_t question)
{
    return p->book->questions[question].about != ABOUT_FAULT;
}

typedef struct drawing {
    arena *scratch;
    const program *p;
    uint64_t seed, call;
    uint32_t *state;
    state_mask *left; /* [question] */
    bool *drawn;
    double *prior; /* [cause] */
} drawing;

/* As the causes and the facts drawn before it have it. */
static uint32_t draw_variable(drawing *d, uint32_t question)
{
    const facts *f = d->p->facts;
    arena_mark mark = arena_here(d->scratch);
    const facts_outlook o =
        facts_look(d->scratch, f, &(facts_told){d->left, f->site.known, NULL, NULL});
    dice roll = dice_of_fact(d->p, d->seed, d->call, question);
    uint32_t states = program_states(d->p, question);
    const double *odds = fact_shares(d->scratch, d->p, &d->p->evidence->in, question);
    for (uint32_t c = 0; c < d->p->book->cause_count; c++)
        d->prior[c] = d->p->evidence->in.weights[c] * o.factor[c];
    if (o.odds[f->variable_of[question]] != NULL)
        odds = untold_predict(d->scratch, &o, question, d->prior).other;
    uint32_t state = dice_pick(&roll, odds, states);
    arena_back_to(d->scratch, mark);
    return state;
}

/* What decides whether a fact applies comes before it. What is reckoned follows from the readings.
 */
static void draw_from(drawing *d, uint32_t variable)
{
    const fact_variable *v = &d->p->facts->variables[variable];
    if (d->drawn[v->finding] || !is_fact(d->p, v->finding)) return;
    d->drawn[v->finding] = true;
    if (v->parent != NO_VARIABLE) draw_from(d, v->parent);
    if (d->p->book->questions[v->finding].kind == QUESTION_QUANTITY ||
        d->p->facts->site.known[v->finding])
        return;
    d->state[v->finding] = draw_variable(d, v->finding);
    d->left[v->finding] = (state_mask)1 << d->state[v->finding];
}

static void draw_by_share(const drawing *d, uint32_t question)
{
    arena_mark mark = arena_here(d->scratch);
    dice roll = dice_of_fact(d->p, d->seed, d->call, question);
    d->state[question] =
        dice_pick(&roll, fact_shares(d->scratch, d->p, &d->p->evidence->in, question),
                  program_states(d->p, question));
    arena_back_to(d->scratch, mark);
}

void facts_draw(arena *scratch, const program *p, uint64_t seed, uint64_t call, uint32_t *state)
{
    const facts *f = p->facts;
    arena_mark mark = arena_here(scratch);
    drawing d = {scratch,
                 p,
                 seed,
                 call,
                 state,
                 ARENA_ARRAY(scratch, state_mask, f->finding_count),
                 ARENA_ARRAY(scratch, bool, f->finding_count),
                 ARENA_ARRAY(scratch, double, p->book->cause_count)};
    assert(f->finding_count == p->book->question_count);
    memcpy(d.left, f->site.possible, f->finding_count * sizeof *d.left);
    for (uint32_t q = 0; q < f->finding_count; q++)
        if (is_fact(p, q)) draw_by_share(&d, q);
    for (uint32_t v = 0; v < f->variable_count; v++) draw_from(&d, v);
    arena_back_to(scratch, mark);
}

const double *facts_odds_with(arena *scratch, const program *p, const tt_case *told,
                              uint32_t question, uint32_t cause)
{
    const uint32_t variable = p->facts->variable_of[question], states = program_states(p, question);
    if (variable == NO_VARIABLE || told->now.untold->odds[variable] == NULL) return NULL;
    double *prior = ARENA_ARRAY(scratch, double, p->book->cause_count);
    for (uint32_t c = 0; c < p->book->cause_count; c++)
        prior[c] = p->evidence->in.weights[c] * told->now.factor[c];
    const prediction seen = untold_predict(scratch, told->now.untold, question, prior);
    for (uint32_t i = 0; i < seen.listed_count; i++)
        if (seen.listed[i] == cause) return seen.rows + (size_t)i * states;
    return cause == NO_ID ? seen.other : seen.base;
}
