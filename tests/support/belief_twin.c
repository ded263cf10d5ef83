#include "belief_twin.h"

#include <assert.h>
#include <math.h>

#include "choice_twin.h"
#include "luck.h"

/* ---- random networks ---- */

static bool one_in(uint64_t *random, uint32_t n)
{
    return luck_below(random, n) == 0;
}

static void draw_findings(arena *keep, uint64_t *random, net_input *in)
{
    static const double right[] = {1, 0.98, 0.95, 0.7};
    net_finding *f = ARENA_ARRAY(keep, net_finding, in->finding_count);
    for (uint32_t i = 0; i < in->finding_count; i++) {
        uint32_t states = one_in(random, 12) ? 1 : 2 + luck_below(random, 2);
        f[i] = (net_finding){.name = str_printf(keep, "finding-%u", i),
                             .states = states,
                             .usual = one_in(random, 2) ? NO_STATE : luck_below(random, states),
                             .right = right[luck_below(random, 4)]};
        for (uint32_t v = 0; v < states && one_in(random, 3); v++)
            if (one_in(random, 2)) f[i].settling |= (state_mask)1 << v;
        f[i].toward = one_in(random, 4) ? 0.02 : 0.002;
    }
    in->findings = f;
}

static const expr *draw_leaf(arena *keep, uint64_t *random, const net_input *in)
{
    uint32_t finding = luck_below(random, in->finding_count);
    uint32_t states = in->findings[finding].states;
    state_mask mask = (state_mask)1 << luck_below(random, states);
    if (one_in(random, 5)) mask |= (state_mask)1 << luck_below(random, states);
    const expr *leaf = expr_is(keep, finding, mask, span_nowhere());
    return one_in(random, 6) ? expr_not(keep, leaf, span_nowhere()) : leaf;
}

static const expr *draw_condition(arena *keep, uint64_t *random, const net_input *in)
{
    const expr *parts[3];
    uint32_t count = one_in(random, 3) ? 2 + luck_below(random, 2) : 1;
    for (uint32_t i = 0; i < count; i++) parts[i] = draw_leaf(keep, random, in);
    if (count == 1) return parts[0];
    if (count == 3 && one_in(random, 3)) return expr_at_least(keep, 2, parts, 3, span_nowhere());
    return expr_many(keep, one_in(random, 2) ? EXPR_ALL : EXPR_ANY, parts, count, span_nowhere());
}

static double draw_chance(uint64_t *random)
{
    static const double words[] = {0.01, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 0.99, 0, 1};
    return words[luck_below(random, sizeof words / sizeof *words)];
}

static void draw_symptoms(arena *keep, uint64_t *random, net_input *in)
{
    net_symptom *s = ARENA_ARRAY(keep, net_symptom, in->symptom_count);
    for (uint32_t i = 0; i < in->symptom_count; i++) {
        net_rate *listed = ARENA_ARRAY(keep, net_rate, in->cause_count);
        s[i] = (net_symptom){.name = str_printf(keep, "symptom-%u", i),
                             .at = span_nowhere(),
                             .when = draw_condition(keep, random, in),
                             .otherwise = 0.3 * luck_share(random),
                             .listed = listed};
        for (uint32_t c = 0; c < in->cause_count; c++)
            if (one_in(random, 3)) listed[s[i].listed_count++] = (net_rate){c, draw_chance(random)};
    }
    in->symptoms = s;
}

static void draw_causes(arena *keep, uint64_t *random, net_input *in)
{
    str *names = ARENA_ARRAY(keep, str, in->cause_count);
    double *weights = ARENA_ARRAY(keep, double, in->cause_count);
    net_pair *never = ARENA_ARRAY(keep, net_pair, 1);
    for (uint32_t c = 0; c < in->cause_count; c++) {
        names[c] = str_printf(keep, "cause-%u", c);
        weights[c] = 0.3 + 9.7 * luck_share(random);
    }
    if (in->cause_count > 2 && one_in(random, 3)) {
        never[0].first = 1 + luck_below(random, in->cause_count - 1);
        never[0].second = luck_below(random, never[0].first);
        in->never_with_count = 1;
    }
    in->cause_names = names;
    in->weights = weights;
    in->never_with = never;
}

