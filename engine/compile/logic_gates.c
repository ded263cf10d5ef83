/* From conditions to gates, each kept once. */
#include "compile/logic_draft.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"

enum { FIRST_SLOTS = 64, LARGEST_ID = 1 << 29 };

typedef struct builder {
    arena *scratch;
    const logic_input *in;
    draft_gate *gates;
    uint32_t gate_count, gate_room;
    draft_literal *inputs;
    uint32_t input_count, input_room;
    logic_leaf *leaves;
    uint32_t leaf_count, leaf_room;
    draft_literal *pending; /* inputs of gates not yet closed, innermost last */
    uint32_t pending_count, pending_room;
    uint32_t *gate_slots, *leaf_slots; /* hash tables of id + 1; room is a power of two */
    uint32_t gate_slot_count, leaf_slot_count;
} builder;

static void pend(builder *b, draft_literal x)
{
    GROW(b->scratch, b->pending, b->pending_count, b->pending_room);
    b->pending[b->pending_count++] = x;
}

static uint64_t mixed(uint64_t hash, uint64_t more)
{
    hash = (hash ^ more) * UINT64_C(0x9E3779B97F4A7C15);
    return hash ^ hash >> 29;
}

static uint64_t leaf_hash(const logic_leaf *x)
{
    return mixed(mixed(x->asks_known ? 1 : 2, x->finding), x->mask);
}

static uint64_t gate_hash(const draft_literal *inputs, uint32_t count, uint32_t least)
{
    uint64_t hash = mixed(count, least);
    for (uint32_t i = 0; i < count; i++) hash = mixed(hash, inputs[i]);
    return hash;
}

/* A table twice as wide with nothing in it. */
static uint32_t *wider_slots(builder *b, uint32_t *count)
{
    *count = *count == 0 ? FIRST_SLOTS : *count * 2;
    return ARENA_ARRAY(b->scratch, uint32_t, *count);
}

static void put(uint32_t *slots, uint32_t slot_count, uint64_t hash, uint32_t id)
{
    uint32_t at = (uint32_t)hash & (slot_count - 1);
    while (slots[at] != 0) at = (at + 1) & (slot_count - 1);
    slots[at] = id + 1;
}

static void rehash_leaves(builder *b)
{
    b->leaf_slots = wider_slots(b, &b->leaf_slot_count);
    for (uint32_t i = 0; i < b->leaf_count; i++)
        put(b->leaf_slots, b->leaf_slot_count, leaf_hash(&b->leaves[i]), i);
}

static uint64_t hash_of_gate(const builder *b, uint32_t id)
{
    const draft_gate *g = &b->gates[id];
    return gate_hash(b->inputs + g->first, g->count, g->least);
}

/* Atoms have names and stay apart, so only the gates after them are shared. */
static void rehash_gates(builder *b)
{
    b->gate_slots = wider_slots(b, &b->gate_slot_count);
    for (uint32_t i = b->in->atom_count; i < b->gate_count; i++)
        put(b->gate_slots, b->gate_slot_count, hash_of_gate(b, i), i);
}

static uint32_t leaf_id(builder *b, logic_leaf wanted)
{
    if (b->leaf_count * 2 >= b->leaf_slot_count) rehash_leaves(b);
    uint64_t hash = leaf_hash(&wanted);
    for (uint32_t at = (uint32_t)hash;; at++) {
        uint32_t id = b->leaf_slots[at & (b->leaf_slot_count - 1)];
        if (id == 0) break;
        const logic_leaf *x = &b->leaves[id - 1];
        if (x->finding == wanted.finding && x->asks_known == wanted.asks_known &&
            x->mask == wanted.mask)
            return id - 1;
    }
    GROW(b->scratch, b->leaves, b->leaf_count, b->leaf_room);
    b->leaves[b->leaf_count] = wanted;
    put(b->leaf_slots, b->leaf_slot_count, hash, b->leaf_count);
    return b->leaf_count++;
}

/* Moves the last `count` pending inputs into a gate. */
static draft_gate gate_from_pending(builder *b, uint32_t count, uint32_t least)
{
    assert(count <= b->pending_count);
    b->pending_count -= count;
    draft_gate g = {b->input_count, count, least};
    for (uint32_t i = 0; i < count; i++) {
        GROW(b->scratch, b->inputs, b->input_count, b->input_room);
        b->inputs[b->input_count++] = b->pending[b->pending_count + i];
    }
    return g;
}

static bool same_as_pending(const builder *b, uint32_t id, uint32_t count, uint32_t least)
{
    const draft_gate *g = &b->gates[id];
    if (g->count != count || g->least != least) return false;
    const draft_literal *wanted = b->pending + b->pending_count - count;
    return count == 0 || memcmp(b->inputs + g->first, wanted, count * sizeof *wanted) == 0;
}

