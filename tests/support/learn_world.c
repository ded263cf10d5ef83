#include "learn_world.h"

#include "luck.h"

static const double surely = 1e12; /* as so many cases it is that */

static uint32_t listed_at(const learn_world *w, uint32_t finding, uint32_t i)
{
    return (finding * w->stride + i) % w->causes;
}

uint32_t learn_world_row(const learn_world *w, uint32_t finding, uint32_t cause)
{
    for (uint32_t i = 0; i < w->listed; i++)
        if (listed_at(w, finding, i) == cause) return i;
    return w->listed;
}

static void add_sign(learn_world *w, uint32_t f, uint32_t state)
{
    const uint32_t symptom =
        net_kit_symptom(w->k, "s", net_kit_is(w->k, f, state), state == 1 ? 0.1 : 0.05);
    for (uint32_t i = 0; i < w->listed; i++)
        net_kit_list(w->k, symptom, listed_at(w, f, i), w->chances[i] / state);
}

void learn_world_begin(learn_world *w, double right)
{
    w->k = net_kit_new();
    for (uint32_t c = 0; c < w->causes; c++) net_kit_cause(w->k, "c", 1 + c % 4);
    for (uint32_t f = 0; f < WORLD_FINDINGS; f++) {
        const uint32_t states = f % 3 == 2 ? 3 : 2;
        net_kit_finding(w->k, "f", states);
        w->k->findings[f].right = right;
        for (uint32_t v = 1; v < states; v++) add_sign(w, f, v);
    }
}

void learn_world_build(learn_world *w)
{
    w->n = net_kit_build(w->k);
}

void learn_world_near(uint64_t *drawn, const double *mean, uint32_t count, double strength,
                      double *out)
{
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += out[i] = luck_gamma(drawn, strength * mean[i]);
    for (uint32_t i = 0; i < count; i++) out[i] /= sum;
}

void learn_world_draw(learn_world *w, uint64_t *drawn, bool own)
{
    for (uint32_t f = 0; f < WORLD_FINDINGS; f++) {
        const component *g = &w->n->components[w->n->component_of[f]];
        for (uint32_t i = 0; i <= w->listed; i++) {
            const double strength = i < w->listed ? LEARN_ROW_COUNTS : LEARN_BASE_COUNTS,
                         *row = i < w->listed ? component_row(g, listed_at(w, f, i)) : g->base;
            w->rows[f][i] = learn_row_new(w->k->keep, row, g->atom_count, strength);
            learn_world_near(drawn, row, g->atom_count, own ? surely : strength, w->truth[f][i]);
        }
    }
}

uint32_t learn_world_state(const learn_world *w, uint64_t *drawn, uint32_t finding, uint32_t cause)
{
    const component *g = &w->n->components[w->n->component_of[finding]];
    const uint32_t atom =
        luck_pick(drawn, w->truth[finding][learn_world_row(w, finding, cause)], g->atom_count);
    uint32_t state = 0;
    while (g->cell_atom[state] != atom) state++; /* each answer is an atom of its own */
    return state;
}