net_input twin_draw_input(arena *keep, uint64_t *random)
{
    net_input in = {.finding_count = 1 + luck_below(random, 6),
                    .symptom_count = 1 + luck_below(random, 9),
                    .cause_count = 1 + luck_below(random, 6),
                    .not_listed = one_in(random, 4) ? 0 : 0.1 * luck_share(random),
                    .two_faults = one_in(random, 4) ? 0.5 : 0.1 * luck_share(random)};
    draw_findings(keep, random, &in);
    draw_causes(keep, random, &in);
    draw_symptoms(keep, random, &in);
    return in;
}

void twin_draw_sources(arena *keep, uint64_t *random, net_input *in)
{
    static const double wrong[] = {0, 0.02, 0.1, 0.4};
    net_source *sources = ARENA_ARRAY(keep, net_source, 2);
    net_finding *f = ARENA_ARRAY(keep, net_finding, in->finding_count);
    for (uint32_t i = 0; i < 2; i++)
        sources[i] = (net_source){wrong[luck_below(random, 4)], luck_below(random, 2)};
    for (uint32_t i = 0; i < in->finding_count; i++) {
        uint32_t *its = ARENA_ARRAY(keep, uint32_t, 2);
        f[i] = in->findings[i];
        const uint32_t first = luck_below(random, 3);
        if (first < 2) its[f[i].source_count++] = first;
        if (first == 0 && luck_below(random, 3) == 0) its[f[i].source_count++] = 1;
        f[i].sources = its;
    }
    in->findings = f;
    in->sources = sources;
    in->source_count = 2;
}

const double *twin_draw_answer(arena *keep, uint64_t *random, uint32_t states)
{
    double *w = ARENA_ARRAY(keep, double, states);
    uint32_t kind = luck_below(random, 6), at = luck_below(random, states);
    for (uint32_t a = 0; a < states; a++) {
        if (kind < 3)
            w[a] = a == at ? 1 : 0;
        else if (kind == 3)
            w[a] = 1;
        else if (kind == 4)
            w[a] = a == at && states > 1 ? 0 : 1;
        else
            w[a] = 0.1 + luck_share(random);
    }
    return w;
}

evidence twin_draw_evidence(arena *keep, uint64_t *random, const net *n)
{
    const double **w = ARENA_ARRAY(keep, const double *, n->in.finding_count);
    for (uint32_t f = 0; f < n->in.finding_count; f++)
        if (one_in(random, 2)) w[f] = twin_draw_answer(keep, random, n->in.findings[f].states);
    return (evidence){.weights = w};
}

double *twin_draw_factors(arena *keep, uint64_t *random, uint32_t causes, bool with_zero)
{
    double *factor = ARENA_ARRAY(keep, double, causes);
    for (uint32_t c = 0; c < causes; c++) {
        factor[c] = exp2(4 * luck_share(random) - 2);
        if (with_zero && one_in(random, 8)) factor[c] = 0;
    }
    return factor;
}

/* ---- sets and prior ---- */

uint32_t twin_sets(const net *n, uint32_t most_faults, uint32_t *sets)
{
    uint32_t count = 0, causes = n->in.cause_count;
    sets[count++] = 0;
    for (uint32_t c = 0; c < causes; c++) sets[count++] = 1U << c;
    for (uint32_t c = 0; most_faults == 2 && c < causes; c++)
        for (uint32_t d = c + 1; d < causes; d++) sets[count++] = 1U << c | 1U << d;
    assert(count <= TWIN_SETS);
    return count;
}

static uint32_t size_of(uint32_t set)
{
    uint32_t size = 0;
    for (; set != 0; set &= set - 1) size++;
    return size;
}

static bool is_barred(const net *n, uint32_t set)
{
    for (uint32_t i = 0; i < n->in.never_with_count; i++)
        if (set == (1U << n->in.never_with[i].first | 1U << n->in.never_with[i].second))
            return true;
    return false;
}

/* Product of the weights, with factors, of the causes in a set. */
static long double product(const net *n, uint32_t set, const double *factor)
{
    long double p = 1;
    for (uint32_t c = 0; c < n->in.cause_count; c++)
        if ((set >> c & 1) != 0)
            p *= (long double)n->in.weights[c] * (factor == NULL ? 1 : (long double)factor[c]);
    return is_barred(n, set) ? 0 : p;
}

