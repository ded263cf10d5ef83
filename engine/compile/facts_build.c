/* Facts not yet told: which of them the causes' factors read, and together with which. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/facts_parts.h"
#include "compile/reckoned.h"

/* ---- what a condition reads ---- */

static bool reads_fact(facts_draft *d, const expr *const *when, uint32_t count)
{
    bool any = false;
    facts_find_reads(d, when, count);
    for (uint32_t i = 0; i < d->read_count; i++) any |= d->can_be[d->reads[i]];
    for (uint32_t i = 0; i < d->read_count && any; i++)
        d->is_read[d->reads[i]] |= d->can_be[d->reads[i]];
    return any;
}

/* ---- conditions over findings ---- */

static const expr *expanded(const facts_draft *d, const cond *c)
{
    return c == NULL ? NULL : program_expanded(d->expand, c);
}

static void find_facts(facts_draft *d)
{
    const book *b = d->p->book;
    const expr **applies = ARENA_ARRAY(d->keep, const expr *, b->question_count);
    d->can_be = ARENA_ARRAY(d->scratch, bool, b->question_count);
    d->is_read = ARENA_ARRAY(d->scratch, bool, b->question_count);
    d->stamp = ARENA_ARRAY(d->scratch, uint32_t, b->question_count);
    d->reads = ARENA_ARRAY(d->scratch, uint32_t, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++) {
        d->can_be[q] = !d->p->is_evidence[q] && program_states(d->p, q) > 1;
        if (d->can_be[q]) applies[q] = expanded(d, b->questions[q].only_when);
    }
    d->f->applies = applies;
}

/* A rule is ours if it makes some cause more or less likely and reads a fact. */
static void find_rules(facts_draft *d)
{
    const book *b = d->p->book;
    bool *in_blocks = ARENA_ARRAY(d->keep, bool, b->rule_count);
    d->rule_when = ARENA_ARRAY(d->scratch, const expr *, b->rule_count);
    for (uint32_t r = 0; r < b->rule_count; r++) {
        if (b->rules[r].factor_count == 0) continue;
        const arena_mark before = arena_here(d->keep);
        const uint32_t kept = program_expansions(d->expand);
        const expr *when = expanded(d, b->rules[r].when);
        in_blocks[r] = when != NULL && reads_fact(d, &when, 1);
        if (in_blocks[r])
            d->rule_when[r] = when;
        else if (program_expansions(d->expand) == kept)
            arena_back_to(d->keep, before);
    }
    d->f->in_blocks = in_blocks;
}

/* Causes that are one cause at all the pieces of a kind stand together. */
static void find_spans(facts_draft *d)
{
    const book *b = d->p->book;
    uint32_t *begin = ARENA_ARRAY(d->keep, uint32_t, b->cause_count);
    uint32_t *end = ARENA_ARRAY(d->keep, uint32_t, b->cause_count);
    for (uint32_t from = 0, to; from < b->cause_count; from = to) {
        const owner *of = &b->causes[from].of;
        for (to = from + 1;
             to < b->cause_count && of->piece != NO_ID && str_eq(b->causes[to].of.base, of->base);)
            to++;
        for (uint32_t i = from; i < to; i++) {
            begin[i] = from;
            end[i] = to;
        }
    }
    d->f->span_begin = begin;
    d->f->span_end = end;
}

static void find_only_whens(facts_draft *d)
{
    const book *b = d->p->book;
    const expr **when = ARENA_ARRAY(d->keep, const expr *, b->cause_count);
    bool *split = ARENA_ARRAY(d->keep, bool, b->cause_count);
    for (uint32_t c = 0; c < b->cause_count; c++) when[c] = expanded(d, b->causes[c].only_when);
    for (uint32_t from = 0, to; from < b->cause_count; from = to) {
        to = d->f->span_end[from];
        bool all = true;
        for (uint32_t c = from; c < to; c++)
            all &= when[c] != NULL || b->causes[c].only_when == NULL;
        bool ours = all && reads_fact(d, when + from, to - from);
        for (uint32_t c = from; c < to; c++) split[c] = ours;
    }
    d->f->cause_when = when;
    d->f->split_in_blocks = split;
}

/* ---- variables ---- */

#define USUAL_SHARE 0.9 /* as in the tables */

/* The author said how often each answer comes. */
static bool has_shares(const struct question *q)
{
    bool said = false;
    for (uint32_t i = 1; i < q->answer_count && !q->ours; i++)
        said |= q->answers[i].share != q->answers[0].share;
    return said;
}

