/* The network of causes and evidence: numbers clipped, findings grouped, each group made a
 * component. */
#include "compile/net.h"

#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/net_parts.h"

double clip_chance(double chance)
{
    assert(chance >= 0 && chance <= 1);
    return chance < CHANCE_LEAST ? CHANCE_LEAST : chance > CHANCE_MOST ? CHANCE_MOST : chance;
}

static const net_rate *clip_rates(arena *keep, const net_symptom *s, uint32_t cause_count)
{
    net_rate *rates = ARENA_ARRAY(keep, net_rate, s->listed_count);
    for (uint32_t i = 0; i < s->listed_count; i++) {
        assert(s->listed[i].cause < cause_count);
        rates[i] = (net_rate){s->listed[i].cause, clip_chance(s->listed[i].chance)};
    }
    return rates;
}

static const net_symptom *clip_symptoms(arena *keep, const net_input *in)
{
    net_symptom *symptoms = ARENA_ARRAY(keep, net_symptom, in->symptom_count);
    for (uint32_t s = 0; s < in->symptom_count; s++) {
        symptoms[s] = in->symptoms[s];
        symptoms[s].otherwise = clip_chance(in->symptoms[s].otherwise);
        symptoms[s].listed = clip_rates(keep, &in->symptoms[s], in->cause_count);
    }
    return symptoms;
}

static const net_source *clip_sources(arena *keep, const net_input *in)
{
    net_source *sources = ARENA_ARRAY(keep, net_source, in->source_count);
    for (uint32_t i = 0; i < in->source_count; i++) {
        sources[i] = in->sources[i];
        sources[i].wrong = in->sources[i].wrong > 0 ? clip_chance(in->sources[i].wrong) : 0;
    }
    return sources;
}

static double sum_of_weights(const net_input *in)
{
    double sum = 0;
    for (uint32_t c = 0; c < in->cause_count; c++) {
        assert(in->weights[c] >= 0);
        sum += in->weights[c];
    }
    return sum;
}

static const double *shares_of(arena *keep, const net_input *in, double sum)
{
    double *share = ARENA_ARRAY(keep, double, in->cause_count);
    for (uint32_t c = 0; c < in->cause_count; c++) share[c] = in->weights[c] / sum;
    return share;
}

static void check_findings(const net_input *in)
{
    for (uint32_t f = 0; f < in->finding_count; f++) {
        const net_finding *finding = &in->findings[f];
        assert(finding->states >= 1 && finding->states <= EXPR_STATES_MAX);
        assert(finding->usual == NO_STATE || finding->usual < finding->states);
        assert(finding->right > 0 && finding->right <= 1);
        assert(finding->toward >= 0 && finding->toward <= 1);
        for (uint32_t i = 0; i < finding->source_count; i++)
            assert(finding->sources[i] < in->source_count);
        (void)finding;
    }
}

/* Tells which component and slot every finding has. */
static void index_findings(arena *keep, net *n)
{
    uint32_t *component_of = ARENA_ARRAY(keep, uint32_t, n->in.finding_count),
             *slot_of = ARENA_ARRAY(keep, uint32_t, n->in.finding_count);
    for (uint32_t f = 0; f < n->in.finding_count; f++) component_of[f] = NO_COMPONENT;
    for (uint32_t g = 0; g < n->component_count; g++)
        for (uint32_t i = 0; i < n->components[g].finding_count; i++) {
            component_of[n->components[g].findings[i]] = g;
            slot_of[n->components[g].findings[i]] = i;
        }
    n->component_of = component_of;
    n->slot_of = slot_of;
}

static bool is_too_big(const net_input *in, const net_group *group)
{
    return group->symptom_count > NET_SYMPTOMS_MAX || net_group_cells(in, group) > NET_CELLS_MAX ||
           net_group_cells(in, group) * net_group_slices(in, group) > NET_CELLS_MAX;
}

/* False if some component is too big; the others are built all the same, for their lints. */
static bool build_components(arena *keep, arena *scratch, net *n, faults *list)
{
    const net_group *groups = net_groups(scratch, &n->in, &n->component_count);
    component *components = ARENA_ARRAY(keep, component, n->component_count);
    uint32_t *state = ARENA_ARRAY(scratch, uint32_t, n->in.finding_count);
    bool whole = true;
    for (uint32_t g = 0; g < n->component_count; g++) {
        arena_mark mark = arena_here(scratch);
        if (is_too_big(&n->in, &groups[g])) {
            lint_too_big(list, scratch, &n->in, &groups[g]);
            whole = false;
        } else if (groups[g].fact_count > 0) {
            component_build_sliced(keep, scratch, n, &groups[g], state, &components[g], list);
        } else {
            lint_component(list, scratch,
                           component_build(keep, scratch, n, &groups[g], state, &components[g]));
        }
        arena_back_to(scratch, mark);
    }
    n->components = components;
    return whole;
}

static uint64_t pair_steps_of(const net *n)
{
    uint64_t steps = 0;
    for (uint32_t i = 0; i < n->component_count; i++) {
        const uint64_t listed = n->components[i].listed_count;
        if (listed > 1) steps += listed * (listed - 1) / 2 * n->components[i].atom_count;
    }
    return steps;
}