void twin_prior(const net *n, const uint32_t *sets, uint32_t count, const double *factor,
                long double *out)
{
    long double of_size[3] = {0}, u = n->in.not_listed, d = n->in.two_faults;
    for (uint32_t h = 0; h < count; h++) {
        out[h] = product(n, sets[h], factor);
        of_size[size_of(sets[h])] += out[h];
    }
    if (of_size[2] <= 0) d = 0;
    if (of_size[1] <= 0) u = 1;
    const long double share[3] = {u, (1 - u) * (1 - d), (1 - u) * d};
    for (uint32_t h = 0; h < count; h++)
        if (of_size[size_of(sets[h])] > 0)
            out[h] *= share[size_of(sets[h])] / of_size[size_of(sets[h])];
}

/* ---- likelihood ---- */

static long double hazard(const component *g, const double *row, uint32_t atom)
{
    long double s = fminl(1 - (long double)row[g->usual_atom], 1 - 1e-6L);
    return s == 0 ? row[atom] : row[atom] * (-log1pl(-s) / s);
}

/* Competing risks. */
static long double hazard_of_set(const net *n, const component *g, uint32_t set, uint32_t atom)
{
    long double leak = hazard(g, g->base, atom), sum = leak;
    for (uint32_t c = 0; c < n->in.cause_count; c++)
        if ((set >> c & 1) != 0) sum += hazard(g, component_row(g, c), atom) - leak;
    return fmaxl(0, sum);
}

/* A cause that is not listed brings nothing but the leak, which the others bring too: it drops out.
 */
static uint32_t listed_of(const net *n, const component *g, uint32_t set)
{
    uint32_t listed = 0;
    for (uint32_t c = 0; c < n->in.cause_count; c++)
        if ((set >> c & 1) != 0 && component_row(g, c) != g->base) listed |= 1U << c;
    return listed;
}

static const double *row_of(const net *n, const component *g, uint32_t set)
{
    if (set == 0) return g->other;
    for (uint32_t c = 0; c < n->in.cause_count; c++)
        if (listed_of(n, g, set) == 1U << c) return component_row(g, c);
    return g->base;
}

static long double chance_of_atom(const net *n, const component *g, uint32_t set, uint32_t atom)
{
    if (size_of(listed_of(n, g, set)) < 2) return row_of(n, g, set)[atom];
    long double total = 0;
    for (uint32_t a = 0; a < g->atom_count; a++)
        if (a != g->usual_atom) total += hazard_of_set(n, g, set, a);
    if (atom == g->usual_atom) return expl(-total);
    return total > 0 ? hazard_of_set(n, g, set, atom) * -expm1l(-total) / total : 0;
}

static bool settles(const net_finding *f, uint32_t state)
{
    return (f->settling >> state & 1) != 0;
}

/* R[answer | state], one row after the other: what confirms is told `toward` where it isn't so, the
 * others share what is left of the slips, and what is so gets what remains of all. */
static long double twin_misread(const net_finding *f, uint32_t answer, uint32_t state)
{
    long double toward = (1 - (long double)f->right) / (f->states > 1 ? f->states - 1 : 1);
    if (f->toward < toward) toward = f->toward;
    long double row[EXPR_STATES_MAX], left = 1 - (long double)f->right, sum = 0;
    uint32_t others = 0;
    for (uint32_t a = 0; a < f->states; a++) {
        if (a != state && settles(f, a)) left -= toward;
        if (a != state && !settles(f, a)) others++;
    }
    for (uint32_t a = 0; a < f->states; a++) {
        row[a] = a == state ? 0 : settles(f, a) ? toward : left / others;
        sum += row[a];
    }
    return answer == state ? 1 - sum : row[answer];
}

/* Chance of what was answered to finding f when its state is v. */
static long double chance_of_answer(const net_finding *f, const double *weights, uint32_t v)
{
    long double sum = 0;
    for (uint32_t a = 0; a < f->states; a++) sum += twin_misread(f, a, v) * weights[a];
    return sum;
}

