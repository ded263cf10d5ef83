#include "net_kit.h"

#include <assert.h>
#include <stdlib.h>

net_kit *net_kit_new(void)
{
    net_kit *k = calloc(1, sizeof *k);
    assert(k != NULL);
    k->keep = arena_new(NULL, NULL);
    k->scratch = arena_new(NULL, NULL);
    k->list = faults_new(k->keep);
    k->in = (net_input){.at = span_nowhere(),
                        .findings = k->findings,
                        .symptoms = k->symptoms,
                        .cause_names = k->causes,
                        .weights = k->weights,
                        .not_listed = 0.03,
                        .two_faults = 0.05};
    return k;
}

void net_kit_free(net_kit *k)
{
    arena_free(k->keep);
    arena_free(k->scratch);
    free(k);
}

uint32_t net_kit_finding(net_kit *k, const char *name, uint32_t states)
{
    assert(k->in.finding_count < NET_KIT_ROOM);
    k->findings[k->in.finding_count] =
        (net_finding){.name = str_of(name), .states = states, .usual = NO_STATE, .right = 0.95};
    return k->in.finding_count++;
}

uint32_t net_kit_cause(net_kit *k, const char *name, double weight)
{
    assert(k->in.cause_count < NET_KIT_ROOM);
    k->causes[k->in.cause_count] = str_of(name);
    k->weights[k->in.cause_count] = weight;
    return k->in.cause_count++;
}

const expr *net_kit_is(net_kit *k, uint32_t finding, uint32_t state)
{
    return expr_is(k->keep, finding, (state_mask)1 << state, span_nowhere());
}

uint32_t net_kit_symptom(net_kit *k, const char *name, const expr *when, double otherwise)
{
    uint32_t i = k->in.symptom_count++;
    assert(i < NET_KIT_ROOM);
    k->symptoms[i] = (net_symptom){.name = str_of(name),
                                   .at = {0, 10 * i, 10 * i + 9},
                                   .when = when,
                                   .otherwise = otherwise,
                                   .listed = k->rates[i]};
    return i;
}

void net_kit_list(net_kit *k, uint32_t symptom, uint32_t cause, double chance)
{
    k->rates[symptom][k->symptoms[symptom].listed_count++] = (net_rate){cause, chance};
}

const net *net_kit_build(net_kit *k)
{
    return net_build(k->keep, k->scratch, &k->in, k->list);
}