const net *net_build(arena *keep, arena *scratch, const net_input *in, faults *list)
{
    assert(keep != scratch);
    assert(in->not_listed >= 0 && in->not_listed < 1);
    assert(in->two_faults >= 0 && in->two_faults < 1);
    assert(in->answers_count <= 1);
    check_findings(in);
    double sum = sum_of_weights(in);
    bool some_weight = sum > 0;
    if (!some_weight) lint_no_weight(list, in);
    net *n = ARENA_NEW(keep, net);
    n->in = *in;
    if (in->answers_count <= 0) n->in.answers_count = 1;
    n->in.symptoms = clip_symptoms(keep, in);
    n->in.sources = clip_sources(keep, in);
    n->share = shares_of(keep, in, some_weight ? sum : 1);
    arena_mark mark = arena_here(scratch);
    bool whole = build_components(keep, scratch, n, list);
    arena_back_to(scratch, mark);
    if (!whole || !some_weight) return NULL;
    index_findings(keep, n);
    n->pair_steps = pair_steps_of(n);
    lint_pairs(list, n);
    lint_confirming(list, scratch, n);
    return n;
}

/* ---- with other numbers ---- */

static const net_symptom *symptom_with(arena *keep, const net_symptom *s, const net_change *x)
{
    net_symptom *out = ARENA_NEW(keep, net_symptom);
    *out = *s;
    if (x->kind == NET_OTHERWISE) {
        out->otherwise = clip_chance(x->value);
        return out;
    }
    assert(x->kind == NET_LISTED && x->rate < s->listed_count);
    net_rate *listed = ARENA_ARRAY(keep, net_rate, s->listed_count);
    memcpy(listed, s->listed, s->listed_count * sizeof *listed);
    listed[x->rate].chance = clip_chance(x->value);
    out->listed = listed;
    return out;
}

static uint32_t component_of_symptom(const net *n, uint32_t symptom)
{
    for (uint32_t i = 0; i < n->component_count; i++)
        if (place_of_id(n->components[i].symptoms, n->components[i].symptom_count, symptom) <
            n->components[i].symptom_count)
            return i;
    return NO_COMPONENT;
}

/* Tables of components in which nothing has changed are the same, to the last bit. */
static void rebuild(arena *keep, arena *scratch, const net *n, uint32_t index, component *out)
{
    const component *old = &n->components[index];
    const net_group group = {old->findings,      old->symptoms, old->finding_count,
                             old->symptom_count, old->facts,    old->fact_count};
    arena_mark mark = arena_here(scratch);
    uint32_t *state = ARENA_ARRAY(scratch, uint32_t, n->in.finding_count);
    const double *odds = old->odds;
    *out = (component){0};
    if (group.fact_count == 0) {
        component_build(keep, scratch, n, &group, state, out);
    } else {
        component_build_sliced(keep, scratch, n, &group, state, out, NULL);
        *out = component_mixed(keep, out, odds);
    }
    arena_back_to(scratch, mark);
}

static void change_weights(arena *keep, net *n, const net_change *changes, uint32_t count)
{
    double *weights = ARENA_ARRAY(keep, double, n->in.cause_count);
    memcpy(weights, n->in.weights, n->in.cause_count * sizeof *weights);
    for (uint32_t i = 0; i < count; i++) {
        assert(changes[i].value > 0);
        if (changes[i].kind == NET_WEIGHT) weights[changes[i].at] = changes[i].value;
    }
    n->in.weights = weights;
    n->share = shares_of(keep, &n->in, sum_of_weights(&n->in));
}

const net *net_with(arena *keep, arena *scratch, const net *n, const net_change *changes,
                    uint32_t count)
{
    assert(keep != scratch);
    net *out = ARENA_NEW(keep, net);
    component *components = ARENA_ARRAY(keep, component, n->component_count);
    net_symptom *symptoms = ARENA_ARRAY(keep, net_symptom, n->in.symptom_count);
    *out = *n;
    memcpy(components, n->components, n->component_count * sizeof *components);
    memcpy(symptoms, n->in.symptoms, n->in.symptom_count * sizeof *symptoms);
    out->components = components;
    out->in.symptoms = symptoms;
    bool weights = false;
    for (uint32_t i = 0; i < count; i++) {
        if (changes[i].kind == NET_WEIGHT)
            weights = true;
        else
            symptoms[changes[i].at] = *symptom_with(keep, &symptoms[changes[i].at], &changes[i]);
    }
    if (weights) change_weights(keep, out, changes, count);
    for (uint32_t i = 0; i < n->component_count && weights; i++)
        if (components[i].slice_count == 0)
            components[i].other = component_other(keep, out, &components[i]);
        else
            rebuild(keep, scratch, out, i, &components[i]);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t g =
            changes[i].kind == NET_WEIGHT ? NO_COMPONENT : component_of_symptom(n, changes[i].at);
        if (g != NO_COMPONENT) rebuild(keep, scratch, out, g, &components[g]);
    }
    return out;
}