static uint32_t gate_id(builder *b, uint32_t count, uint32_t least)
{
    if ((b->gate_count - b->in->atom_count) * 2 >= b->gate_slot_count) rehash_gates(b);
    const draft_literal *wanted = b->pending == NULL ? NULL : b->pending + b->pending_count - count;
    uint64_t hash = gate_hash(wanted, count, least);
    for (uint32_t at = (uint32_t)hash;; at++) {
        uint32_t id = b->gate_slots[at & (b->gate_slot_count - 1)];
        if (id == 0) break;
        if (!same_as_pending(b, id - 1, count, least)) continue;
        b->pending_count -= count;
        return id - 1;
    }
    GROW(b->scratch, b->gates, b->gate_count, b->gate_room);
    b->gates[b->gate_count] = gate_from_pending(b, count, least);
    put(b->gate_slots, b->gate_slot_count, hash, b->gate_count);
    assert(b->gate_count < LARGEST_ID);
    return b->gate_count++;
}

static uint32_t parts_needed(const expr *e)
{
    if (e->kind == EXPR_ALL) return e->count;
    if (e->kind == EXPR_ANY) return 1;
    assert(e->kind == EXPR_AT_LEAST);
    return e->number <= e->count ? e->number : e->count + 1;
}

static draft_literal literal_for(builder *b, const expr *e, bool negated);

/* Pends the parts, says how many must hold. Not (k of n) is n - k + 1 of the parts negated. */
static uint32_t pend_parts(builder *b, const expr *e, bool negated)
{
    for (uint32_t i = 0; i < e->count; i++) pend(b, literal_for(b, e->parts[i], negated));
    uint32_t needed = parts_needed(e);
    return negated ? e->count + 1 - needed : needed;
}

static draft_literal leaf_for(builder *b, const expr *e, bool negated)
{
    assert(e->subject < b->in->finding_count);
    if (e->kind == EXPR_KNOWN)
        return draft_of(leaf_id(b, (logic_leaf){e->subject, true, 0}), true, negated);
    state_mask all = states_mask(b->in->findings[e->subject].states);
    state_mask mask = (negated ? ~e->mask : e->mask) & all;
    return draft_of(leaf_id(b, (logic_leaf){e->subject, false, mask}), true, false);
}

/* As deep as a condition is nested, which the book limits. */
static draft_literal literal_for(builder *b, const expr *e, bool negated)
{
    switch (e->kind) {
    case EXPR_IS:
    case EXPR_KNOWN:
        return leaf_for(b, e, negated);
    case EXPR_ATOM:
        assert(e->subject < b->in->atom_count);
        return draft_of(e->subject, false, negated);
    case EXPR_NOT:
        return literal_for(b, e->parts[0], !negated);
    case EXPR_ALL:
    case EXPR_ANY:
    case EXPR_AT_LEAST:
        break;
    }
    uint32_t least = pend_parts(b, e, negated);
    if (e->count == 1 && least == 1) return b->pending[--b->pending_count];
    return draft_of(gate_id(b, e->count, least), false, false);
}

static bool is_composite(const expr *e)
{
    return e->kind == EXPR_ALL || e->kind == EXPR_ANY || e->kind == EXPR_AT_LEAST;
}

/* An atom with one body is that body's gate; with several, the gate of which one suffices. */
static void define_atom(builder *b, uint32_t atom, const uint32_t *bodies, uint32_t count)
{
    if (count == 1 && is_composite(b->in->bodies[bodies[0]].when)) {
        const expr *when = b->in->bodies[bodies[0]].when;
        uint32_t least = pend_parts(b, when, false);
        draft_gate only = gate_from_pending(b, when->count, least);
        b->gates[atom] = only;
        return;
    }
    for (uint32_t i = 0; i < count; i++)
        pend(b, literal_for(b, b->in->bodies[bodies[i]].when, false));
    draft_gate any = gate_from_pending(b, count, 1);
    b->gates[atom] = any;
}

static void bodies_by_atom(arena *keep, const logic_input *in, uint32_t **first_out,
                           uint32_t **bodies_out)
{
    uint32_t *first = ARENA_ARRAY(keep, uint32_t, (size_t)in->atom_count + 2);
    uint32_t *bodies = ARENA_ARRAY(keep, uint32_t, in->body_count);
    for (uint32_t i = 0; i < in->body_count; i++) {
        assert(in->bodies[i].atom < in->atom_count);
        first[in->bodies[i].atom + 2]++;
    }
    for (uint32_t a = 0; a < in->atom_count; a++) first[a + 2] += first[a + 1];
    for (uint32_t i = 0; i < in->body_count; i++) bodies[first[in->bodies[i].atom + 1]++] = i;
    assert(first[in->atom_count] == in->body_count);
    *first_out = first;
    *bodies_out = bodies;
}

draft draft_make(arena *keep, arena *scratch, const logic_input *in)
{
    assert(in->atom_count < LARGEST_ID);
    uint32_t *first, *bodies;
    bodies_by_atom(keep, in, &first, &bodies);
    builder b = {
        .scratch = scratch, .in = in, .gate_count = in->atom_count, .gate_room = in->atom_count};
    b.gates = ARENA_ARRAY(scratch, draft_gate, in->atom_count);
    for (uint32_t a = 0; a < in->atom_count; a++)
        define_atom(&b, a, bodies + first[a], first[a + 1] - first[a]);
    assert(b.pending_count == 0);
    return (draft){.in = in,
                   .gates = b.gates,
                   .gate_count = b.gate_count,
                   .inputs = b.inputs,
                   .input_count = b.input_count,
                   .leaves = b.leaves,
                   .leaf_count = b.leaf_count,
                   .body_first = first,
                   .bodies = bodies};
}
