/* Components that answers through one instrument join, and what all of their answers say. */
#include "believe/joined.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"

/* ---- who is joined ---- */

typedef struct shared {
    latent of;
    uint32_t first, findings; /* a finding answered through it; how many */
} shared;

typedef struct joiner {
    const net *n;
    const evidence *seen;
    shared *all;
    uint32_t count, room;
    arena *keep;
    uint32_t *with; /* [component] another of its group, or itself at the end */
    bool *answered; /* [component] */
} joiner;

static uint32_t end_of(const joiner *x, uint32_t component_index)
{
    while (x->with[component_index] != component_index) component_index = x->with[component_index];
    return component_index;
}

static void join(const joiner *x, uint32_t one, uint32_t two)
{
    one = end_of(x, one);
    two = end_of(x, two);
    if (one < two) x->with[two] = one;
    if (two < one) x->with[one] = two;
}

static void note_latent(joiner *x, latent of, uint32_t finding)
{
    for (uint32_t i = 0; i < x->count; i++)
        if (latents_equal(x->all[i].of, of)) {
            x->all[i].findings += x->all[i].first != finding;
            join(x, x->n->component_of[x->all[i].first], x->n->component_of[finding]);
            return;
        }
    if (x->count == x->room) {
        const shared *before = x->all;
        x->room = 2 * x->room + 8;
        x->all = ARENA_ARRAY(x->keep, shared, x->room);
        for (uint32_t i = 0; i < x->count; i++) x->all[i] = before[i];
    }
    x->all[x->count++] = (shared){of, finding, 1};
}

static void note_looks(joiner *x, uint32_t finding)
{
    const net_finding *f = &x->n->in.findings[finding];
    sighting one;
    const looks all = looks_at(x->n, x->seen, finding, &one);
    assert(x->n->component_of[finding] != NO_COMPONENT);
    for (uint32_t l = 0; l < all.count; l++)
        for (uint32_t i = 0; i < f->source_count; i++)
            if (x->n->in.sources[f->sources[i]].wrong > 0)
                note_latent(x, look_latent(x->n, f->sources[i], &all.items[l]), finding);
}

/* ---- groups ---- */

static const latent *latents_in(arena *keep, const joiner *x, uint32_t end, uint32_t *count)
{
    latent *all = NULL;
    *count = 0;
    for (uint32_t i = 0; i < x->count && *count < JOINED_MAX; i++) {
        if (x->all[i].findings < 2 || end_of(x, x->n->component_of[x->all[i].first]) != end)
            continue;
        if (all == NULL) all = ARENA_ARRAY(keep, latent, JOINED_MAX);
        all[(*count)++] = x->all[i].of;
    }
    return all;
}

static const uint32_t *listed_in(arena *keep, const joiner *x, const joined *j, uint32_t *count)
{
    const uint32_t causes = x->n->in.cause_count;
    if (j->count == 1) {
        *count = x->n->components[j->components[0]].listed_count;
        return x->n->components[j->components[0]].listed;
    }
    bool *is_listed = ARENA_ARRAY(keep, bool, causes);
    uint32_t *all = ARENA_ARRAY(keep, uint32_t, causes);
    for (uint32_t i = 0; i < j->count; i++) {
        const component *g = &x->n->components[j->components[i]];
        for (uint32_t k = 0; k < g->listed_count; k++) is_listed[g->listed[k]] = true;
    }
    *count = 0;
    for (uint32_t c = 0; c < causes; c++)
        if (is_listed[c]) all[(*count)++] = c;
    return all;
}

/* The end of a group is its first component. */
static joined group_at(arena *keep, const joiner *x, uint32_t end, const uint32_t *components,
                       uint32_t count)
{
    assert(count > 0 && components[0] == end);
    joined j = {.components = components, .count = count};
    j.latents = latents_in(keep, x, end, &j.latent_count);
    j.listed = listed_in(keep, x, &j, &j.listed_count);
    return j;
}

static joiner joiner_of(arena *keep, const net *n, const evidence *seen)
{
    joiner x = {.n = n, .seen = seen, .keep = keep};
    x.with = ARENA_ARRAY(keep, uint32_t, n->component_count);
    x.answered = ARENA_ARRAY(keep, bool, n->component_count);
    for (uint32_t i = 0; i < n->component_count; i++) x.with[i] = i;
    for (uint32_t f = 0; f < n->in.finding_count; f++) {
        sighting one;
        if (n->component_of[f] == NO_COMPONENT || looks_at(n, seen, f, &one).count == 0) continue;
        x.answered[n->component_of[f]] = true;
        note_looks(&x, f);
    }
    return x;
}

