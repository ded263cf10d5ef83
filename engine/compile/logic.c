/* Rules to gates: draft, order, refuse what has no meaning, lay out. */
#include "compile/logic.h"

#include <assert.h>

#include "compile/logic_draft.h"

/* Where the draft's leaves and gates come to stand. */
typedef struct numbering {
    const uint32_t *leaf; /* [draft leaf] node */
    const uint32_t *gate; /* [draft gate] node */
} numbering;

static void lay_leaves(arena *keep, const draft *d, logic *l, uint32_t *leaf_node)
{
    uint32_t findings = d->in->finding_count;
    uint32_t *first = ARENA_ARRAY(keep, uint32_t, (size_t)findings + 2);
    logic_leaf *leaves = ARENA_ARRAY(keep, logic_leaf, d->leaf_count);
    for (uint32_t i = 0; i < d->leaf_count; i++) first[d->leaves[i].finding + 2]++;
    for (uint32_t f = 0; f < findings; f++) first[f + 2] += first[f + 1];
    for (uint32_t i = 0; i < d->leaf_count; i++) {
        leaf_node[i] = first[d->leaves[i].finding + 1]++;
        leaves[leaf_node[i]] = d->leaves[i];
    }
    assert(first[findings] == d->leaf_count);
    l->leaves = leaves;
    l->leaf_first = first;
    l->leaf_count = d->leaf_count;
    l->node_count = d->leaf_count + d->gate_count;
}

static void number_gates(arena *keep, const draft *d, const components *c, logic *l,
                         uint32_t *gate_node)
{
    uint32_t *node_atom = ARENA_ARRAY(keep, uint32_t, l->node_count);
    uint32_t *atom_node = ARENA_ARRAY(keep, uint32_t, d->in->atom_count);
    for (uint32_t i = 0; i < l->leaf_count; i++) node_atom[i] = NO_ATOM;
    for (uint32_t i = 0; i < d->gate_count; i++) {
        uint32_t gate = c->order[i], node = l->leaf_count + i;
        bool named = gate < d->in->atom_count;
        gate_node[gate] = node;
        node_atom[node] = named ? gate : NO_ATOM;
        if (named) atom_node[gate] = node;
    }
    l->node_atom = node_atom;
    l->atom_node = atom_node;
}

static void lay_inputs(const draft *d, const draft_gate *g, const numbering *n, literal *inputs)
{
    for (uint32_t i = 0; i < g->count; i++) {
        draft_literal x = d->inputs[g->first + i];
        uint32_t node = draft_is_leaf(x) ? n->leaf[draft_id(x)] : n->gate[draft_id(x)];
        inputs[i] = literal_of(node, draft_negated(x));
    }
}

static void lay_gates(arena *keep, const draft *d, const components *c, logic *l,
                      const numbering *n)
{
    logic_gate *gates = ARENA_ARRAY(keep, logic_gate, (size_t)d->gate_count + 1);
    literal *inputs = ARENA_ARRAY(keep, literal, d->input_count);
    uint32_t used = 0;
    for (uint32_t i = 0; i < d->gate_count; i++) {
        const draft_gate *g = &d->gates[c->order[i]];
        assert(g->least <= g->count + 1);
        gates[i] = (logic_gate){used, g->least, g->count + 1 - g->least, NO_LOOP};
        lay_inputs(d, g, n, inputs + used);
        used += g->count;
    }
    assert(used == d->input_count);
    gates[d->gate_count].first = used;
    gates[d->gate_count].loop = NO_LOOP;
    l->gates = gates;
    l->inputs = inputs;
}

static void lay_loop(logic_loop *loops, logic *l, logic_gate *gates, uint32_t start, uint32_t end)
{
    uint32_t size = end - start;
    for (uint32_t i = start; i < end; i++) gates[i].loop = l->loop_count;
    loops[l->loop_count++] =
        (logic_loop){l->leaf_count + start, l->leaf_count + end, l->loop_gates};
    l->loop_gates += size;
    if (size > l->largest_loop) l->largest_loop = size;
}

static void lay_loops(arena *keep, const draft *d, const components *c, logic *l)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < c->count; i++) count += component_is_loop(c, d, i) ? 1 : 0;
    logic_loop *loops = ARENA_ARRAY(keep, logic_loop, count);
    logic_gate *gates = (logic_gate *)l->gates; /* laid out a moment ago, by us */
    for (uint32_t i = 0; i < c->count; i++)
        if (component_is_loop(c, d, i)) lay_loop(loops, l, gates, c->first[i], c->first[i + 1]);
    assert(l->loop_count == count);
    l->loops = loops;
}

static void lay_fan(arena *keep, logic *l)
{
    uint32_t gates = l->node_count - l->leaf_count, inputs = l->gates[gates].first;
    uint32_t *first = ARENA_ARRAY(keep, uint32_t, (size_t)l->node_count + 2);
    literal *fan = ARENA_ARRAY(keep, literal, inputs);
    for (uint32_t i = 0; i < inputs; i++) first[literal_node(l->inputs[i]) + 2]++;
    for (uint32_t i = 0; i < l->node_count; i++) first[i + 2] += first[i + 1];
    for (uint32_t g = 0; g < gates; g++)
        for (uint32_t i = l->gates[g].first; i < l->gates[g + 1].first; i++) {
            literal x = l->inputs[i];
            fan[first[literal_node(x) + 1]++] = literal_of(l->leaf_count + g, literal_negated(x));
        }
    l->fan_first = first;
    l->fan = fan;
}

static logic *lay_out(arena *keep, arena *scratch, const draft *d, const components *c)
{
    logic *l = ARENA_NEW(keep, logic);
    uint32_t *leaf_node = ARENA_ARRAY(scratch, uint32_t, d->leaf_count);
    uint32_t *gate_node = ARENA_ARRAY(scratch, uint32_t, d->gate_count);
    l->source = *d->in;
    l->body_first = d->body_first;
    l->bodies = d->bodies;
    lay_leaves(keep, d, l, leaf_node);
    number_gates(keep, d, c, l, gate_node);
    lay_gates(keep, d, c, l, &(numbering){leaf_node, gate_node});
    lay_loops(keep, d, c, l);
    lay_fan(keep, l);
    return l;
}

const logic *logic_build(arena *keep, arena *scratch, const logic_input *in, faults *list)
{
    assert(keep != scratch);
    arena_mark mark = arena_here(scratch);
    logic *l = NULL;
    draft d = draft_make(keep, scratch, in);
    components c = components_find(scratch, &d);
    if (!loops_refused(scratch, &d, &c, list)) {
        l = lay_out(keep, scratch, &d, &c);
        if (conflicts_refused(scratch, l, list)) l = NULL;
    }
    arena_back_to(scratch, mark);
    return l;
}

const logic_input *logic_source(const logic *l)
{
    return &l->source;
}
