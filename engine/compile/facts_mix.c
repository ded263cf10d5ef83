/* Tables that depend on facts, as they are while some of these are not told. */
#include <assert.h>
#include <string.h>

#include "compile/facts_parts.h"

/* One component's facts, and the combination of their states at hand. */
typedef struct mixing {
    const facts_outlook *o;
    facts_range range;
    const component *g;
    const double *prior;
    double *odds; /* [row][slice] */
    double *room; /* [most states of a block] */
} mixing;

static uint32_t states_of_slot(const mixing *m, const net *n, uint32_t i)
{
    return n->in.findings[m->g->facts[i]].states;
}

/* What is told of a fact that no odds are left of. */
static double odds_as_told(const facts_told *told, uint32_t finding, uint32_t state)
{
    const state_mask left = told->possible[finding];
    uint32_t count = 0;
    for (state_mask rest = left; rest != 0; rest &= rest - 1) count++;
    assert(count > 0);
    return ((left >> state) & 1) != 0 ? 1.0 / count : 0;
}

/* Pins the facts to a slice. Returns its chance where nothing is read of them. */
static double go_to_slice(mixing *m, const net *n, uint32_t slice)
{
    double chance = 1;
    for (uint32_t i = m->g->fact_count; i-- > 0;) {
        const uint32_t finding = m->g->facts[i], states = states_of_slot(m, n, i),
                       state = slice % states;
        const uint32_t v = m->o->f->variable_of[finding];
        slice /= states;
        if (v == NO_VARIABLE || m->o->odds[v] == NULL) {
            chance *= odds_as_told(&m->o->told, finding, state);
            continue;
        }
        chance *= m->o->odds[v][state];
        for (uint32_t s = 0; s < states; s++) m->range.odds[v][s] = s == state;
        m->range.live[v][0] = state;
        m->range.live_count[v] = 1;
    }
    return chance;
}

static bool reads_any(const mixing *m, const fact_block *b)
{
    for (uint32_t i = 0; i < b->variable_count; i++)
        for (uint32_t k = 0; k < m->g->fact_count; k++)
            if (m->o->f->variable_of[m->g->facts[k]] == b->variables[i]) return true;
    return false;
}

/* How much likelier the slice is with this cause than where nothing is read of the facts. */
static double times_likelier(mixing *m, uint32_t cause)
{
    const facts *f = m->o->f;
    double times = 1;
    for (uint32_t k = f->first_block[cause]; k < f->first_block[cause + 1]; k++) {
        if (!reads_any(m, &f->blocks[k]) || !(m->o->sum[k] > 0)) continue;
        times *= facts_sum_block(&m->range, &f->blocks[k], m->room) / m->o->sum[k];
    }
    return times;
}

/* Something not listed comes with the facts that causes come with. */
static void fill_slice(mixing *m, uint32_t slice, double chance)
{
    const component *g = m->g;
    double all = 0, listed = 0, other = 0;
    for (uint32_t c = 0; c < m->o->f->book->cause_count; c++) all += m->prior[c];
    for (uint32_t i = 0; i < g->listed_count; i++) {
        double is = chance > 0 ? chance * times_likelier(m, g->listed[i]) : 0;
        m->odds[(size_t)i * g->slice_count + slice] = is;
        listed += m->prior[g->listed[i]];
        other += m->prior[g->listed[i]] * is;
    }
    m->odds[(size_t)g->listed_count * g->slice_count + slice] = chance;
    m->odds[(size_t)(g->listed_count + 1) * g->slice_count + slice] =
        all > 0 ? (other + (all > listed ? all - listed : 0) * chance) / all : chance;
}

static void make_rows_sum_to_one(mixing *m)
{
    for (uint32_t r = 0; r < m->g->listed_count + 2; r++) {
        double sum = 0, *row = m->odds + (size_t)r * m->g->slice_count;
        for (uint32_t i = 0; i < m->g->slice_count; i++) sum += row[i];
        assert(sum > 0);
        for (uint32_t i = 0; i < m->g->slice_count; i++) row[i] /= sum;
    }
}

static uint32_t most_states(const facts *f)
{
    uint32_t most = 0;
    for (uint32_t k = 0; k < f->block_count; k++)
        if (f->blocks[k].state_count > most) most = f->blocks[k].state_count;
    return most;
}

component facts_mix_component(arena *keep, const facts_outlook *o, const net *n, const component *g,
                              const double *prior)
{
    mixing m = {o,
                facts_range_of(keep, o->f, &o->told),
                g,
                prior,
                ARENA_ARRAY(keep, double, (size_t)(g->listed_count + 2) * g->slice_count),
                ARENA_ARRAY(keep, double, most_states(o->f))};
    for (uint32_t i = 0; i < g->slice_count; i++) {
        double chance = go_to_slice(&m, n, i);
        fill_slice(&m, i, chance);
    }
    make_rows_sum_to_one(&m);
    return component_mixed(keep, g, m.odds);
}

const net *facts_mix(arena *keep, const facts_outlook *o, const net *n, const double *prior)
{
    bool any = false;
    for (uint32_t i = 0; i < n->component_count; i++) any |= n->components[i].slice_count > 1;
    if (!any) return n;
    net *out = ARENA_NEW(keep, net);
    component *all = ARENA_ARRAY(keep, component, n->component_count);
    *out = *n;
    memcpy(all, n->components, n->component_count * sizeof *all);
    for (uint32_t i = 0; i < n->component_count; i++)
        if (all[i].slice_count > 1)
            all[i] = facts_mix_component(keep, o, n, &n->components[i], prior);
    out->components = all;
    return out;
}

const net *facts_mix_site(arena *keep, arena *scratch, const facts *f, const net *n)
{
    const uint32_t causes = n->in.cause_count;
    arena_mark mark = arena_here(scratch);
    const facts_outlook o = facts_look(scratch, f, &f->site);
    double *prior = ARENA_ARRAY(scratch, double, causes);
    for (uint32_t c = 0; c < causes; c++) prior[c] = n->in.weights[c] * o.factor[c];
    const net *out = facts_mix(keep, &o, n, prior);
    arena_back_to(scratch, mark);
    return out;
}
