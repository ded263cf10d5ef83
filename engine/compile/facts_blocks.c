/* The factors of each cause, in blocks that share no facts. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/facts_parts.h"

typedef struct term_draft {
    const expr *when;
    double factor;
    const uint32_t *reads; /* findings */
    uint32_t read_count;
} term_draft;

static uint32_t root_of(const facts_draft *d, uint32_t v)
{
    while (d->root[v] != v) v = d->root[v] = d->root[d->root[v]];
    return v;
}

static uint32_t variable_at(const facts_draft *d, const term_draft *t, uint32_t i)
{
    assert(i < t->read_count);
    return d->f->variable_of[t->reads[i]];
}

/* Terms that share a variable belong together. */
static void join_terms(facts_draft *d, const term_draft *terms, uint32_t count)
{
    for (uint32_t t = 0; t < count; t++)
        for (uint32_t i = 0; i < terms[t].read_count; i++) {
            uint32_t v = variable_at(d, &terms[t], i);
            if (v == NO_VARIABLE) continue;
            d->root[v] = v;
            d->block_of_root[v] = UINT32_MAX;
        }
    for (uint32_t t = 0; t < count; t++) {
        uint32_t first = NO_VARIABLE;
        for (uint32_t i = 0; i < terms[t].read_count; i++) {
            uint32_t v = variable_at(d, &terms[t], i);
            if (v == NO_VARIABLE) continue;
            if (first == NO_VARIABLE)
                first = v;
            else
                d->root[root_of(d, v)] = root_of(d, first);
        }
        assert(first != NO_VARIABLE);
    }
}

static uint32_t root_of_term(const facts_draft *d, const term_draft *t)
{
    for (uint32_t i = 0; i < t->read_count; i++)
        if (variable_at(d, t, i) != NO_VARIABLE) return root_of(d, variable_at(d, t, i));
    assert(!"a term reads a fact");
    return NO_VARIABLE;
}

/* The findings that a block's terms read: its variables, and the others. */
static void gather_reads(facts_draft *d, fact_block *b, const term_draft *const *terms,
                         uint32_t count)
{
    uint32_t most = 0;
    for (uint32_t t = 0; t < count; t++) most += terms[t]->read_count;
    uint32_t *all = ARENA_ARRAY(d->scratch, uint32_t, most), n = 0;
    for (uint32_t t = 0; t < count; t++)
        for (uint32_t i = 0; i < terms[t]->read_count; i++) all[n++] = terms[t]->reads[i];
    SORT(all, n, by_rising_id);
    uint32_t *variables = ARENA_ARRAY(d->keep, uint32_t, n),
             *others = ARENA_ARRAY(d->keep, uint32_t, n);
    for (uint32_t i = 0; i < n; i++) {
        if (i > 0 && all[i] == all[i - 1]) continue;
        uint32_t v = d->f->variable_of[all[i]];
        if (v == NO_VARIABLE)
            others[b->other_count++] = all[i];
        else
            variables[b->variable_count++] = v;
    }
    b->variables = variables;
    b->others = others;
}

static void lay_out(facts_draft *d, fact_block *b, uint64_t *combinations)
{
    uint32_t *room = ARENA_ARRAY(d->keep, uint32_t, b->variable_count);
    uint32_t *stride = ARENA_ARRAY(d->keep, uint32_t, b->variable_count);
    *combinations = 1;
    for (uint32_t i = b->variable_count; i-- > 0;) {
        stride[i] = (uint32_t)*combinations;
        *combinations *= d->f->variables[b->variables[i]].states;
        if (*combinations > FACTS_COMBINATIONS_MAX) *combinations = FACTS_COMBINATIONS_MAX + 1;
    }
    for (uint32_t i = 0; i < b->variable_count; i++) {
        room[i] = b->state_count;
        b->state_count += d->f->variables[b->variables[i]].states;
        d->place[b->variables[i]] = i;
    }
    b->room = room;
    b->stride = stride;
}

static void take_terms(facts_draft *d, fact_block *b, const term_draft *const *terms,
                       uint32_t count)
{
    fact_term *all = ARENA_ARRAY(d->keep, fact_term, count);
    for (uint32_t t = 0; t < count; t++) {
        uint32_t *variables = ARENA_ARRAY(d->keep, uint32_t, terms[t]->read_count), n = 0;
        for (uint32_t i = 0; i < terms[t]->read_count; i++)
            if (variable_at(d, terms[t], i) != NO_VARIABLE)
                variables[n++] = d->place[variable_at(d, terms[t], i)];
        all[t] = (fact_term){terms[t]->when, terms[t]->factor, variables, n};
        b->splits |= terms[t]->when == NULL;
    }
    b->term_count = count;
    b->terms = all;
}

static void make_block(facts_draft *d, fact_block *b, const term_draft *const *terms,
                       uint32_t count)
{
    arena_mark mark = arena_here(d->scratch);
    gather_reads(d, b, terms, count);
    arena_back_to(d->scratch, mark);
    uint64_t combinations;
    lay_out(d, b, &combinations);
    take_terms(d, b, terms, count);
    if (combinations <= FACTS_COMBINATIONS_MAX)
        b->table = ARENA_ARRAY(d->keep, double, combinations);
}