static double share_of_state(const struct question *q, uint32_t state, uint32_t states,
                             uint32_t usual)
{
    assert(state < states);
    if (states == 1) return 1;
    if (q->about != ABOUT_FAULT && q->kind == QUESTION_CHOICE) {
        bool danger = q->gate && !has_shares(q) && !answer_is_safe(q, state);
        return danger ? 0 : q->answers[state].share;
    }
    if (q->about != ABOUT_FAULT || usual == NO_STATE) return 1.0 / states;
    return state == usual ? USUAL_SHARE : (1 - USUAL_SHARE) / (states - 1);
}

double *fact_shares(arena *keep, const program *p, const net_input *in, uint32_t question)
{
    const uint32_t states = program_states(p, question);
    double *share = ARENA_ARRAY(keep, double, states), sum = 0;
    for (uint32_t s = 0; s < states; s++)
        sum += share[s] =
            share_of_state(&p->book->questions[question], s, states, in->findings[question].usual);
    assert(sum > 0);
    for (uint32_t s = 0; s < states; s++) share[s] /= sum;
    return share;
}

typedef struct one_finding {
    uint32_t finding;
    bool several;
} one_finding;

static void note_finding(void *context, uint32_t finding)
{
    one_finding *seen = context;
    seen->several |= seen->finding != NO_ID && seen->finding != finding;
    seen->finding = finding;
}

/* Whether it applies may rest on one fact alone: on which, and in which of its states. */
static void find_parent(const facts_draft *d, fact_variable *v)
{
    const expr *applies = d->f->applies[v->finding];
    one_finding seen = {NO_ID, false};
    v->parent = NO_VARIABLE;
    if (applies != NULL) expr_each_finding(applies, note_finding, &seen);
    if (seen.finding == NO_ID || seen.several || seen.finding == v->finding) return;
    uint32_t parent = d->f->variable_of[seen.finding];
    if (parent == NO_VARIABLE) return;
    arena_mark mark = arena_here(d->scratch);
    uint32_t *state = ARENA_ARRAY(d->scratch, uint32_t, d->f->finding_count);
    for (uint32_t s = 0; s < d->f->variables[parent].states; s++) {
        state[seen.finding] = s;
        if (expr_holds(applies, state)) v->parent_states |= (state_mask)1 << s;
    }
    arena_back_to(d->scratch, mark);
    if (v->parent_states != 0) v->parent = parent;
}

/* A loop of facts that each wait for the next has no beginning: none of them waits. */
static void drop_parents_in_loops(const facts *f, fact_variable *all)
{
    for (uint32_t v = 0; v < f->variable_count; v++) {
        uint32_t at = all[v].parent, steps = 0;
        while (at != NO_VARIABLE && steps++ <= f->variable_count) at = all[at].parent;
        if (at != NO_VARIABLE) all[v].parent = NO_VARIABLE;
    }
}

static void make_variables(facts_draft *d)
{
    facts *f = d->f;
    uint32_t *variable_of = ARENA_ARRAY(d->keep, uint32_t, f->finding_count), count = 0;
    for (uint32_t q = 0; q < f->finding_count; q++)
        variable_of[q] = d->is_read[q] ? count++ : NO_VARIABLE;
    fact_variable *all = ARENA_ARRAY(d->keep, fact_variable, count);
    f->variables = all;
    f->variable_of = variable_of;
    f->variable_count = count;
    for (uint32_t q = 0; q < f->finding_count; q++)
        if (d->is_read[q])
            all[variable_of[q]] = (fact_variable){.finding = q,
                                                  .states = program_states(d->p, q),
                                                  .share = fact_shares(d->keep, d->p, d->in, q)};
    for (uint32_t v = 0; v < count; v++) find_parent(d, &all[v]);
    drop_parents_in_loops(f, all);
}

/* ---- all together ---- */

static facts_told told_nothing(arena *keep, const facts *f)
{
    state_mask *possible = ARENA_ARRAY(keep, state_mask, f->finding_count);
    memcpy(possible, f->every, f->finding_count * sizeof *possible);
    return (facts_told){possible, ARENA_ARRAY(keep, bool, f->finding_count), NULL, NULL};
}

static const reply *reply_of(void *context, uint32_t question)
{
    const reply *const *replies = context;
    return replies[question];
}

/* What the site's file says, and what is reckoned from it. */
static facts_told told_by_site(arena *keep, const facts *f, const program *p)
{
    const book *b = p->book;
    facts_told told = told_nothing(keep, f);
    const reply **replies = ARENA_ARRAY(keep, const reply *, f->finding_count);
    const known_replies known = {p, reply_of, replies};
    formula_lack why;
    for (uint32_t i = 0; i < b->site_answer_count; i++)
        replies[b->site_answers[i].given.question] = &b->site_answers[i].given;
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        uint32_t q = b->reckon_order[i];
        reply *r = ARENA_NEW(keep, reply);
        if (replies[q] == NULL && quantity_reckoned(&known, q, r, &why)) replies[q] = r;
    }
    for (uint32_t q = 0; q < f->finding_count; q++)
        if (replies[q] != NULL)
            ((state_mask *)(uintptr_t)told.possible)[q] =
                reply_mask(p, replies[q], (bool *)(uintptr_t)&told.known[q]);
    return told;
}

