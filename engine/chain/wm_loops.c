/* Loops among rules, kept settled. A change takes away whatever can no longer be built up from
 * outside, and then builds up again what still can, so the cost is that of the gates concerned and
 * not of the whole loop (delete and rederive: Gupta, Mumick, Subrahmanian 1993, "Maintaining views
 * incrementally"; the stamps keep the part that is taken away small). */
#include <assert.h>

#include "chain/wm_state.h"

/* The two fixpoints, and bits of a gate's marks. */
enum { CERTAIN, POSSIBLE, LAYERS };
enum { IN_CERTAIN = 1, IN_POSSIBLE = 2, QUEUED = 4, TOUCHED = 8 };

static uint32_t slot_of(const logic_loop *p, uint32_t node)
{
    assert(node >= p->first && node < p->end);
    return p->slot + (node - p->first);
}

static bool within(const logic_loop *p, uint32_t node)
{
    return node >= p->first && node < p->end;
}

static const logic_loop *loop_of(const logic *l, uint32_t node)
{
    return &l->loops[logic_gate_at(l, node)->loop];
}

void wm_loops_make(wm_loops *s, arena *keep, const logic *l)
{
    s->marks = ARENA_ARRAY(keep, uint8_t, l->loop_gates);
    for (int layer = 0; layer < LAYERS; layer++)
        s->stamp[layer] = ARENA_ARRAY(keep, uint64_t, l->loop_gates);
    s->touched = ARENA_ARRAY(keep, uint32_t, l->largest_loop);
    s->stack = ARENA_ARRAY(keep, uint32_t, l->largest_loop);
}

void wm_loops_touch(working_memory *m, uint32_t node)
{
    uint8_t *mark = &m->loops.marks[slot_of(loop_of(m->l, node), node)];
    if ((*mark & TOUCHED) != 0) return;
    *mark |= TOUCHED;
    m->loops.touched[m->loops.touched_count++] = node;
}

static bool is_in(const working_memory *m, const logic_loop *p, uint32_t node, int layer)
{
    return (m->loops.marks[slot_of(p, node)] >> layer & 1) != 0;
}

static bool enough_inputs(const working_memory *m, uint32_t node, int layer)
{
    return layer == CERTAIN ? wm_is_true(m->counts[node]) : !wm_is_false(m->counts[node]);
}

static bool holds_outside(const working_memory *m, literal x, int layer)
{
    uint8_t v = m->truth[literal_node(x)];
    uint8_t against = literal_negated(x) ? NODE_TRUE : NODE_FALSE;
    if (layer == POSSIBLE) return v != against;
    return v != NODE_UNKNOWN && v != against;
}

/* Enough inputs from outside, or that were in the layer before this gate was? */
static bool is_founded(working_memory *m, const logic_loop *p, uint32_t node, int layer)
{
    const logic_gate *g = logic_gate_at(m->l, node);
    const uint64_t *stamp = m->loops.stamp[layer];
    uint32_t found = 0;
    for (uint32_t i = g->first; i < g[1].first && found < g->least; i++) {
        literal x = m->l->inputs[i];
        uint32_t input = literal_node(x);
        m->work++;
        if (!within(p, input))
            found += holds_outside(m, x, layer);
        else
            found +=
                is_in(m, p, input, layer) && stamp[slot_of(p, input)] < stamp[slot_of(p, node)];
    }
    return found >= g->least;
}

static void queue(working_memory *m, const logic_loop *p, uint32_t node)
{
    uint8_t *mark = &m->loops.marks[slot_of(p, node)];
    if ((*mark & QUEUED) != 0) return;
    *mark |= QUEUED;
    m->loops.stack[m->loops.height++] = node;
}

static uint32_t take(working_memory *m, const logic_loop *p)
{
    uint32_t node = m->loops.stack[--m->loops.height];
    m->loops.marks[slot_of(p, node)] &= (uint8_t)~QUEUED;
    m->work++;
    return node;
}

/* Puts the gate into the layer or takes it out, and counts that at its fellows; those that may
 * follow are queued. */
static void flip(working_memory *m, const logic_loop *p, uint32_t node, int layer)
{
    const logic *l = m->l;
    wm_loops *s = &m->loops;
    uint32_t slot = slot_of(p, node);
    s->marks[slot] ^= (uint8_t)(1 << layer);
    bool in = is_in(m, p, node, layer);
    uint64_t one = layer == CERTAIN ? WM_ONE_TRUE : -WM_ONE_FALSE;
    wm_loops_touch(m, node);
    for (uint32_t i = l->fan_first[node]; i < l->fan_first[node + 1]; i++) {
        uint32_t target = literal_node(l->fan[i]);
        if (!within(p, target)) continue;
        assert(!literal_negated(l->fan[i]));
        m->counts[target] += in ? one : -one;
        m->work++;
        bool follows = in ? !is_in(m, p, target, layer) && enough_inputs(m, target, layer)
                          : is_in(m, p, target, layer) &&
                                s->stamp[layer][slot_of(p, target)] > s->stamp[layer][slot];
        if (follows) queue(m, p, target);
    }
}

static void take_away(working_memory *m, const logic_loop *p, int layer)
{
    wm_loops *s = &m->loops;
    for (uint32_t i = 0; i < s->touched_count; i++)
        if (is_in(m, p, s->touched[i], layer)) queue(m, p, s->touched[i]);
    while (s->height > 0) {
        uint32_t node = take(m, p);
        assert(is_in(m, p, node, layer)); /* it is queued once, and nothing else takes it out */
        if (!is_founded(m, p, node, layer)) flip(m, p, node, layer);
    }
}

static void build_up(working_memory *m, const logic_loop *p, int layer)
{
    wm_loops *s = &m->loops;
    for (uint32_t i = 0; i < s->touched_count; i++)
        if (!is_in(m, p, s->touched[i], layer) && enough_inputs(m, s->touched[i], layer))
            queue(m, p, s->touched[i]);
    while (s->height > 0) {
        uint32_t node = take(m, p);
        if (is_in(m, p, node, layer)) continue;
        s->stamp[layer][slot_of(p, node)] = ++s->last_stamp;
        flip(m, p, node, layer);
    }
}

void wm_loops_settle(working_memory *m, const logic_loop *p)
{
    assert(m->loops.height == 0);
    for (int layer = 0; layer < LAYERS; layer++) {
        take_away(m, p, layer);
        build_up(m, p, layer);
    }
}

uint8_t wm_loops_truth(const working_memory *m, const logic_loop *p, uint32_t node)
{
    uint8_t mark = m->loops.marks[slot_of(p, node)];
    assert((mark & IN_CERTAIN) == 0 || (mark & IN_POSSIBLE) != 0);
    return (mark & IN_CERTAIN) != 0    ? NODE_TRUE
           : (mark & IN_POSSIBLE) != 0 ? NODE_UNKNOWN
                                       : NODE_FALSE;
}

void wm_loops_done(working_memory *m, const logic_loop *p)
{
    wm_loops *s = &m->loops;
    for (uint32_t i = 0; i < s->touched_count; i++)
        s->marks[slot_of(p, s->touched[i])] &= (uint8_t)~TOUCHED;
    s->touched_count = 0;
}
