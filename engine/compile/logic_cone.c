/* The findings and gates below two conditions: what can stand there once some findings are chosen.
 */
#include "compile/logic_cone.h"

#include <assert.h>

#include "base/sorted.h"

enum {
    STANDS_TRUE = HOLDS | CAN_HOLD,
    STANDS_FALSE = FAILS | CAN_FAIL,
    STANDS_OPEN = CAN_HOLD | CAN_FAIL,
    STANDS_NEVER = 0
};

static uint8_t leaf_standing(const logic *l, const logic_leaf *x, uint32_t choice)
{
    if (x->asks_known)
        return choice == CHOICE_OPEN        ? STANDS_OPEN
               : choice == CHOICE_NOT_KNOWN ? STANDS_FALSE
                                            : STANDS_TRUE;
    if (x->mask == states_mask(l->source.findings[x->finding].states)) return STANDS_TRUE;
    if (x->mask == 0) return STANDS_FALSE;
    if (choice == CHOICE_OPEN) return STANDS_OPEN;
    if (choice == CHOICE_NOT_KNOWN) return STANDS_NEVER;
    return (x->mask >> choice & 1) != 0 ? STANDS_TRUE : STANDS_FALSE;
}

void cone_choose(cone *c, uint32_t finding, uint32_t choice)
{
    assert(choice >= CHOICE_NOT_KNOWN || choice < c->l->source.findings[finding].states);
    c->chosen[finding] = (uint8_t)choice;
    for (uint32_t i = c->l->leaf_first[finding]; i < c->l->leaf_first[finding + 1]; i++)
        c->standing[i] = leaf_standing(c->l, &c->l->leaves[i], choice);
}

cone *cone_new(arena *scratch, const logic *l)
{
    cone *c = ARENA_NEW(scratch, cone);
    uint32_t findings = l->source.finding_count;
    c->l = l;
    c->standing = ARENA_ARRAY(scratch, uint8_t, l->node_count);
    c->chosen = ARENA_ARRAY(scratch, uint8_t, findings);
    c->gates = ARENA_ARRAY(scratch, uint32_t, l->node_count);
    c->findings = ARENA_ARRAY(scratch, uint32_t, findings);
    c->mark = ARENA_ARRAY(scratch, uint32_t, l->node_count);
    c->limit = UINT64_MAX;
    c->finding_mark = ARENA_ARRAY(scratch, uint32_t, findings);
    c->stack = ARENA_ARRAY(scratch, uint32_t, l->node_count);
    for (uint32_t f = 0; f < findings; f++) cone_choose(c, f, CHOICE_OPEN);
    return c;
}

static uint32_t meet(cone *c, uint32_t node, uint32_t height)
{
    if (c->mark[node] == c->round) return height;
    c->mark[node] = c->round;
    if (node >= c->l->leaf_count) {
        c->gates[c->gate_count++] = node;
        c->stack[height++] = node;
        return height;
    }
    uint32_t f = c->l->leaves[node].finding;
    if (c->finding_mark[f] != c->round) c->findings[c->finding_count++] = f;
    c->finding_mark[f] = c->round;
    return height;
}

void cone_of(cone *c, uint32_t a, uint32_t b)
{
    const logic *l = c->l;
    for (uint32_t i = 0; i < c->finding_count; i++) cone_choose(c, c->findings[i], CHOICE_OPEN);
    c->gate_count = c->finding_count = 0;
    c->round++;
    uint32_t height = meet(c, l->atom_node[a], 0);
    height = meet(c, l->atom_node[b], height);
    while (height > 0) {
        const logic_gate *g = logic_gate_at(l, c->stack[--height]);
        c->work += g[1].first - g->first + 1;
        for (uint32_t i = g->first; i < g[1].first; i++)
            height = meet(c, literal_node(l->inputs[i]), height);
    }
    SORT(c->gates, c->gate_count, by_rising_id);
    SORT(c->findings, c->finding_count, by_rising_id);
}

/* Both pairs of bits change places. */
static uint8_t negated_standing(uint8_t s)
{
    return (uint8_t)((s & (HOLDS | CAN_HOLD)) << 1 | (s & (FAILS | CAN_FAIL)) >> 1);
}

