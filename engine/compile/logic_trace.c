/* Why an atom holds or fails under the answers chosen: the steps from them to it. */
#include "compile/logic_trace.h"

#include <assert.h>
#include <string.h>

struct logic_tracer {
    const logic *l;
    const uint8_t *truth;
    uint32_t tick;      /* rises with every step; marks are ticks, so nothing need be cleared */
    uint32_t trace;     /* tick at which this trace began */
    uint32_t *expanded; /* [node] tick of the step that expanded it */
    uint32_t *reached;  /* [atom] trace that reached it */
    uint32_t *stack;    /* gates of the step under way */
    trace_step *steps;
    uint32_t step_count;
    uint32_t *levelled; /* [loop] trace that has levels for it */
    uint32_t *level;    /* [slot] round in which a gate of a loop became true */
    uint32_t *held;     /* [slot] true inputs met so far */
    uint32_t *queue;    /* gates of one loop */
    trace_visit *visit;
    void *context;
};

logic_tracer *tracer_new(arena *keep, const logic *l)
{
    logic_tracer *t = ARENA_NEW(keep, logic_tracer);
    t->l = l;
    t->expanded = ARENA_ARRAY(keep, uint32_t, l->node_count);
    t->reached = ARENA_ARRAY(keep, uint32_t, l->source.atom_count);
    t->stack = ARENA_ARRAY(keep, uint32_t, l->node_count);
    t->steps = ARENA_ARRAY(keep, trace_step, l->source.atom_count);
    t->levelled = ARENA_ARRAY(keep, uint32_t, l->loop_count);
    t->level = ARENA_ARRAY(keep, uint32_t, l->loop_gates);
    t->held = ARENA_ARRAY(keep, uint32_t, l->loop_gates);
    t->queue = ARENA_ARRAY(keep, uint32_t, l->largest_loop);
    return t;
}

static uint8_t literal_truth(const uint8_t *truth, literal x)
{
    uint8_t v = truth[literal_node(x)];
    if (v == NODE_UNKNOWN || !literal_negated(x)) return v;
    return v == NODE_TRUE ? NODE_FALSE : NODE_TRUE;
}

static bool within(const logic_loop *p, uint32_t node)
{
    return node >= p->first && node < p->end;
}

/* Inputs from outside the loop that are true. */
static uint32_t outside_support(const logic_tracer *t, const logic_loop *p, uint32_t node)
{
    const logic_gate *g = logic_gate_at(t->l, node);
    uint32_t count = 0;
    for (uint32_t i = g->first; i < g[1].first; i++) {
        literal x = t->l->inputs[i];
        if (!within(p, literal_node(x)) && literal_truth(t->truth, x) == NODE_TRUE) count++;
    }
    return count;
}

static uint32_t push_fan(logic_tracer *t, const logic_loop *p, uint32_t node, uint32_t tail)
{
    const logic *l = t->l;
    uint32_t next_level = t->level[p->slot + (node - p->first)] + 1;
    for (uint32_t i = l->fan_first[node]; i < l->fan_first[node + 1]; i++) {
        uint32_t target = literal_node(l->fan[i]);
        if (!within(p, target)) continue;
        uint32_t slot = p->slot + (target - p->first);
        if (++t->held[slot] != logic_gate_at(l, target)->least) continue;
        t->level[slot] = next_level;
        t->queue[tail++] = target;
    }
    return tail;
}

/* Rounds of the least fixpoint: they depend on what holds, not on the order in which it came to
 * hold. */
static void find_levels(logic_tracer *t, uint32_t loop)
{
    const logic_loop *p = &t->l->loops[loop];
    uint32_t head = 0, tail = 0;
    for (uint32_t node = p->first; node < p->end; node++) {
        uint32_t slot = p->slot + (node - p->first);
        t->held[slot] = outside_support(t, p, node);
        t->level[slot] = 0;
        if (t->held[slot] >= logic_gate_at(t->l, node)->least) t->queue[tail++] = node;
    }
    while (head < tail) {
        assert(t->truth[t->queue[head]] == NODE_TRUE);
        tail = push_fan(t, p, t->queue[head++], tail);
    }
    t->levelled[loop] = t->trace;
}

/* May a true gate of a loop lean on this input? */
static bool comes_before(logic_tracer *t, uint32_t loop, uint32_t node, uint32_t input)
{
    const logic_loop *p = &t->l->loops[loop];
    if (!within(p, input)) return true;
    if (t->levelled[loop] != t->trace) find_levels(t, loop);
    return t->level[p->slot + (input - p->first)] < t->level[p->slot + (node - p->first)];
}

