/* Can two values of one conclusion hold under the same answers? A search with bounds: first each
 * atom alone is tried against every single answer, which tells most pairs apart; what is left is
 * searched by trying answers in turn. */
#include "compile/logic_conflicts.h"

#include <assert.h>
#include <string.h>

#include "compile/logic_draft.h"

/* In gates and inputs looked at: some milliseconds a group, and in all about as long as reading the
 * rules took. */
enum {
    WORK_PER_PROBE = 100 * 1000,
    WORK_PER_GROUP = 4 * 1000 * 1000,
    WORK_PER_NODE = 500,
    TOLD_PER_GROUP = 8
};

/* Choices that one atom leaves to a finding it asks. */
typedef struct scope {
    uint32_t finding;
    bool not_known;
    state_mask states;
} scope;

/* Scopes of one atom, by finding. Never: no answers make it hold. */
typedef struct outline {
    const scope *scopes;
    uint32_t count;
    bool never;
} outline;

/* A finding being tried, and the next choice to try. */
typedef struct trial {
    uint32_t finding, next;
} trial;

typedef enum verdict { APART, TOGETHER, UNDECIDED } verdict;

typedef struct hunt {
    arena *scratch;
    const logic *l;
    cone *c;
    bool *may_be_unknown; /* [finding] some condition asks whether it is known */
    scope *domain;        /* [finding] of the pair under way */
    trial *trials;
    uint32_t depth;
    conflict_teller *teller;
    uint32_t a, b;
    const scope *best; /* open finding with the fewest choices */
} hunt;

static uint32_t choices(const scope *s)
{
    return (uint32_t)__builtin_popcountll(s->states) + (s->not_known ? 1 : 0);
}

static scope whole_scope(const hunt *h, uint32_t finding)
{
    return (scope){finding, h->may_be_unknown[finding],
                   states_mask(h->l->source.findings[finding].states)};
}

static bool is_spent(const hunt *h)
{
    return h->c->work > h->c->limit;
}

/* When the limit is passed, nothing may be concluded, so: yes. */
static bool can_hold_with(hunt *h, uint32_t atom, uint32_t finding, uint32_t choice)
{
    cone_choose(h->c, finding, choice);
    return !cone_evaluate(h->c) || (cone_atom(h->c, atom) & CAN_HOLD) != 0;
}

/* Which choices for this finding alone leave the atom a chance. */
static scope probe(hunt *h, uint32_t atom, uint32_t finding)
{
    scope s = whole_scope(h, finding);
    uint32_t states = h->l->source.findings[finding].states;
    for (uint32_t i = 0; i < states; i++)
        if (!can_hold_with(h, atom, finding, i)) s.states &= ~((state_mask)1 << i);
    if (s.not_known) s.not_known = can_hold_with(h, atom, finding, CHOICE_NOT_KNOWN);
    cone_choose(h->c, finding, CHOICE_OPEN);
    return s;
}

static outline outline_of(hunt *h, uint32_t atom)
{
    if (is_spent(h)) return (outline){NULL, 0, false};
    cone_of(h->c, atom, atom);
    bool never = cone_evaluate(h->c) && (cone_atom(h->c, atom) & CAN_HOLD) == 0;
    uint32_t count = h->c->finding_count;
    if (never) return (outline){NULL, 0, true};
    scope *scopes = ARENA_ARRAY(h->scratch, scope, count);
    uint64_t most = h->c->work + WORK_PER_PROBE;
    for (uint32_t i = 0; i < count; i++) {
        uint32_t f = h->c->findings[i];
        scopes[i] = h->c->work < most && !is_spent(h) ? probe(h, atom, f) : whole_scope(h, f);
        never |= choices(&scopes[i]) == 0;
    }
    return (outline){scopes, count, never};
}

/* Is there a finding of which the two need different answers? */
static bool told_apart(hunt *h, const outline *x, const outline *y)
{
    uint32_t i = 0, j = 0;
    while (i < x->count && j < y->count) {
        const scope *a = &x->scopes[i], *b = &y->scopes[j];
        h->c->work++;
        if (a->finding == b->finding && (a->states & b->states) == 0 &&
            !(a->not_known && b->not_known))
            return true;
        if (a->finding <= b->finding) i++;
        if (b->finding <= a->finding) j++;
    }
    return false;
}

static void narrow(hunt *h, const outline *x)
{
    for (uint32_t i = 0; i < x->count; i++) {
        scope *s = &h->domain[x->scopes[i].finding];
        s->states &= x->scopes[i].states;
        s->not_known = s->not_known && x->scopes[i].not_known;
    }
}

static void consider(void *context, uint32_t finding)
{
    hunt *h = context;
    const scope *s = &h->domain[finding];
    assert(h->c->chosen[finding] == CHOICE_OPEN);
    if (h->best == NULL || choices(s) < choices(h->best) ||
        (choices(s) == choices(h->best) && finding < h->best->finding))
        h->best = s;
}

static bool begin_trial(hunt *h)
{
    h->best = NULL;
    cone_each_open(h->c, h->a, h->b, consider, h);
    if (h->best == NULL) return false;
    assert(h->depth < h->l->source.finding_count);
    h->trials[h->depth++] = (trial){h->best->finding, 0};
    return true;
}

static bool is_allowed(const scope *s, uint32_t choice)
{
    return choice == CHOICE_NOT_KNOWN ? s->not_known : (s->states >> choice & 1) != 0;
}

