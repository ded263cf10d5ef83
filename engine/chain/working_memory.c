/* Which propositions hold, kept up to date as findings change. */
#include "chain/working_memory.h"

#include <assert.h>
#include <string.h>

#include "chain/wm_state.h"

_Static_assert(NODE_FALSE == (int)TRUTH_FALSE && NODE_TRUE == (int)TRUTH_TRUE &&
                   NODE_UNKNOWN == (int)TRUTH_UNKNOWN,
               "nodes and atoms share their truths");

_Static_assert(NODE_FALSE == 0 && NODE_TRUE == 1 && NODE_UNKNOWN == 2,
               "wm_gate_truth computes them");

/* What an input adds to the counts of a gate: by its truth × 2, plus 1 if it is negated. */
static const uint64_t step[6] = {WM_ONE_FALSE, WM_ONE_TRUE, WM_ONE_TRUE, WM_ONE_FALSE, 0, 0};

static uint8_t leaf_truth(const working_memory *m, uint32_t leaf)
{
    const logic_leaf *x = &m->l->leaves[leaf];
    state_mask possible = m->possible[x->finding];
    if (x->asks_known) return m->known[x->finding] ? NODE_TRUE : NODE_FALSE;
    if ((possible & ~x->mask) == 0) return NODE_TRUE;
    return (possible & x->mask) == 0 ? NODE_FALSE : NODE_UNKNOWN;
}

static inline uint64_t pulled_counts(const logic_gate *g, const literal *inputs,
                                     const uint8_t *truths)
{
    uint64_t counts = wm_no_inputs(g);
    for (uint32_t i = g[0].first; i < g[1].first; i++)
        counts += step[truths[literal_node(inputs[i])] * 2u + (inputs[i] & 1)];
    return counts;
}

/* At first nothing in a loop is in either layer, which counts as false; what outside supports is
 * built up from there. */
static void close_loop(working_memory *m, const logic_loop *p)
{
    for (uint32_t node = p->first; node < p->end; node++) m->truth[node] = NODE_FALSE;
    for (uint32_t node = p->first; node < p->end; node++) {
        m->counts[node] = pulled_counts(logic_gate_at(m->l, node), m->l->inputs, m->truth);
        wm_loops_touch(m, node);
    }
    wm_loops_settle(m, p);
    for (uint32_t node = p->first; node < p->end; node++) {
        m->truth[node] = wm_loops_truth(m, p, node);
        assert(m->truth[node] == wm_gate_truth(m->counts[node]));
    }
    wm_loops_done(m, p);
}

/* Gates [from, to), none of them in a loop. */
static void close_gates(working_memory *m, uint32_t from, uint32_t to)
{
    const logic_gate *g = logic_gate_at(m->l, from);
    const literal *inputs = m->l->inputs;
    uint8_t *truths = m->truth;
    uint64_t *counts = m->counts;
    for (uint32_t node = from; node < to; node++, g++) {
        counts[node] = pulled_counts(g, inputs, truths);
        truths[node] = wm_gate_truth(counts[node]);
    }
}

/* The first closure reads the gates once, in order, and pulls; after that, changes are pushed. */
static void close_all(working_memory *m)
{
    const logic *l = m->l;
    uint32_t from = l->leaf_count;
    for (uint32_t i = 0; i < l->leaf_count; i++) m->truth[i] = leaf_truth(m, i);
    for (uint32_t i = 0; i < l->loop_count; i++) {
        close_gates(m, from, l->loops[i].first);
        close_loop(m, &l->loops[i]);
        from = l->loops[i].end;
    }
    close_gates(m, from, l->node_count);
    m->work += l->node_count;
}

static void take_memory(working_memory *m, arena *keep)
{
    const logic *l = m->l;
    uint32_t findings = l->source.finding_count, atoms = l->source.atom_count;
    m->truth = ARENA_ARRAY(keep, uint8_t, l->node_count);
    m->counts = ARENA_ARRAY(keep, uint64_t, l->node_count);
    m->possible = ARENA_ARRAY(keep, state_mask, findings);
    m->known = ARENA_ARRAY(keep, bool, findings);
    m->seen = ARENA_ARRAY(keep, uint8_t, atoms);
    m->change_list = ARENA_ARRAY(keep, uint32_t, atoms);
    m->finding_mark = ARENA_ARRAY(keep, uint32_t, findings);
    m->finding_list = ARENA_ARRAY(keep, uint32_t, findings);
    m->why_count = ARENA_NEW(keep, uint32_t);
    agenda_make(&m->open, keep, l->node_count);
    agenda_make(&m->changed, keep, atoms);
    wm_loops_make(&m->loops, keep, l);
    m->tracer = tracer_new(keep, l);
}

working_memory *wm_new(arena *keep, const logic *l)
{
    working_memory *m = ARENA_NEW(keep, working_memory);
    m->l = l;
    take_memory(m, keep);
    for (uint32_t f = 0; f < l->source.finding_count; f++)
        m->possible[f] = states_mask(l->source.findings[f].states);
    close_all(m);
    for (uint32_t a = 0; a < l->source.atom_count; a++) m->seen[a] = m->truth[l->atom_node[a]];
    return m;
}