static long double likelihood_in(const net *n, const component *g, uint32_t set,
                                 const evidence *seen)
{
    long double sum = 0, atom[NET_CELLS_MAX];
    for (uint32_t a = 0; a < g->atom_count; a++) atom[a] = chance_of_atom(n, g, set, a);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        long double p = atom[g->cell_atom[x]] * g->within[x];
        uint32_t rest = x;
        for (uint32_t i = g->finding_count; i-- > 0;) {
            const net_finding *f = &n->in.findings[g->findings[i]];
            if (seen->weights[g->findings[i]] != NULL)
                p *= chance_of_answer(f, seen->weights[g->findings[i]], rest % f->states);
            rest /= f->states;
        }
        sum += p;
    }
    return fmaxl(sum, 1e-300L);
}

long double twin_likelihood(const net *n, uint32_t set, const evidence *seen)
{
    long double product_of_all = 1;
    for (uint32_t i = 0; i < n->component_count; i++)
        product_of_all *= likelihood_in(n, &n->components[i], set, seen);
    return product_of_all;
}

evidence twin_with(arena *keep, const net *n, const evidence *seen, uint32_t finding,
                   const double *weights)
{
    const double **w = ARENA_ARRAY(keep, const double *, n->in.finding_count);
    for (uint32_t f = 0; f < n->in.finding_count; f++)
        w[f] = f == finding ? weights : seen->weights[f];
    return (evidence){.weights = w};
}

long double twin_normalise(long double *p, uint32_t count)
{
    long double sum = 0;
    for (uint32_t h = 0; h < count; h++) sum += p[h];
    for (uint32_t h = 0; h < count; h++) p[h] /= sum;
    return sum;
}

long double twin_entropy(const long double *p, uint32_t count)
{
    long double sum = 0;
    for (uint32_t h = 0; h < count; h++)
        if (p[h] > 0) sum -= p[h] * log2l(p[h]);
    return sum;
}

/* ---- outcomes ---- */

static bool touches(const double *cure, uint32_t set)
{
    for (uint32_t c = 0; c < 32; c++)
        if ((set >> c & 1) != 0 && cure[c] > 0) return true;
    return false;
}

/* Done wrongly (chance s) it removes nothing; done rightly it removes each by itself. `cure` is of
 * a try, (1 - s) times that. */
static long double chance_removed(const double *cure, long double s, uint32_t set, uint32_t removed)
{
    long double p = 1 - s;
    for (uint32_t c = 0; c < 32; c++) {
        const long double rightly = fminl(cure[c] / (1 - s), 1 - 1e-6L);
        if ((set >> c & 1) != 0) p *= (removed >> c & 1) != 0 ? rightly : 1 - rightly;
    }
    return removed == 0 ? p + s : p;
}

static long double chance_reported(const double *cure, uint32_t set, uint32_t removed,
                                   fix_outcome outcome, const outcome_rates *r)
{
    uint32_t left = set & ~removed;
    if (set != 0 && left == 0) return outcome == OUTCOME_GONE ? 1 : 0;
    if (outcome == OUTCOME_GONE) return 0;
    long double better = removed != 0         ? 1 - (long double)r->same_though_removed
                         : touches(cure, set) ? (long double)r->better_though_kept
                                              : (long double)r->better_untargeted;
    return outcome == OUTCOME_BETTER ? better : 1 - better;
}

static uint32_t place_of(const uint32_t *sets, uint32_t count, uint32_t set)
{
    for (uint32_t h = 0; h < count; h++)
        if (sets[h] == set) return h;
    assert(false && "every subset is a hypothesis");
    return 0;
}

/* What is left of a set that was removed whole goes to place 0, where GONE counts it and nothing
 * else may. */
void twin_outcome(const uint32_t *sets, uint32_t count, const long double *w, const double *cure,
                  fix_outcome outcome, const outcome_rates *rates, long double *out)
{
    for (uint32_t h = 0; h < count; h++) out[h] = 0;
    for (uint32_t h = 0; h < count; h++)
        for (uint32_t removed = 0; removed <= sets[h]; removed++) {
            if ((removed & ~sets[h]) != 0) continue;
            long double p = chance_removed(cure, rates->done_wrongly, sets[h], removed) *
                            chance_reported(cure, sets[h], removed, outcome, rates);
            out[place_of(sets, count, sets[h] & ~removed)] += w[h] * p;
        }
}