/* Makes the next choice of the latest trial that has one left; false if none has. */
static bool next_choice(hunt *h)
{
    while (h->depth > 0) {
        trial *t = &h->trials[h->depth - 1];
        while (t->next <= CHOICE_NOT_KNOWN && !is_allowed(&h->domain[t->finding], t->next))
            t->next++;
        if (t->next <= CHOICE_NOT_KNOWN) {
            cone_choose(h->c, t->finding, t->next++);
            return true;
        }
        cone_choose(h->c, t->finding, CHOICE_OPEN);
        h->depth--;
    }
    return false;
}

static verdict search(hunt *h)
{
    h->depth = 0;
    do {
        if (!cone_evaluate(h->c)) return UNDECIDED;
        uint8_t a = cone_atom(h->c, h->a), b = cone_atom(h->c, h->b);
        if ((a & b & HOLDS) != 0) return TOGETHER;
        if ((a & b & CAN_HOLD) != 0) (void)begin_trial(h);
    } while (next_choice(h));
    return APART;
}

static bool both_hold(hunt *h)
{
    cone_evaluate(h->c);
    return (cone_atom(h->c, h->a) & cone_atom(h->c, h->b) & HOLDS) != 0;
}

/* Opens every answer that isn't needed for both to hold, as far as some more work goes. */
static void drop_needless(hunt *h)
{
    uint64_t limit = h->c->limit;
    h->c->limit = h->c->work + WORK_PER_GROUP;
    for (uint32_t i = 0; i < h->depth; i++) {
        uint32_t f = h->trials[i].finding, choice = h->c->chosen[f];
        cone_choose(h->c, f, CHOICE_OPEN);
        if (!both_hold(h)) cone_choose(h->c, f, choice);
    }
    h->c->limit = UINT64_MAX;
    bool still = both_hold(h);
    h->c->limit = limit;
    assert(still);
    (void)still;
}

static verdict judge(hunt *h, const outline *x, const outline *y)
{
    h->c->work++;
    if (is_spent(h)) return UNDECIDED;
    if (x->never || y->never || told_apart(h, x, y)) return APART;
    cone_of(h->c, h->a, h->b);
    for (uint32_t i = 0; i < h->c->finding_count; i++) {
        uint32_t f = h->c->findings[i];
        h->domain[f] = whole_scope(h, f);
    }
    narrow(h, x);
    narrow(h, y);
    return search(h);
}

/* What was found out about a group's pairs. */
typedef struct tally {
    uint32_t told, first_a, first_b;
    uint64_t undecided;
} tally;

static void hunt_pair(hunt *h, const logic_group *group, const outline *outlines,
                      const uint32_t pair[2], tally *t, faults *list)
{
    assert(pair[0] < pair[1] && pair[1] < group->count);
    h->a = group->atoms[pair[0]];
    h->b = group->atoms[pair[1]];
    verdict v = judge(h, &outlines[pair[0]], &outlines[pair[1]]);
    if (v == TOGETHER) {
        drop_needless(h);
        conflict_tell(h->teller, group, h->a, h->b, list);
        t->told++;
    }
    if (v == UNDECIDED && t->undecided++ == 0) {
        t->first_a = h->a;
        t->first_b = h->b;
    }
}

/* Pairs that come after (i, j) when both rise. */
static uint64_t pairs_after(uint64_t count, uint64_t i, uint64_t j)
{
    assert(i < j && j < count);
    uint64_t rows = count - i - 2;
    return count - j - 1 + (i + 1 < count ? (rows + 1) * rows / 2 : 0);
}

static bool hunt_group(hunt *h, const logic_group *group, faults *list)
{
    arena_mark mark = arena_here(h->scratch);
    outline *outlines = ARENA_ARRAY(h->scratch, outline, group->count);
    tally t = {0};
    for (uint32_t i = 0; i < group->count; i++) outlines[i] = outline_of(h, group->atoms[i]);
    for (uint32_t i = 0; i < group->count; i++)
        for (uint32_t j = i + 1; j < group->count && t.told < TOLD_PER_GROUP; j++) {
            hunt_pair(h, group, outlines, (const uint32_t[2]){i, j}, &t, list);
            if (!is_spent(h)) continue;
            t.undecided += pairs_after(group->count, i, j);
            i = j = group->count;
        }
    if (t.undecided > 0)
        conflict_tell_undecided(h->l, group, t.first_a, t.first_b, t.undecided - 1, list);
    arena_back_to(h->scratch, mark);
    return t.told > 0;
}

static bool *findings_asked_known(arena *scratch, const logic *l)
{
    bool *asked = ARENA_ARRAY(scratch, bool, l->source.finding_count);
    for (uint32_t i = 0; i < l->leaf_count; i++)
        if (l->leaves[i].asks_known) asked[l->leaves[i].finding] = true;
    return asked;
}

static uint32_t input_count(const logic *l)
{
    return l->gates[l->node_count - l->leaf_count].first;
}

bool conflicts_refused(arena *scratch, const logic *l, faults *list)
{
    if (l->source.group_count == 0) return false;
    hunt h = {.scratch = scratch, .l = l, .c = cone_new(scratch, l)};
    h.may_be_unknown = findings_asked_known(scratch, l);
    h.domain = ARENA_ARRAY(scratch, scope, l->source.finding_count);
    h.trials = ARENA_ARRAY(scratch, trial, l->source.finding_count);
    h.teller = conflict_teller_new(scratch, h.c);
    uint64_t most = WORK_PER_GROUP + WORK_PER_NODE * (uint64_t)(l->node_count + input_count(l));
    bool any = false;
    for (uint32_t g = 0; g < l->source.group_count; g++) {
        if (l->source.groups[g].count < 2) continue;
        h.c->limit = h.c->work + WORK_PER_GROUP;
        if (h.c->limit > most) h.c->limit = most;
        any |= hunt_group(&h, &l->source.groups[g], list);
    }
    return any;
}