/* [component] where its group's components begin, of those that are an end; the components of all
 * groups stand one group behind the other, rising. */
static uint32_t *sort_components(arena *keep, const joiner *x, uint32_t *sizes, uint32_t *groups)
{
    const uint32_t count = x->n->component_count;
    uint32_t *starts = ARENA_ARRAY(keep, uint32_t, count),
             *all = ARENA_ARRAY(keep, uint32_t, count);
    uint32_t used = 0;
    for (uint32_t i = 0; i < count; i++)
        if (x->answered[i]) sizes[end_of(x, i)]++;
    for (uint32_t i = 0; i < count; used += sizes[i++]) {
        starts[i] = used;
        *groups += sizes[i] > 0;
    }
    for (uint32_t i = 0; i < count; i++)
        if (x->answered[i]) all[starts[end_of(x, i)]++] = i;
    return all;
}

joining joining_of(arena *keep, const net *n, const evidence *seen)
{
    const joiner x = joiner_of(keep, n, seen);
    uint32_t *sizes = ARENA_ARRAY(keep, uint32_t, n->component_count), count = 0, used = 0;
    const uint32_t *components = sort_components(keep, &x, sizes, &count);
    joined *groups = ARENA_ARRAY(keep, joined, count);
    joining all = {groups, 0};
    for (uint32_t i = 0; i < n->component_count; used += sizes[i++])
        if (sizes[i] > 0) groups[all.count++] = group_at(keep, &x, i, components + used, sizes[i]);
    return all;
}

/* Nothing that it is looked at with can mislead: it joins no other. */
static bool stands_apart(const net *n, const component *g)
{
    for (uint32_t i = 0; i < g->finding_count; i++) {
        const net_finding *f = &n->in.findings[g->findings[i]];
        for (uint32_t s = 0; s < f->source_count; s++)
            if (n->in.sources[f->sources[s]].wrong > 0) return false;
    }
    return true;
}

static joined apart(arena *keep, const net *n, const evidence *seen, uint32_t index)
{
    const component *g = &n->components[index];
    sighting one;
    uint32_t i = 0;
    while (i < g->finding_count && looks_at(n, seen, g->findings[i], &one).count == 0) i++;
    if (i == g->finding_count) return (joined){0};
    uint32_t *itself = ARENA_NEW(keep, uint32_t);
    *itself = index;
    return (joined){itself, 1, NULL, 0, g->listed, g->listed_count};
}

joined joining_with(arena *keep, const net *n, const evidence *seen, uint32_t component_index)
{
    if (stands_apart(n, &n->components[component_index]))
        return apart(keep, n, seen, component_index);
    const joiner x = joiner_of(keep, n, seen);
    if (!x.answered[component_index]) return (joined){0};
    const uint32_t end = end_of(&x, component_index);
    uint32_t *components = NULL, count = 0;
    for (int pass = 0; pass < 2; pass++) {
        if (pass == 1) components = ARENA_ARRAY(keep, uint32_t, count);
        count = 0;
        for (uint32_t i = end; i < n->component_count; i++) {
            if (!x.answered[i] || end_of(&x, i) != end) continue;
            if (components != NULL) components[count] = i;
            count++;
        }
    }
    return group_at(keep, &x, end, components, count);
}

joined joined_with(const joining *all, uint32_t component_index)
{
    for (uint32_t i = 0; i < all->count; i++) {
        const joined *j = &all->groups[i];
        if (place_of_id(j->components, j->count, component_index) < j->count) return *j;
    }
    return (joined){0};
}

/* ---- what they say ---- */

static double row_says(const double *row, const double *atom_weight, uint32_t atoms)
{
    double sum = 0;
    for (uint32_t a = 0; a < atoms; a++) sum += row[a] * atom_weight[a];
    return sum;
}

typedef struct weighing {
    arena *scratch;
    const net *n;
    const race *races;
    const joined *j;
    const evidence *seen;
    given_latents given;
    joined_says now; /* with the latents as given */
} weighing;

/* The row of each cause of the group in one component; a pair of which it lists one has that one's.
 */