/* Blocks come as their first terms do, and the terms of each stay in order. */
static void make_blocks(facts_draft *d, uint32_t cause, const term_draft *terms, uint32_t count)
{
    const uint32_t before = d->f->block_count;
    uint32_t *of = ARENA_ARRAY(d->scratch, uint32_t, count);
    uint32_t *first = ARENA_ARRAY(d->scratch, uint32_t, (size_t)count + 2);
    const term_draft **own = ARENA_ARRAY(d->scratch, const term_draft *, count);
    join_terms(d, terms, count);
    for (uint32_t t = 0; t < count; t++) {
        uint32_t *block = &d->block_of_root[root_of_term(d, &terms[t])];
        if (*block == UINT32_MAX) *block = d->f->block_count++;
        of[t] = *block - before;
        first[of[t] + 2]++;
    }
    assert(d->f->block_count <= d->block_room);
    /* Counts stand two places up: filling moves first[b + 1] from the beginning of b to its end. */
    for (uint32_t b = 0; b < d->f->block_count - before; b++) first[b + 2] += first[b + 1];
    for (uint32_t t = 0; t < count; t++) own[first[of[t] + 1]++] = &terms[t];
    for (uint32_t b = 0; b < d->f->block_count - before; b++) {
        d->blocks[before + b] = (fact_block){.cause = cause};
        make_block(d, &d->blocks[before + b], own + first[b], first[b + 1] - first[b]);
    }
}

typedef struct factor_place {
    uint32_t rule, factor;
} factor_place;

/* In the order of the rules; `first` [cause + 1] gets where those of a cause begin. */
static const factor_place *factors_by_cause(facts_draft *d, uint32_t *first)
{
    const book *b = d->p->book;
    uint32_t total = 0;
    for (uint32_t r = 0; r < b->rule_count; r++)
        for (uint32_t i = 0; d->f->in_blocks[r] && i < b->rules[r].factor_count; i++, total++)
            first[b->rules[r].factors[i].cause + 1]++;
    for (uint32_t c = 0; c < b->cause_count; c++) first[c + 1] += first[c];
    factor_place *all = ARENA_ARRAY(d->scratch, factor_place, total);
    uint32_t *next = ARENA_ARRAY(d->scratch, uint32_t, b->cause_count);
    for (uint32_t c = 0; c < b->cause_count; c++) next[c] = first[c];
    for (uint32_t r = 0; r < b->rule_count; r++)
        for (uint32_t i = 0; d->f->in_blocks[r] && i < b->rules[r].factor_count; i++)
            all[next[b->rules[r].factors[i].cause]++] = (factor_place){r, i};
    return all;
}

static term_draft term_of(facts_draft *d, const expr *when, double factor, const expr *const *reads,
                          uint32_t count)
{
    facts_find_reads(d, reads, count);
    uint32_t *copy = ARENA_ARRAY(d->scratch, uint32_t, d->read_count);
    memcpy(copy, d->reads, d->read_count * sizeof *copy);
    return (term_draft){when, factor, copy, d->read_count};
}

static void blocks_of_cause(facts_draft *d, uint32_t cause, const factor_place *factors,
                            uint32_t count)
{
    const book *b = d->p->book;
    uint32_t n = 0, begin = d->f->span_begin[cause], end = d->f->span_end[cause];
    arena_mark mark = arena_here(d->scratch);
    term_draft *terms = ARENA_ARRAY(d->scratch, term_draft, (size_t)count + 1);
    for (uint32_t i = 0; i < count; i++) {
        const expr *when = d->rule_when[factors[i].rule];
        double factor = b->rules[factors[i].rule].factors[factors[i].factor].factor;
        terms[n++] = term_of(d, when, factor, &when, 1);
    }
    if (d->f->split_in_blocks[cause])
        terms[n++] = term_of(d, NULL, 1, d->f->cause_when + begin, end - begin);
    make_blocks(d, cause, terms, n);
    arena_back_to(d->scratch, mark);
}

/* Which blocks read a variable. */
static void index_blocks(facts_draft *d)
{
    facts *f = d->f;
    uint32_t *first = ARENA_ARRAY(d->keep, uint32_t, f->variable_count + 1);
    for (uint32_t k = 0; k < f->block_count; k++)
        for (uint32_t i = 0; i < f->blocks[k].variable_count; i++)
            first[f->blocks[k].variables[i] + 1]++;
    for (uint32_t v = 0; v < f->variable_count; v++) first[v + 1] += first[v];
    uint32_t *all = ARENA_ARRAY(d->keep, uint32_t, first[f->variable_count]);
    uint32_t *next = ARENA_ARRAY(d->scratch, uint32_t, f->variable_count);
    for (uint32_t v = 0; v < f->variable_count; v++) next[v] = first[v];
    for (uint32_t k = 0; k < f->block_count; k++)
        for (uint32_t i = 0; i < f->blocks[k].variable_count; i++)
            all[next[f->blocks[k].variables[i]]++] = k;
    f->first_of = first;
    f->block_of = all;
}

void facts_make_blocks(facts_draft *d)
{
    const book *b = d->p->book;
    uint32_t *first = ARENA_ARRAY(d->scratch, uint32_t, b->cause_count + 1);
    uint32_t *first_block = ARENA_ARRAY(d->keep, uint32_t, b->cause_count + 1);
    const factor_place *factors = factors_by_cause(d, first);
    d->block_room = first[b->cause_count] + b->cause_count;
    d->f->blocks = d->blocks = ARENA_ARRAY(d->keep, fact_block, d->block_room);
    d->root = ARENA_ARRAY(d->scratch, uint32_t, d->f->variable_count);
    d->block_of_root = ARENA_ARRAY(d->scratch, uint32_t, d->f->variable_count);
    d->place = ARENA_ARRAY(d->scratch, uint32_t, d->f->variable_count);
    for (uint32_t c = 0; c < b->cause_count; c++) {
        first_block[c] = d->f->block_count;
        blocks_of_cause(d, c, factors + first[c], first[c + 1] - first[c]);
    }
    first_block[b->cause_count] = d->f->block_count;
    d->f->first_block = first_block;
    index_blocks(d);
}