static bool is_fellow(const logic *l, uint32_t node, uint32_t target)
{
    uint32_t loop = logic_gate_at(l, target)->loop;
    return loop != NO_LOOP && node >= l->loops[loop].first && node < l->loops[loop].end;
}

/* Gives a node its truth and counts that at the gates it feeds; fellows of its loop have it counted
 * already. */
static void set_truth(working_memory *m, uint32_t node, uint8_t now)
{
    const logic *l = m->l;
    const unsigned new_row = now * 2u, old_row = m->truth[node] * 2u;
    const uint64_t change[2] = {step[new_row] - step[old_row],
                                step[new_row + 1] - step[old_row + 1]};
    const bool loops = l->loop_count > 0;
    m->truth[node] = now;
    if (l->node_atom[node] != NO_ATOM) agenda_add(&m->changed, l->node_atom[node]);
    for (uint32_t i = l->fan_first[node]; i < l->fan_first[node + 1]; i++) {
        uint32_t target = literal_node(l->fan[i]);
        if (loops && is_fellow(l, node, target)) continue;
        m->work++;
        m->counts[target] += change[l->fan[i] & 1];
        bool moved = wm_gate_truth(m->counts[target]) != m->truth[target];
        if (moved || (loops && logic_gate_at(l, target)->loop != NO_LOOP))
            agenda_add(&m->open, target);
    }
}

static void settle_gate(working_memory *m, uint32_t node)
{
    uint8_t now = wm_gate_truth(m->counts[node]);
    agenda_remove(&m->open, node);
    m->work++;
    if (now != m->truth[node]) set_truth(m, node, now);
}

static void settle_loop(working_memory *m, const logic_loop *p)
{
    for (uint32_t n = agenda_next(&m->open, p->first); n < p->end; n = agenda_next(&m->open, n)) {
        agenda_remove(&m->open, n);
        wm_loops_touch(m, n);
    }
    wm_loops_settle(m, p);
    for (uint32_t i = 0; i < m->loops.touched_count; i++) {
        uint32_t node = m->loops.touched[i];
        uint8_t now = wm_loops_truth(m, p, node);
        assert(now == wm_gate_truth(m->counts[node]));
        if (now != m->truth[node]) set_truth(m, node, now);
    }
    wm_loops_done(m, p);
}

/* Gates are taken in topological order, so each is settled once a change. */
static void settle(working_memory *m)
{
    uint32_t node = 0;
    while ((node = agenda_next(&m->open, node)) != AGENDA_NONE) {
        uint32_t loop = logic_gate_at(m->l, node)->loop;
        if (loop == NO_LOOP)
            settle_gate(m, node);
        else
            settle_loop(m, &m->l->loops[loop]);
    }
}

#ifdef TT_CHECK_CHAIN
/* The second opinion. */
static void check_against_naive(const working_memory *m)
{
    arena *own = arena_new(NULL, NULL);
    assert(own != NULL);
    uint32_t atoms = m->l->source.atom_count;
    truth *all = ARENA_ARRAY(own, truth, atoms);
    wm_naive(own, m->l, m->possible, m->known, all);
    for (uint32_t a = 0; a < atoms; a++) assert(all[a] == wm_truth(m, a));
    arena_free(own);
}
#endif

void wm_set(working_memory *m, uint32_t finding, state_mask possible, bool known)
{
    const logic *l = m->l;
    assert(finding < l->source.finding_count);
    possible &= states_mask(l->source.findings[finding].states);
    assert(possible != 0);
    if (m->possible[finding] == possible && m->known[finding] == known) return;
    m->possible[finding] = possible;
    m->known[finding] = known;
    for (uint32_t i = l->leaf_first[finding]; i < l->leaf_first[finding + 1]; i++) {
        uint8_t now = leaf_truth(m, i);
        m->work++;
        if (now != m->truth[i]) set_truth(m, i, now);
    }
    settle(m);
#ifdef TT_CHECK_CHAIN
    check_against_naive(m);
#endif
}

truth wm_truth(const working_memory *m, uint32_t atom)
{
    assert(atom < m->l->source.atom_count);
    return (truth)m->truth[m->l->atom_node[atom]];
}

const uint32_t *wm_changes(working_memory *m, uint32_t *count)
{
    *count = 0;
    for (uint32_t a = agenda_next(&m->changed, 0); a != AGENDA_NONE;
         a = agenda_next(&m->changed, a + 1))
        if (m->seen[a] != m->truth[m->l->atom_node[a]]) m->change_list[(*count)++] = a;
    return m->change_list;
}

void wm_changes_seen(working_memory *m)
{
    for (uint32_t a = agenda_next(&m->changed, 0); a != AGENDA_NONE;
         a = agenda_next(&m->changed, a + 1)) {
        m->seen[a] = m->truth[m->l->atom_node[a]];
        agenda_remove(&m->changed, a);
    }
}

uint64_t wm_work(const working_memory *m)
{
    return m->work;
}
