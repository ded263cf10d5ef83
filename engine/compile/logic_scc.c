/* Strongly connected components (Tarjan 1972, "Depth-first search and linear graph algorithms"),
 * with a stack of our own: rules may chain a hundred thousand deep. */
#include "compile/logic_draft.h"

#include <assert.h>

typedef struct frame {
    uint32_t gate, next; /* next input to look at */
} frame;

typedef struct walk {
    const draft *d;
    uint32_t *index; /* [gate] from 1 in order of visit, 0: not yet */
    uint32_t *low;   /* [gate] smallest index known to be reachable in the same component */
    uint32_t *of;    /* [gate] component + 1 once closed */
    frame *frames;
    uint32_t *stack; /* visited, component not yet closed */
    uint32_t *order, *first;
    uint32_t depth, stacked, visited, emitted, components;
} walk;

static void open_gate(walk *w, uint32_t gate)
{
    assert(w->index[gate] == 0);
    w->index[gate] = w->low[gate] = ++w->visited;
    w->stack[w->stacked++] = gate;
    w->frames[w->depth++] = (frame){gate, 0};
}

static void emit_component(walk *w, uint32_t root)
{
    uint32_t gate;
    do {
        assert(w->stacked > 0);
        gate = w->stack[--w->stacked];
        w->of[gate] = w->components + 1;
        w->order[w->emitted++] = gate;
    } while (gate != root);
    w->first[++w->components] = w->emitted;
}

static void lower(walk *w, uint32_t gate, uint32_t to)
{
    if (to < w->low[gate]) w->low[gate] = to;
}

static void close_gate(walk *w)
{
    uint32_t gate = w->frames[--w->depth].gate;
    if (w->low[gate] == w->index[gate]) emit_component(w, gate);
    if (w->depth > 0) lower(w, w->frames[w->depth - 1].gate, w->low[gate]);
}

static void look_at_next(walk *w)
{
    frame *top = &w->frames[w->depth - 1];
    const draft_gate *g = &w->d->gates[top->gate];
    if (top->next == g->count) {
        close_gate(w);
        return;
    }
    draft_literal x = w->d->inputs[g->first + top->next++];
    if (draft_is_leaf(x)) return;
    uint32_t below = draft_id(x);
    if (w->index[below] == 0)
        open_gate(w, below);
    else if (w->of[below] == 0)
        lower(w, top->gate, w->index[below]);
}

components components_find(arena *scratch, const draft *d)
{
    size_t n = d->gate_count;
    walk w = {.d = d};
    w.index = ARENA_ARRAY(scratch, uint32_t, n);
    w.low = ARENA_ARRAY(scratch, uint32_t, n);
    w.of = ARENA_ARRAY(scratch, uint32_t, n);
    w.frames = ARENA_ARRAY(scratch, frame, n);
    w.stack = ARENA_ARRAY(scratch, uint32_t, n);
    w.order = ARENA_ARRAY(scratch, uint32_t, n);
    w.first = ARENA_ARRAY(scratch, uint32_t, n + 1);
    for (uint32_t g = 0; g < n; g++) {
        if (w.index[g] == 0) open_gate(&w, g);
        while (w.depth > 0) look_at_next(&w);
    }
    assert(w.emitted == n && w.stacked == 0);
    for (uint32_t g = 0; g < n; g++) w.of[g]--;
    return (components){.order = w.order, .first = w.first, .of = w.of, .count = w.components};
}

bool component_is_loop(const components *c, const draft *d, uint32_t component)
{
    assert(component < c->count);
    uint32_t start = c->first[component];
    if (c->first[component + 1] - start > 1) return true;
    const draft_gate *g = &d->gates[c->order[start]];
    for (uint32_t i = 0; i < g->count; i++) {
        draft_literal x = d->inputs[g->first + i];
        if (!draft_is_leaf(x) && draft_id(x) == c->order[start]) return true;
    }
    return false;
}
