/* The network of causes and evidence: numbers clipped, findings grouped, each group made a
 * component. */
#include "compile/net.h"

#include <assert.h>

#include "compile/net_parts.h"

static double clip(double chance)
{
    assert(chance >= 0 && chance <= 1);
    return chance < CHANCE_LEAST ? CHANCE_LEAST : chance > CHANCE_MOST ? CHANCE_MOST : chance;
}

static const net_rate *clip_rates(arena *keep, const net_symptom *s, uint32_t cause_count)
{
    net_rate *rates = ARENA_ARRAY(keep, net_rate, s->listed_count);
    for (uint32_t i = 0; i < s->listed_count; i++) {
        assert(s->listed[i].cause < cause_count);
        rates[i] = (net_rate){s->listed[i].cause, clip(s->listed[i].chance)};
    }
    return rates;
}

static const net_symptom *clip_symptoms(arena *keep, const net_input *in)
{
    net_symptom *symptoms = ARENA_ARRAY(keep, net_symptom, in->symptom_count);
    for (uint32_t s = 0; s < in->symptom_count; s++) {
        symptoms[s] = in->symptoms[s];
        symptoms[s].otherwise = clip(in->symptoms[s].otherwise);
        symptoms[s].listed = clip_rates(keep, &in->symptoms[s], in->cause_count);
    }
    return symptoms;
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

static const double *shares(arena *keep, const net_input *in, double sum)
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
    return group->symptom_count > NET_SYMPTOMS_MAX || net_group_cells(in, group) > NET_CELLS_MAX;
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
        } else {
            lint_component(list, scratch,
                           component_build(keep, scratch, n, &groups[g], state, &components[g]));
        }
        arena_back_to(scratch, mark);
    }
    n->components = components;
    return whole;
}

const net *net_build(arena *keep, arena *scratch, const net_input *in, faults *list)
{
    assert(keep != scratch);
    assert(in->not_listed >= 0 && in->not_listed < 1);
    assert(in->two_faults >= 0 && in->two_faults < 1);
    check_findings(in);
    double sum = sum_of_weights(in);
    bool some_weight = sum > 0;
    if (!some_weight) lint_no_weight(list, in);
    net *n = ARENA_NEW(keep, net);
    n->in = *in;
    n->in.symptoms = clip_symptoms(keep, in);
    n->share = shares(keep, in, some_weight ? sum : 1);
    arena_mark mark = arena_here(scratch);
    bool whole = build_components(keep, scratch, n, list);
    arena_back_to(scratch, mark);
    if (!whole || !some_weight) return NULL;
    index_findings(keep, n);
    return n;
}
