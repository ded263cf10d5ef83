/* A loop through a negation has no one meaning ("a unless b, b unless a"), so it is refused, with
 * the whole way round it shown to the author. */
#include <assert.h>

#include "base/grow.h"
#include "compile/logic_draft.h"

/* Longer ways round are told by their beginning and their end. */
enum { STEPS_TOLD = 24 };

/* `from` has a body that names `to`. */
typedef struct edge {
    uint32_t from, to;
    bool negated;
    span at;
} edge;

typedef struct loop_search {
    arena *scratch;
    const draft *d;
    const components *c;
    bool *bad; /* [component] a negation within */
    edge *edges;
    uint32_t edge_count, edge_room;
    uint32_t *first;    /* [atom + 1] edges by `from` */
    uint32_t *came_by;  /* [atom] edge, of the search under way */
    uint32_t *searched; /* [atom] number of the search that reached it */
    uint32_t *queue;
    bool *told; /* [edge] part of a loop already reported */
    uint32_t searches;
} loop_search;

static bool mark_bad(const draft *d, const components *c, bool *bad)
{
    bool any = false;
    for (uint32_t g = 0; g < d->gate_count; g++)
        for (uint32_t i = 0; i < d->gates[g].count; i++) {
            draft_literal x = d->inputs[d->gates[g].first + i];
            if (draft_is_leaf(x) || !draft_negated(x) || c->of[draft_id(x)] != c->of[g]) continue;
            bad[c->of[g]] = any = true;
        }
    return any;
}

static void add_edge(loop_search *s, edge e)
{
    GROW(s->scratch, s->edges, s->edge_count, s->edge_room);
    s->edges[s->edge_count++] = e;
}

/* Edges of one condition that stay within the component; as deep as conditions nest. */
static void edges_of(loop_search *s, uint32_t from, const expr *e, bool negated)
{
    if (e->kind == EXPR_ATOM) {
        if (s->c->of[e->subject] == s->c->of[from])
            add_edge(s, (edge){from, e->subject, negated, e->at});
        return;
    }
    for (uint32_t i = 0; i < e->count; i++)
        edges_of(s, from, e->parts[i], negated != (e->kind == EXPR_NOT));
}

static void collect_edges(loop_search *s)
{
    const logic_input *in = s->d->in;
    s->first = ARENA_ARRAY(s->scratch, uint32_t, (size_t)in->atom_count + 1);
    for (uint32_t a = 0; a < in->atom_count; a++) {
        s->first[a] = s->edge_count;
        if (!s->bad[s->c->of[a]]) continue;
        for (uint32_t i = s->d->body_first[a]; i < s->d->body_first[a + 1]; i++)
            edges_of(s, a, in->bodies[s->d->bodies[i]].when, false);
    }
    s->first[in->atom_count] = s->edge_count;
}

/* Shortest way from one atom to another within their component. */
static void find_way(loop_search *s, uint32_t from, uint32_t to)
{
    uint32_t head = 0, tail = 0;
    s->searched[from] = ++s->searches;
    s->queue[tail++] = from;
    while (head < tail && s->searched[to] != s->searches) {
        uint32_t at = s->queue[head++];
        for (uint32_t i = s->first[at]; i < s->first[at + 1]; i++) {
            uint32_t next = s->edges[i].to;
            if (s->searched[next] == s->searches) continue;
            s->searched[next] = s->searches;
            s->came_by[next] = i;
            s->queue[tail++] = next;
        }
    }
    assert(s->searched[to] == s->searches); /* one component, so there is a way */
}

/* The loop that begins with this edge, in order; its length. */
static uint32_t loop_through(loop_search *s, uint32_t closing, uint32_t *way)
{
    uint32_t start = s->edges[closing].from, end = s->edges[closing].to, length = 1;
    find_way(s, end, start);
    for (uint32_t a = start; a != end; a = s->edges[s->came_by[a]].from) length++;
    uint32_t at = length;
    for (uint32_t a = start; a != end; a = s->edges[s->came_by[a]].from) way[--at] = s->came_by[a];
    assert(at == 1);
    way[0] = closing;
    return length;
}

static str name_of(const loop_search *s, uint32_t atom)
{
    return s->d->in->atoms[atom].name;
}

static bool is_told(uint32_t step, uint32_t length)
{
    return length <= STEPS_TOLD || step < STEPS_TOLD / 2 || step >= length - STEPS_TOLD / 2;
}

static void add_step(text_builder *text, const loop_search *s, const edge *e)
{
    str from = name_of(s, e->from), to = name_of(s, e->to);
    text_addf(text, e->negated ? "\"%.*s\" needs \"%.*s\" not to hold" : "\"%.*s\" needs \"%.*s\"",
              STR_ARG(from), STR_ARG(to));
}

static str story_of(const loop_search *s, const uint32_t *way, uint32_t length)
{
    text_builder text = {.keep = s->scratch};
    for (uint32_t i = 0; i < length; i++) {
        if (!is_told(i, length)) {
            if (is_told(i - 1, length))
                text_addf(&text, "; and so on over %u steps", (unsigned)(length - STEPS_TOLD));
            continue;
        }
        if (i > 0) text_add(&text, STR("; "));
        add_step(&text, s, &s->edges[way[i]]);
    }
    return text_done(&text);
}

static void note_steps(const loop_search *s, const uint32_t *way, uint32_t length, faults *list,
                       fault *f)
{
    for (uint32_t i = 0; i < length; i++) {
        if (!is_told(i, length)) continue;
        text_builder text = {.keep = s->scratch};
        add_step(&text, s, &s->edges[way[i]]);
        str step = text_done(&text);
        fault_note_at(list, f, s->edges[way[i]].at, "%.*s", STR_ARG(step));
    }
}

static void report_loop(loop_search *s, uint32_t closing, uint32_t *way, faults *list)
{
    uint32_t length = loop_through(s, closing, way);
    for (uint32_t i = 0; i < length; i++) s->told[way[i]] = true;
    str story = story_of(s, way, length), first = name_of(s, s->edges[closing].from);
    fault *f =
        fault_add(list, FAULT_LOOP_THROUGH_NOT, s->edges[closing].at,
                  "\"%.*s\" depends on its own opposite: %.*s.", STR_ARG(first), STR_ARG(story));
    fault_help(list, f,
               "Take one of these conditions out, or let it ask for an answer instead of for what "
               "a rule sets.");
    note_steps(s, way, length, list, f);
}

bool loops_refused(arena *scratch, const draft *d, const components *c, faults *list)
{
    bool *bad = ARENA_ARRAY(scratch, bool, c->count);
    if (!mark_bad(d, c, bad)) return false;
    loop_search s = {.scratch = scratch, .d = d, .c = c, .bad = bad};
    collect_edges(&s);
    size_t atoms = d->in->atom_count;
    s.came_by = ARENA_ARRAY(scratch, uint32_t, atoms);
    s.searched = ARENA_ARRAY(scratch, uint32_t, atoms);
    s.queue = ARENA_ARRAY(scratch, uint32_t, atoms);
    s.told = ARENA_ARRAY(scratch, bool, s.edge_count);
    uint32_t *way = ARENA_ARRAY(scratch, uint32_t, atoms + 1);
    bool any = false;
    for (uint32_t i = 0; i < s.edge_count; i++) {
        if (!s.edges[i].negated || s.told[i]) continue;
        report_loop(&s, i, way, list);
        any = true;
    }
    assert(any); /* a negated input within a component came from a negated name in a condition */
    return true;
}
