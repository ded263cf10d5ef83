/* Which findings belong together: those that stand in one condition, by union-find. */
#include <assert.h>

#include "base/sorted.h"
#include "compile/net_parts.h"

typedef struct forest {
    const net_input *in;
    uint32_t *parent; /* [finding]; the least finding of a tree is its root */
    bool *named;      /* stands in some condition */
    uint32_t first;   /* of the condition at hand, or NO_SLOT */
} forest;

static uint32_t root_of(forest *f, uint32_t x)
{
    while (f->parent[x] != x) {
        f->parent[x] = f->parent[f->parent[x]];
        x = f->parent[x];
    }
    return x;
}

static void join(void *context, uint32_t finding)
{
    forest *f = context;
    if (f->in->findings[finding].fact) return;
    f->named[finding] = true;
    if (f->first == NO_SLOT) f->first = finding;
    uint32_t a = root_of(f, f->first), b = root_of(f, finding);
    if (a < b)
        f->parent[b] = a;
    else
        f->parent[a] = b;
}

/* The first finding of every symptom, NO_SLOT where the condition names none. */
static uint32_t *join_all(arena *scratch, const net_input *in, forest *f)
{
    uint32_t *first = ARENA_ARRAY(scratch, uint32_t, in->symptom_count);
    f->parent = ARENA_ARRAY(scratch, uint32_t, in->finding_count);
    f->named = ARENA_ARRAY(scratch, bool, in->finding_count);
    for (uint32_t i = 0; i < in->finding_count; i++) f->parent[i] = i;
    for (uint32_t s = 0; s < in->symptom_count; s++) {
        f->first = NO_SLOT;
        expr_each_finding(in->symptoms[s].when, join, f);
        first[s] = f->first;
    }
    return first;
}

/* Numbers the trees by their root; [finding] group of a root. */
static uint32_t *number_groups(arena *scratch, const net_input *in, forest *f, net_group *groups,
                               uint32_t *count)
{
    uint32_t *number = ARENA_ARRAY(scratch, uint32_t, in->finding_count);
    *count = 0;
    for (uint32_t i = 0; i < in->finding_count; i++) {
        if (!f->named[i]) continue;
        if (root_of(f, i) == i) number[i] = (*count)++;
        groups[number[root_of(f, i)]].finding_count++;
    }
    return number;
}

typedef struct naming {
    const net_input *in;
    bool *named; /* [finding] a fact of the group at hand */
    uint32_t *facts, count;
} naming;

static void note_fact(void *context, uint32_t finding)
{
    naming *n = context;
    if (!n->in->findings[finding].fact || n->named[finding]) return;
    n->named[finding] = true;
    n->facts[n->count++] = finding;
}

/* Facts join nothing: tables depend on them. */
static void find_facts(arena *scratch, naming *n, net_group *group)
{
    n->count = 0;
    for (uint32_t s = 0; s < group->symptom_count; s++)
        expr_each_finding(n->in->symptoms[group->symptoms[s]].when, note_fact, n);
    uint32_t *facts = ARENA_ARRAY(scratch, uint32_t, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        facts[i] = n->facts[i];
        n->named[facts[i]] = false;
    }
    SORT(facts, n->count, by_rising_id);
    group->facts = facts;
    group->fact_count = n->count;
}

const net_group *net_groups(arena *scratch, const net_input *in, uint32_t *count)
{
    forest f = {.in = in};
    const uint32_t *first = join_all(scratch, in, &f);
    net_group *groups = ARENA_ARRAY(scratch, net_group, in->finding_count);
    const uint32_t *number = number_groups(scratch, in, &f, groups, count);
    for (uint32_t s = 0; s < in->symptom_count; s++)
        if (first[s] != NO_SLOT) groups[number[root_of(&f, first[s])]].symptom_count++;
    uint32_t **findings = ARENA_ARRAY(scratch, uint32_t *, *count),
             **symptoms = ARENA_ARRAY(scratch, uint32_t *, *count);
    for (uint32_t g = 0; g < *count; g++) {
        groups[g].findings = findings[g] = ARENA_ARRAY(scratch, uint32_t, groups[g].finding_count);
        groups[g].symptoms = symptoms[g] = ARENA_ARRAY(scratch, uint32_t, groups[g].symptom_count);
        assert(groups[g].symptom_count > 0);
    }
    for (uint32_t i = 0; i < in->finding_count; i++)
        if (f.named[i]) *findings[number[root_of(&f, i)]]++ = i;
    for (uint32_t s = 0; s < in->symptom_count; s++)
        if (first[s] != NO_SLOT) *symptoms[number[root_of(&f, first[s])]]++ = s;
    naming n = {in, ARENA_ARRAY(scratch, bool, in->finding_count),
                ARENA_ARRAY(scratch, uint32_t, in->finding_count), 0};
    for (uint32_t g = 0; g < *count; g++) find_facts(scratch, &n, &groups[g]);
    return groups;
}

uint64_t net_group_cells(const net_input *in, const net_group *from)
{
    uint64_t cells = 1;
    assert(from->finding_count > 0);
    for (uint32_t i = 0; i < from->finding_count; i++) {
        cells *= in->findings[from->findings[i]].states;
        if (cells > NET_CELLS_MAX) return NET_CELLS_MAX + 1;
    }
    return cells;
}
