/* The likelihood ratio of a call between two worlds that differ in one number: Kahn, H. and
 * Marshall, A. W. (1953). Methods of reducing sample size in Monte Carlo computations. Journal of
 * the Operations Research Society of America 1 (importance sampling). */
#include "rehearse/sensitivity.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define CHANCE_MOST 0.999

/* ---- numbers, turned ---- */

static double turned_value(const program *p, const written_number *n, int direction)
{
    const double value =
        number_value(p, n) * (direction == ABOVE ? 1 + NUMBER_OFF : 1 - NUMBER_OFF);
    return n->kind == NUMBER_HOW_OFTEN ? value : fmin(value, CHANCE_MOST);
}

/* How often a cause comes changes what is something not listed everywhere; its tables are shared
 * but for that. */
static bool table_differs(const component *a, const component *b)
{
    return a->table != b->table || a->base != b->base || a->other != b->other;
}

static turned_number turn(arena *keep, arena *scratch, const program *p, const written_number *n,
                          int direction)
{
    const program *with = program_with(keep, scratch, p, n, turned_value(p, n, direction));
    const uint32_t count = p->evidence->component_count;
    turned_number out = {.n = with->evidence, .cures = with->cures};
    uint32_t *components = ARENA_ARRAY(keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++)
        if (table_differs(&p->evidence->components[i], &with->evidence->components[i]))
            components[out.component_count++] = i;
    out.components = components;
    return out;
}

sensitivity *sensitivity_new(arena *keep, arena *scratch, const program *p)
{
    sensitivity *s = ARENA_NEW(keep, sensitivity);
    s->prog = p;
    s->numbers = program_numbers(keep, scratch, p, &s->count);
    turned_number *turned = ARENA_ARRAY(keep, turned_number, (size_t)s->count * DIRECTIONS);
    for (uint32_t i = 0; i < s->count; i++)
        for (int d = 0; d < DIRECTIONS; d++)
            turned[i * DIRECTIONS + (uint32_t)d] = turn(keep, scratch, p, &s->numbers[i], d);
    s->turned = turned;
    return s;
}

/* ---- what is wrong ---- */

static double total_weight(const net *n, const double *factor)
{
    double sum = 0;
    for (uint32_t c = 0; c < n->in.cause_count; c++) sum += n->in.weights[c] * factor[c];
    return sum;
}

static double ratio_of_cause(const net *then, const made_call *call)
{
    const net *now = call->in->n;
    if (then->in.weights == now->in.weights || call->size == 0) return 1;
    const uint32_t c = call->causes[0];
    assert(call->size == 1 && now->in.weights[c] > 0);
    return then->in.weights[c] / now->in.weights[c] * total_weight(now, call->factor) /
           total_weight(then, call->factor);
}

/* ---- what it shows ---- */

static bool agrees_with_facts(const made_call *call, const net *n, const component *g,
                              uint32_t cell)
{
    for (uint32_t i = 0; i < g->finding_count; i++) {
        const uint32_t f = g->findings[i];
        if (call->fixed[f] && cell / g->stride[i] % n->in.findings[f].states != call->state[f])
            return false;
    }
    return true;
}

/* Of what is true in this component, given the facts in it. */
static double chance_of_signs(const made_call *call, const net *n, uint32_t index)
{
    const component *g = &n->components[index];
    const double *row = call->size == 0 ? g->other : component_row(g, call->causes[0]);
    double sum = 0;
    uint32_t is = 0;
    for (uint32_t i = 0; i < g->finding_count; i++)
        is += g->stride[i] * call->state[g->findings[i]];
    assert(is < g->cell_count);
    for (uint32_t x = 0; x < g->cell_count; x++)
        if (agrees_with_facts(call, n, g, x)) sum += row[g->cell_atom[x]] * g->within[x];
    return row[g->cell_atom[is]] * g->within[is] / sum;
}

static double ratio_of_signs(const turned_number *t, const made_call *call)
{
    double ratio = 1;
    for (uint32_t i = 0; i < t->component_count; i++) {
        const uint32_t g = t->components[i];
        if (call->size == 1 && component_row(&t->n->components[g], call->causes[0]) ==
                                   component_row(&call->in->n->components[g], call->causes[0]))
            continue;
        const double now = chance_of_signs(call, call->in->n, g);
        if (now > 0) ratio *= chance_of_signs(call, t->n, g) / now;
    }
    return ratio;
}

/* ---- whether its fixes help ---- */

static double cure_chance(const made_call *call, const net_rate *cures, uint32_t fix)
{
    const uint32_t count = call->from->prog->book->fixes[fix].cures_count;
    for (uint32_t i = 0; i < count; i++)
        if (cures[i].cause == call->causes[0]) return cures[i].chance;
    return 0;
}

static uint32_t last_fix(const played *how)
{
    uint32_t last = how->path_count;
    while (last > 0 && !how->path[last - 1].fix) last--;
    return last;
}

/* Chance that one of the fixes path[first] … path[end - 1], done under one lockout, cures it. */
static double chance_of_any(const made_call *call, const net_rate *const *cures, const played *how,
                            uint32_t first, uint32_t end)
{
    double left = 1;
    assert(first < end && end <= how->path_count);
    for (uint32_t i = first; i < end; i++)
        left *= 1 - cure_chance(call, cures[how->path[i].subject], how->path[i].subject);
    return 1 - left;
}

/* Of one cause all fixes but the last failed, and the last one cured it if the call ended cured;
 * two under one lockout are one. */
static double ratio_of_fixes(const turned_number *t, const made_call *call, const played *how)
{
    const uint32_t last = last_fix(how);
    double ratio = 1;
    for (uint32_t i = 0, end; i < how->path_count && call->size == 1; i = end) {
        for (end = i + 1; end < how->path_count && how->path[end].joined; end++) {
        }
        if (!how->path[i].fix) continue;
        const double now = chance_of_any(call, call->in->cures, how, i, end),
                     then = chance_of_any(call, t->cures, how, i, end);
        const bool cured = how->end == END_CURED && end == last;
        if (now > 0) ratio *= cured ? then / now : (1 - then) / (1 - now);
    }
    return ratio;
}

double sensitivity_ratio(const sensitivity *s, uint32_t i, int direction, const made_call *drawn,
                         const played *how)
{
    const turned_number *t = &s->turned[i * DIRECTIONS + (uint32_t)direction];
    assert(i < s->count);
    if (drawn->size > 1) return 1;
    return ratio_of_cause(t->n, drawn) * ratio_of_signs(t, drawn) * ratio_of_fixes(t, drawn, how);
}