static uint8_t literal_standing(const cone *c, literal x)
{
    uint8_t s = c->standing[literal_node(x)];
    return literal_negated(x) ? negated_standing(s) : s;
}

static uint8_t gate_standing(cone *c, uint32_t node)
{
    const logic_gate *g = logic_gate_at(c->l, node);
    c->work += g[1].first - g->first + 1;
    uint32_t holds = 0, fails = 0, can_hold = 0, can_fail = 0;
    for (uint32_t i = g->first; i < g[1].first; i++) {
        uint8_t s = literal_standing(c, c->l->inputs[i]);
        holds += (s & HOLDS) != 0;
        fails += (s & FAILS) != 0;
        can_hold += (s & CAN_HOLD) != 0;
        can_fail += (s & CAN_FAIL) != 0;
    }
    return (uint8_t)((holds >= g->least ? HOLDS : 0) | (fails >= g->fails ? FAILS : 0) |
                     (can_hold >= g->least ? CAN_HOLD : 0) | (can_fail >= g->fails ? CAN_FAIL : 0));
}

/* From "nothing holds" upward until nothing changes: within a loop no input is negated, so this
 * ends. */
static void evaluate_loop(cone *c, const uint32_t *gates, uint32_t count)
{
    bool changed = true;
    for (uint32_t i = 0; i < count; i++) c->standing[gates[i]] = STANDS_FALSE;
    while (changed && c->work <= c->limit) {
        changed = false;
        for (uint32_t i = 0; i < count; i++) {
            uint8_t s = gate_standing(c, gates[i]);
            changed |= s != c->standing[gates[i]];
            c->standing[gates[i]] = s;
        }
    }
}

/* Gates of the cone from place i that belong to the same loop; a loop is in the cone as a whole or
 * not at all. */
static uint32_t loop_length(const cone *c, uint32_t i)
{
    uint32_t loop = logic_gate_at(c->l, c->gates[i])->loop;
    return loop == NO_LOOP ? 1 : c->l->loops[loop].end - c->l->loops[loop].first;
}

bool cone_evaluate(cone *c)
{
    for (uint32_t i = 0; i < c->gate_count;) {
        uint32_t length = loop_length(c, i);
        assert(i + length <= c->gate_count);
        if (logic_gate_at(c->l, c->gates[i])->loop == NO_LOOP)
            c->standing[c->gates[i]] = gate_standing(c, c->gates[i]);
        else
            evaluate_loop(c, c->gates + i, length);
        i += length;
    }
    return c->work <= c->limit;
}

static bool is_undecided(uint8_t s)
{
    return (s & (HOLDS | FAILS)) == 0 && s != STANDS_NEVER;
}

/* Marks the undecided inputs of a marked gate; true if that was news. */
static bool mark_inputs(cone *c, uint32_t node, void (*visit)(void *context, uint32_t finding),
                        void *context)
{
    const logic *l = c->l;
    const logic_gate *g = logic_gate_at(l, node);
    bool news = false;
    if (c->mark[node] != c->round) return false;
    c->work += g[1].first - g->first + 1;
    for (uint32_t i = g->first; i < g[1].first; i++) {
        uint32_t input = literal_node(l->inputs[i]);
        if (c->mark[input] == c->round || !is_undecided(c->standing[input])) continue;
        c->mark[input] = c->round;
        news = true;
        if (input < l->leaf_count) visit(context, l->leaves[input].finding);
    }
    return news;
}

void cone_each_open(cone *c, uint32_t a, uint32_t b, void (*visit)(void *context, uint32_t finding),
                    void *context)
{
    const uint32_t tops[2] = {c->l->atom_node[a], c->l->atom_node[b]};
    c->round++;
    for (int i = 0; i < 2; i++)
        if (is_undecided(c->standing[tops[i]])) c->mark[tops[i]] = c->round;
    for (uint32_t end = c->gate_count; end > 0;) {
        uint32_t loop = logic_gate_at(c->l, c->gates[end - 1])->loop,
                 length = loop_length(c, end - 1);
        bool again = true;
        while (again) {
            again = false;
            for (uint32_t i = end; i-- > end - length;)
                again |= mark_inputs(c, c->gates[i], visit, context);
            again = again && loop != NO_LOOP;
        }
        end -= length;
    }
}