static bool may_lean(logic_tracer *t, uint32_t node, literal x)
{
    uint8_t v = t->truth[node];
    if (literal_truth(t->truth, x) != v) return false;
    uint32_t loop = logic_gate_at(t->l, node)->loop;
    return v != NODE_TRUE || loop == NO_LOOP || comes_before(t, loop, node, literal_node(x));
}

static bool is_constant(const logic *l, const logic_leaf *x)
{
    return !x->asks_known &&
           (x->mask == 0 || x->mask == states_mask(l->source.findings[x->finding].states));
}

static void reach_atom(logic_tracer *t, uint32_t atom)
{
    if (t->reached[atom] == t->trace) return;
    t->reached[atom] = t->trace;
    t->steps[t->step_count++] = (trace_step){atom, NO_BODY};
}

/* One input that was chosen: a reason, or a nameless gate to look into. Returns the new height of
 * the stack. */
static uint32_t take_input(logic_tracer *t, uint32_t step, uint32_t node, uint32_t height)
{
    const logic *l = t->l;
    if (node < l->leaf_count) {
        const logic_leaf *x = &l->leaves[node];
        if (!is_constant(l, x)) t->visit(t->context, step, false, x->finding);
        return height;
    }
    if (l->node_atom[node] != NO_ATOM) {
        t->visit(t->context, step, true, l->node_atom[node]);
        reach_atom(t, l->node_atom[node]);
        return height;
    }
    if (t->expanded[node] == t->tick) return height;
    t->expanded[node] = t->tick;
    t->stack[height++] = node;
    return height;
}

static void carry(logic_tracer *t, uint32_t step, uint32_t input)
{
    trace_step *s = &t->steps[step];
    uint32_t first = t->l->body_first[s->atom], count = t->l->body_first[s->atom + 1] - first;
    if (s->body != NO_BODY || count == 0) return;
    s->body = t->l->bodies[first + (count == 1 ? 0 : input)];
}

/* Takes the first inputs that suffice. */
static uint32_t look_into(logic_tracer *t, uint32_t step, uint32_t node, uint32_t height)
{
    const logic_gate *g = logic_gate_at(t->l, node);
    uint8_t v = t->truth[node];
    bool of_atom = t->l->node_atom[node] != NO_ATOM;
    uint32_t wanted = v == NODE_TRUE    ? g->least
                      : v == NODE_FALSE ? g->fails
                                        : g[1].first - g->first;
    if (of_atom && v == NODE_TRUE && wanted == 0) carry(t, step, 0);
    for (uint32_t i = g->first; i < g[1].first && wanted > 0; i++) {
        if (!may_lean(t, node, t->l->inputs[i])) continue;
        if (of_atom && v == NODE_TRUE) carry(t, step, i - g->first);
        height = take_input(t, step, literal_node(t->l->inputs[i]), height);
        wanted--;
    }
    assert(wanted == 0 || v == NODE_UNKNOWN);
    return height;
}

static void trace_one(logic_tracer *t, uint32_t step)
{
    uint32_t height = 0;
    t->tick++;
    t->stack[height++] = t->l->atom_node[t->steps[step].atom];
    while (height > 0) {
        uint32_t node = t->stack[--height];
        height = look_into(t, step, node, height);
    }
}

/* Before the ticks run out, all marks are forgotten. */
static void begin_trace(logic_tracer *t)
{
    const logic *l = t->l;
    if (t->tick >= UINT32_MAX - l->source.atom_count - 2) {
        t->tick = 0;
        memset(t->expanded, 0, l->node_count * sizeof *t->expanded);
        memset(t->reached, 0, l->source.atom_count * sizeof *t->reached);
        memset(t->levelled, 0, l->loop_count * sizeof *t->levelled);
    }
    t->trace = ++t->tick;
    t->step_count = 0;
}

const trace_step *trace_from(logic_tracer *t, const uint8_t *truth, uint32_t atom,
                             trace_visit *visit, void *context, uint32_t *count)
{
    assert(atom < t->l->source.atom_count);
    t->truth = truth;
    t->visit = visit;
    t->context = context;
    begin_trace(t);
    reach_atom(t, atom);
    for (uint32_t step = 0; step < t->step_count; step++) trace_one(t, step);
    *count = t->step_count;
    return t->steps;
}