static void find_states(facts_draft *d)
{
    state_mask *every = ARENA_ARRAY(d->keep, state_mask, d->f->finding_count);
    for (uint32_t q = 0; q < d->f->finding_count; q++)
        every[q] = every_state(program_states(d->p, q));
    d->f->every = every;
}

static void fill_tables(facts_draft *d)
{
    const facts_told nothing = told_nothing(d->scratch, d->f);
    facts_range r = facts_range_of(d->scratch, d->f, &nothing);
    for (uint32_t k = 0; k < d->f->block_count; k++)
        if (d->f->blocks[k].table != NULL)
            facts_fill_table(&r, &d->blocks[k], (double *)(uintptr_t)d->blocks[k].table);
}

/* Weights that start as the shares. */
static double *const *start_weights(arena *keep, facts *f)
{
    fact_variable *all = ARENA_ARRAY(keep, fact_variable, f->variable_count);
    double **weights = ARENA_ARRAY(keep, double *, f->variable_count);
    for (uint32_t v = 0; v < f->variable_count; v++) {
        all[v] = f->variables[v];
        weights[v] = ARENA_ARRAY(keep, double, all[v].states);
        memcpy(weights[v], all[v].share, all[v].states * sizeof *weights[v]);
        all[v].weight = weights[v];
    }
    f->variables = all;
    return weights;
}

/* Facts that symptoms name decide between tables. */
static void note_named(void *context, uint32_t finding)
{
    facts_draft *d = context;
    if (d->in->findings[finding].fact && d->can_be[finding]) d->is_read[finding] = true;
}

/* True: it was told. */
static bool tell_too_much(const facts *f, faults *list)
{
    uint32_t most;
    if (facts_steps(f, &most) <= FACTS_STEPS_MAX || most == NO_ID) return false;
    const fact_block *b = &f->blocks[most];
    const label *cause = &f->book->causes[b->cause].id;
    fault *x = fault_add(list, FAULT_FACTS_TOO_MANY, cause->at,
                         "Rules read more facts together than can be weighed: %u of them move "
                         "'%.*s', and read %u facts that hang together.",
                         b->term_count, STR_ARG(cause->name), b->variable_count);
    fault_help(list, x,
               "Begin here, and let each rule read fewer facts, or facts that no other rule of the "
               "same cause reads.");
    return true;
}

const facts *facts_build(arena *keep, arena *scratch, const program *p, const net_input *in,
                         faults *list)
{
    assert(keep != scratch && p->is_evidence != NULL);
    arena_mark mark = arena_here(scratch);
    facts *f = ARENA_NEW(keep, facts);
    facts_draft d = {.keep = keep,
                     .scratch = scratch,
                     .p = p,
                     .in = in,
                     .expand = program_expander(keep, p),
                     .f = f};
    f->book = p->book;
    f->finding_count = p->book->question_count;
    find_states(&d);
    find_facts(&d);
    find_rules(&d);
    find_spans(&d);
    find_only_whens(&d);
    for (uint32_t i = 0; i < in->symptom_count; i++)
        expr_each_finding(in->symptoms[i].when, note_named, &d);
    make_variables(&d);
    facts_make_blocks(&d);
    if (tell_too_much(f, list)) return NULL;
    double *const *weights = start_weights(keep, f);
    fill_tables(&d);
    f->site = told_by_site(keep, f, p);
    facts_rake(scratch, f, in->weights, weights);
    arena_back_to(scratch, mark);
    return f;
}

const facts *facts_with(arena *keep, arena *scratch, const facts *f, const double *cause_weights)
{
    arena_mark mark = arena_here(scratch);
    facts *out = ARENA_NEW(keep, facts);
    *out = *f;
    double *const *weights = start_weights(keep, out);
    facts_rake(scratch, out, cause_weights, weights);
    arena_back_to(scratch, mark);
    return out;
}

void facts_tell_readers(arena *keep, const facts *f, net_input *in)
{
    net_reader *all = ARENA_ARRAY(keep, net_reader, f->first_of[f->variable_count]);
    uint32_t count = 0;
    for (uint32_t v = 0; v < f->variable_count; v++)
        for (uint32_t i = f->first_of[v]; i < f->first_of[v + 1]; i++)
            all[count++] = (net_reader){f->blocks[f->block_of[i]].cause, f->variables[v].finding};
    in->readers = all;
    in->reader_count = count;
}
