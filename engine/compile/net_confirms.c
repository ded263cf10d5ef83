/* Whether an answer that confirms a cause lifts it as far as an author takes for granted. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "compile/misread.h"
#include "compile/net_parts.h"

#define A_RARE_CAUSE    0.01
#define LIFTED_ENOUGH   0.8
#define NOT_LISTED_MOST 0.05 /* more of it is doubted by itself */

/* One confirming answer: its chance in each atom. */
typedef struct confirming {
    const net *n;
    const component *g;
    uint32_t cause, finding, answer;
    const double *told; /* [atom] by whoever looks right or not */
    const double *so;   /* [atom] that it is so, and told */
} confirming;

static uint32_t state_of(const net_symptom *s)
{
    assert(s->confirms && s->when->kind == EXPR_IS && s->when->mask != 0);
    uint32_t state = 0;
    while ((s->when->mask >> state & 1) == 0) state++;
    return state;
}

static uint32_t states_at(const component *g, uint32_t slot)
{
    return (slot == 0 ? g->cell_count : g->stride[slot - 1]) / g->stride[slot];
}

static void weigh(arena *scratch, confirming *x)
{
    const misreading m = misreading_of(&x->n->in.findings[x->finding]);
    const uint32_t slot = place_of_id(x->g->findings, x->g->finding_count, x->finding);
    double *told = ARENA_ARRAY(scratch, double, x->g->atom_count),
           *right = ARENA_ARRAY(scratch, double, x->g->atom_count);
    assert(slot < x->g->finding_count);
    for (uint32_t cell = 0; cell < x->g->cell_count; cell++) {
        const uint32_t v = cell / x->g->stride[slot] % states_at(x->g, slot);
        const double chance = x->g->within[cell] * misread_chance(&m, x->answer, v);
        told[x->g->cell_atom[cell]] += chance;
        if (v == x->answer) right[x->g->cell_atom[cell]] += chance;
    }
    x->told = told;
    x->so = right;
}

static double with(const confirming *x, const double *row, const double *weight)
{
    double sum = 0;
    for (uint32_t a = 0; a < x->g->atom_count; a++) sum += row[a] * weight[a];
    return sum;
}

/* Mean over the other causes, by how often they come; `most` gets the one that adds most. */
static double with_others(const confirming *x, const double *weight, uint32_t *most)
{
    double sum = 0, share = 0, top = -1;
    for (uint32_t c = 0; c < x->n->in.cause_count; c++) {
        if (c == x->cause) continue;
        const double own = x->n->share[c] * with(x, component_row(x->g, c), weight);
        sum += own;
        share += x->n->share[c];
        if (own > top) *most = c;
        if (own > top) top = own;
    }
    return share > 0 ? sum / share : 0;
}

/* The chance of the cause after this answer alone, were it one of 100. */
static double lifted_to(const confirming *x)
{
    uint32_t most = 0;
    const double u = fmin(x->n->in.not_listed, NOT_LISTED_MOST),
                 here = with(x, component_row(x->g, x->cause), x->told),
                 others = with_others(x, x->told, &most),
                 mean = A_RARE_CAUSE * here + (1 - A_RARE_CAUSE) * others,
                 not_listed = 0.5 * (with(x, x->g->base, x->told) + mean);
    return (1 - u) * A_RARE_CAUSE * here / ((1 - u) * mean + u * not_listed);
}

static void tell(faults *list, const confirming *x, const net_symptom *s, double lifted)
{
    uint32_t most = x->cause;
    const double here = with(x, component_row(x->g, x->cause), x->told);
    const double all = with_others(x, x->told, &most), so = with_others(x, x->so, &most);
    const str cause = x->n->in.cause_names[x->cause], other = x->n->in.cause_names[most];
    const net_finding *f = &x->n->in.findings[x->finding];
    fault *told = fault_add(list, FAULT_NET_CONFIRMS_LITTLE, s->at,
                            "This answer confirms '%.*s', but of 100 calls with it only %.0f would "
                            "have that cause, were it as rare as 1 in 100.",
                            STR_ARG(cause), 100 * lifted);
    if (all - so >= so && f->toward > 0.002)
        fault_help(
            list, told,
            "'wrongly-confirmed' says that %.3g %% tell it where it isn't so. Ask so that "
            "it is hardly ever told by mistake, or leave out 'confirms' and write a symptom.",
            100 * f->toward);
    else if (all - so >= so && here < 0.9 * f->right)
        fault_help(list, told,
                   "With '%.*s' only %.0f of 100 give it, as other symptoms over this question "
                   "have it. See what they say of this cause.",
                   STR_ARG(cause), 100 * here);
    else if (all - so >= so)
        fault_help(list, told,
                   "It is told right too rarely ('read-right' is %.3g %%). Ask for something that "
                   "is easier to see, or leave out 'confirms' and write a symptom.",
                   100 * f->right);
    else
        fault_help(list, told,
                   "'%.*s' gives this answer as well, as another symptom says. Ask for what only "
                   "'%.*s' shows, or leave out 'confirms' and write a symptom.",
                   STR_ARG(other), STR_ARG(cause));
}

void lint_confirming(faults *list, arena *scratch, const net *n)
{
    for (uint32_t i = 0; list != NULL && i < n->in.symptom_count; i++) {
        const net_symptom *s = &n->in.symptoms[i];
        if (!s->confirms || s->listed_count != 1) continue;
        const arena_mark mark = arena_here(scratch);
        const uint32_t finding = s->when->subject;
        confirming x = {.n = n,
                        .g = &n->components[n->component_of[finding]],
                        .cause = s->listed[0].cause,
                        .finding = finding,
                        .answer = state_of(s)};
        weigh(scratch, &x);
        const double lifted = lifted_to(&x);
        if (lifted < LIFTED_ENOUGH && n->in.cause_count > 1) tell(list, &x, s, lifted);
        arena_back_to(scratch, mark);
    }
}