static void multiply_pairs(const weighing *w, uint32_t index, const double *atom_weight)
{
    const component *g = &w->n->components[index];
    double *row = ARENA_ARRAY(w->scratch, double, g->atom_count);
    for (uint32_t i = 0, pair = 0; i < w->j->listed_count; i++) {
        const uint32_t one = place_of_id(g->listed, g->listed_count, w->j->listed[i]);
        for (uint32_t k = i + 1; k < w->j->listed_count; k++, pair++) {
            const uint32_t two = place_of_id(g->listed, g->listed_count, w->j->listed[k]);
            const bool first = one < g->listed_count, second = two < g->listed_count;
            const double *from = component_row(g, w->j->listed[first ? i : k]);
            if (first && second) race_row(g, &w->races[index], one, two, row);
            w->now.pairs[pair] *=
                row_says(first && second ? row : from, atom_weight, g->atom_count);
        }
    }
}

static void multiply_component(const weighing *w, joined_says *now, uint32_t index)
{
    const component *g = &w->n->components[index];
    double *atom_weight = ARENA_ARRAY(w->scratch, double, g->atom_count);
    weigh_atoms(g, answers_in(w->scratch, w->n, g, w->seen, g->finding_count, &w->given),
                atom_weight);
    now->base *= row_says(g->base, atom_weight, g->atom_count);
    now->other *= row_says(g->other, atom_weight, g->atom_count);
    for (uint32_t i = 0; i < w->j->listed_count; i++)
        now->listed[i] *= row_says(component_row(g, w->j->listed[i]), atom_weight, g->atom_count);
    if (now->pairs != NULL) multiply_pairs(w, index, atom_weight);
}

static uint32_t pair_count(uint32_t listed)
{
    return listed < 2 ? 0 : listed * (listed - 1) / 2;
}

static void set_all(const joined *j, joined_says *s, double value)
{
    s->base = s->other = value;
    for (uint32_t i = 0; i < j->listed_count; i++) s->listed[i] = value;
    for (uint32_t i = 0; s->pairs != NULL && i < pair_count(j->listed_count); i++)
        s->pairs[i] = value;
}

static void add_all(const joined *j, joined_says *sum, const joined_says *more)
{
    sum->base += more->base;
    sum->other += more->other;
    for (uint32_t i = 0; i < j->listed_count; i++) sum->listed[i] += more->listed[i];
    for (uint32_t i = 0; sum->pairs != NULL && i < pair_count(j->listed_count); i++)
        sum->pairs[i] += more->pairs[i];
}

static joined_says says_new(arena *keep, const joined *j, bool pairs)
{
    joined_says s = {0};
    s.listed = ARENA_ARRAY(keep, double, j->listed_count);
    if (pairs) s.pairs = ARENA_ARRAY(keep, double, pair_count(j->listed_count));
    return s;
}

/* Chance that of the latents just these mislead. */
static double chance_of(const net *n, const given_latents *given)
{
    double chance = 1;
    for (uint32_t i = 0; i < given->count; i++) {
        const double wrong = n->in.sources[given->items[i].source].wrong;
        chance *= (given->wrong >> i & 1) != 0 ? wrong : 1 - wrong;
    }
    return chance;
}

joined_says joined_weigh(arena *keep, const net *n, const race *races, const joined *j,
                         const evidence *seen, uint32_t until)
{
    assert(j->latent_count <= JOINED_MAX);
    joined_says sum = says_new(keep, j, races != NULL);
    const arena_mark mark = arena_here(keep);
    weighing w = {.scratch = keep, .n = n, .races = races, .j = j, .seen = seen};
    w.given = (given_latents){j->latents, j->latent_count, 0};
    w.now = says_new(keep, j, races != NULL);
    const arena_mark each = arena_here(keep);
    for (; w.given.wrong < (uint64_t)1 << j->latent_count; w.given.wrong++) {
        set_all(j, &w.now, chance_of(n, &w.given));
        for (uint32_t i = 0; i < j->count; i++)
            if (j->components[i] < until) multiply_component(&w, &w.now, j->components[i]);
        add_all(j, &sum, &w.now);
        arena_back_to(keep, each);
    }
    arena_back_to(keep, mark);
    return sum;
}

double joined_of(const joined *j, const joined_says *s, uint32_t hypothesis)
{
    if (hypothesis == 0) return s->other;
    const uint32_t place = place_of_id(j->listed, j->listed_count, hypothesis - 1);
    return place < j->listed_count ? s->listed[place] : s->base;
}

double joined_counted(const net *n, double chance)
{
    assert(n->in.answers_count > 0 && n->in.answers_count <= 1 && chance >= 0);
    return n->in.answers_count * log(fmax(chance, LIKELIHOOD_LEAST));
}
