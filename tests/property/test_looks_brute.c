/* Looks through instruments against counting every state of every instrument, every misreading and
 * every wrong answer, for all components together: no grouping, nothing summed in advance. */
#include <math.h>
#include <stdlib.h>

#include "base/arena.h"
#include "belief_twin.h"
#include "believe/clash.h"
#include "believe/joined.h"
#include "believe/looks.h"
#include "choice_twin.h"
#include "compile/misread.h"
#include "luck.h"
#include "testing.h"

enum { INSTANCES = 3, PROBLEMS = 60 }; /* usual, another, and person 1's */

typedef struct world {
    arena *keep;
    net_input in;
    const net *n;
    belief *b;
    const double **weights;
    looks *all;
    evidence seen;
} world;

static uint32_t instance_of(const world *w, uint32_t source, const sighting *l)
{
    return l->another ? 1 : w->in.sources[source].own && l->person == 1 ? 2 : 0;
}

/* ---- one finding ---- */

typedef struct parts {
    double lasting[SOURCES_MAX], person, fresh;
} parts;

/* As the mathematics has it: survivals multiply. */
static parts parts_of(const world *w, const net_finding *f, double slip)
{
    parts p = {.person = 0};
    const double all = -log(1 - fmin(slip, 1 - 1e-6));
    double shared = 0, scale = 1;
    for (uint32_t i = 0; i < f->source_count; i++)
        shared -= log(1 - w->in.sources[f->sources[i]].wrong);
    if (f->source_count == 0) shared = all / 2;
    if (shared > 0.95 * all) scale = 0.95 * all / shared;
    for (uint32_t i = 0; i < f->source_count; i++) {
        const double wrong = w->in.sources[f->sources[i]].wrong;
        p.lasting[i] = wrong > 0 ? (1 - pow(1 - wrong, scale)) / wrong : 0;
    }
    if (f->source_count == 0) p.person = 1 - exp(-shared);
    p.fresh = 1 - exp(-(all - scale * shared));
    return p;
}

/* Of one thing that may mislead: which looks it touches, and how often it does. */
typedef struct mishap {
    uint32_t touches;
    double chance;
} mishap;

static uint32_t list_mishaps(const world *w, const net_finding *f, looks all, const bool *wrong,
                             const parts *p, mishap *out)
{
    uint32_t count = 0;
    for (uint32_t l = 0; l < all.count; l++) out[count++] = (mishap){1U << l, p->fresh};
    for (uint32_t i = 0; i < f->source_count; i++)
        for (uint32_t k = 0; k < INSTANCES; k++) {
            mishap m = {0, wrong[f->sources[i] * INSTANCES + k] ? p->lasting[i] : 0};
            for (uint32_t l = 0; l < all.count; l++)
                if (instance_of(w, f->sources[i], &all.items[l]) == k) m.touches |= 1U << l;
            if (m.touches != 0) out[count++] = m;
        }
    for (uint32_t k = 0; k < INSTANCES && f->source_count == 0; k++) {
        mishap m = {0, p->person};
        for (uint32_t l = 0; l < all.count; l++) {
            const sighting *x = &all.items[l];
            if ((x->another ? 1U : x->person == 1 ? 2U : 0U) == k) m.touches |= 1U << l;
        }
        if (m.touches != 0) out[count++] = m;
    }
    return count;
}

/* The same wrong answer at all looks that go wrong for reasons that touch each other. */
static double said_if(looks all, const misreading *r, uint32_t state, const mishap *m,
                      uint32_t count, uint32_t happened)
{
    uint32_t left = 0;
    double chance = 1;
    for (uint32_t i = 0; i < count; i++)
        if ((happened >> i & 1) != 0) left |= m[i].touches;
    for (uint32_t l = 0; l < all.count; l++)
        if ((left >> l & 1) == 0) chance *= all.items[l].weights[state];
    while (left != 0) {
        uint32_t set = left & (~left + 1), before = 0;
        while (set != before) {
            before = set;
            for (uint32_t i = 0; i < count; i++)
                if ((happened >> i & 1) != 0 && (m[i].touches & set) != 0) set |= m[i].touches;
        }
        double sum = 0, slips = 0;
        for (uint32_t a = 0; a < r->states; a++) {
            double said = a == state ? 0 : misread_chance(r, a, state);
            slips += said;
            for (uint32_t l = 0; l < all.count; l++)
                if ((set >> l & 1) != 0) said *= all.items[l].weights[a];
            sum += said;
        }
        chance *= sum / slips;
        left &= ~set;
    }
    return chance;
}

static double lambda_at(const world *w, uint32_t finding, uint32_t state, const bool *wrong)
{
    const net_finding *f = &w->in.findings[finding];
    const looks all = w->all[finding];
    const misreading r = misreading_of(f);
    const double slip = 1 - misread_chance(&r, state, state);
    mishap m[32];
    if (!(slip > 0)) return said_if(all, &r, state, m, 0, 0);
    const parts p = parts_of(w, f, slip);
    const uint32_t count = list_mishaps(w, f, all, wrong, &p, m);
    uint32_t right = 0; /* looks that count only as far as nothing misled them */
    for (uint32_t l = 0; l < all.count; l++) right |= (uint32_t)all.items[l].right << l;
    double sum = 0;
    for (uint32_t happened = 0; happened < 1U << count; happened++) {
        double chance = 1;
        for (uint32_t i = 0; i < count; i++)
            chance *= (happened >> i & 1) != 0 ? m[i].chance : 1 - m[i].chance;
        for (uint32_t i = 0; i < count; i++)
            if ((happened >> i & 1) != 0 && (m[i].touches & right) != 0) chance = 0;
        if (chance > 0) sum += chance * said_if(all, &r, state, m, count, happened);
    }
    return sum;
}

/* ---- all of them ---- */

static double component_says(const world *w, uint32_t index, uint32_t hypothesis, const bool *wrong)
{
    const component *g = &w->n->components[index];
    double *row = ARENA_ARRAY(w->keep, double, g->atom_count), sum = 0;
    belief_row(w->b, index, hypothesis, row);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        double chance = g->within[x] * row[g->cell_atom[x]];
        for (uint32_t i = 0; i < g->finding_count; i++) {
            const uint32_t f = g->findings[i], states = w->in.findings[f].states;
            if (w->weights[f] != NULL) chance *= lambda_at(w, f, x / g->stride[i] % states, wrong);
        }
        sum += chance;
    }
    return sum;
}

static double all_says(const world *w, uint32_t hypothesis)
{
    const uint32_t latents = w->in.source_count * INSTANCES;
    double sum = 0;
    bool wrong[3 * INSTANCES];
    for (uint32_t s = 0; s < 1U << latents; s++) {
        double chance = 1;
        for (uint32_t i = 0; i < latents; i++) {
            const double its = w->in.sources[i / INSTANCES].wrong;
            wrong[i] = s >> i & 1;
            chance *= wrong[i] ? its : 1 - its;
        }
        for (uint32_t g = 0; g < w->n->component_count && chance > 0; g++)
            chance *= component_says(w, g, hypothesis, wrong);
        sum += chance;
    }
    return sum;
}

/* ---- random worlds ---- */

static void draw_looks(world *w, uint64_t *random)
{
    w->weights = ARENA_ARRAY(w->keep, const double *, w->in.finding_count);
    w->all = ARENA_ARRAY(w->keep, looks, w->in.finding_count);
    for (uint32_t f = 0; f < w->in.finding_count; f++) {
        if (w->in.findings[f].states < 2 || luck_below(random, 4) == 0) continue;
        const uint32_t count = 1 + luck_below(random, LOOKS_MAX - 1);
        sighting *items = ARENA_ARRAY(w->keep, sighting, count);
        for (uint32_t l = 0; l < count; l++)
            items[l] = (sighting){twin_draw_answer(w->keep, random, w->in.findings[f].states),
                                  luck_below(random, 2), luck_below(random, 3) == 0,
                                  luck_below(random, 8) == 0};
        w->weights[f] = items[count - 1].weights;
        w->all[f] = (looks){items, count};
    }
    w->seen = (evidence){.weights = w->weights, .looks = w->all, .person = 1};
}

static world *draw(arena *keep, uint64_t *random)
{
    world *w = ARENA_NEW(keep, world);
    w->keep = keep;
    for (const net *n = NULL; n == NULL; w->n = n) {
        arena *scratch = arena_new(NULL, NULL);
        w->in = twin_draw_input(keep, random);
        twin_draw_sources(keep, random, &w->in);
        n = net_build(keep, scratch, &w->in, NULL);
        arena_free(scratch);
    }
    w->in = w->n->in;
    w->b = belief_new(keep, w->n, 2);
    draw_looks(w, random);
    return w;
}

/* ---- the same ---- */

static void posterior_is_that_of_all_states(void **state)
{
    (void)state;
    uint64_t random = 71;
    for (uint32_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_new(NULL, NULL);
        const world *w = draw(keep, &random);
        belief_weigh(w->b, &w->seen, NULL);
        for (uint32_t h = 0; h < belief_count(w->b); h++) {
            const double is = belief_log_says(w->b, h), wanted = log(fmax(all_says(w, h), 1e-300));
            if (belief_posterior(w->b)[h] > 0 && wanted > -600 && !(fabs(is - wanted) < 1e-10))
                fail_msg("problem %u, hypothesis %u: %.17g, not %.17g", i, h, is, wanted);
        }
        arena_free(keep);
    }
}

/* What is expected of one more look is what each answer to it would say. */
static void expect_next(world *w, uint32_t finding, bool again, bool another)
{
    const tryout all = tryout_of(w->keep, w->n, &w->seen);
    const prediction p = again ? belief_predict_again(w->keep, w->b, &all, finding, another)
                               : belief_predict(w->keep, w->b, &w->seen, finding);
    for (uint32_t f = 0; f < w->in.finding_count; f++) { /* what was tried is gone from it */
        assert_ptr_equal(all.weights[f], w->weights[f]);
        assert_memory_equal(&all.looks[f], &w->all[f], sizeof all.looks[f]);
    }
    const looks had = w->all[finding];
    const double *weights = w->weights[finding];
    sighting items[4] = {{0}};
    double *one = ARENA_ARRAY(w->keep, double, p.states);
    for (uint32_t i = 0; again && i < had.count; i++) items[i] = had.items[i];
    const uint32_t count = again ? had.count + 1 : 1;
    items[count - 1] = (sighting){.weights = one, .person = 1, .another = another};
    w->all[finding] = (looks){items, count};
    w->weights[finding] = one;
    for (uint32_t h = 0; h <= w->in.cause_count; h++) {
        double chance[EXPR_STATES_MAX], sum = 0;
        const double *row = h == 0 ? p.other : p.base;
        for (uint32_t i = 0; h > 0 && i < p.listed_count; i++)
            if (p.listed[i] == h - 1) row = p.rows + (size_t)i * p.states;
        for (uint32_t y = 0; y < p.states; y++) {
            for (uint32_t a = 0; a < p.states; a++) one[a] = a == y;
            sum += chance[y] = all_says(w, h);
        }
        for (uint32_t y = 0; y < p.states && sum > 1e-200; y++)
            if (!(fabs(row[y] - chance[y] / sum) < 1e-9))
                fail_msg("finding %u, hypothesis %u, answer %u: %.17g, not %.17g", finding, h, y,
                         row[y], chance[y] / sum);
    }
    w->all[finding] = had;
    w->weights[finding] = weights;
}

/* What one look tells on the mean is what each answer to it would leave, two faults among them. */
static void expect_gain(world *w, uint32_t finding)
{
    const uint32_t states = w->in.findings[finding].states, count = belief_count(w->b);
    const double *chance = belief_posterior(w->b);
    double answer[EXPR_STATES_MAX], wanted[EXPR_STATES_MAX] = {0}, bits = 0;
    double *rows = ARENA_ARRAY(w->keep, double, (size_t)count *EXPR_STATES_MAX);
    double *one = ARENA_ARRAY(w->keep, double, states);
    sighting item = {.weights = one, .person = 1};
    bool said = false;
    const double gain = belief_gain(w->b, w->keep, &w->seen, finding, answer);
    w->all[finding] = (looks){&item, 1};
    w->weights[finding] = one;
    for (uint32_t h = 0; h < count; h++) {
        double *row = rows + (size_t)h * EXPR_STATES_MAX, sum = 0;
        for (uint32_t y = 0; y < states; y++) {
            for (uint32_t a = 0; a < states; a++) one[a] = a == y;
            sum += row[y] = all_says(w, h);
        }
        said = said || sum > 1e-200;
        for (uint32_t y = 0; y < states && sum > 1e-200; y++)
            wanted[y] += chance[h] * (row[y] /= sum);
    }
    w->all[finding] = (looks){NULL, 0};
    w->weights[finding] = NULL;
    if (!said) return; /* nobody can have said all of it */
    for (uint32_t h = 0; h < count; h++)
        for (uint32_t y = 0; y < states; y++) {
            const double its = rows[(size_t)h * EXPR_STATES_MAX + y];
            if (its > 0 && chance[h] > 0) bits += chance[h] * its * log2(its / wanted[y]);
        }
    for (uint32_t y = 0; y < states; y++) assert_true(fabs(answer[y] - wanted[y]) < 1e-9);
    if (!(fabs(gain - bits) < 1e-9)) fail_msg("finding %u: %.17g, not %.17g", finding, gain, bits);
}

static void same_ids(const uint32_t *one, uint32_t count, const uint32_t *other, uint32_t others)
{
    assert_int_equal(count, others);
    for (uint32_t i = 0; i < count; i++) assert_int_equal(one[i], other[i]);
}

/* One group alone is what it is among all; and all of them take as much memory as they hold, not as
 * much for each as there could be. */
static void one_group_is_as_among_all(void **state)
{
    (void)state;
    uint64_t random = 74;
    uint32_t joined_ones = 0;
    for (uint32_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_new(NULL, NULL);
        const world *w = draw(keep, &random);
        const joining all = joining_of(keep, w->n, &w->seen);
        for (uint32_t g = 0; g < w->n->component_count; g++) {
            const joined among = joined_with(&all, g),
                         alone = joining_with(keep, w->n, &w->seen, g);
            same_ids(alone.components, alone.count, among.components, among.count);
            same_ids(alone.listed, alone.listed_count, among.listed, among.listed_count);
            assert_int_equal(alone.latent_count, among.latent_count);
            for (uint32_t k = 0; k < alone.latent_count; k++)
                assert_true(latents_equal(alone.latents[k], among.latents[k]));
            assert_true(alone.count == 0 || alone.components[0] <= g);
            joined_ones += alone.count > 1;
        }
        arena_free(keep);
    }
    assert_true(joined_ones > PROBLEMS / 20);
}

static void next_look_is_foreseen(void **state)
{
    (void)state;
    uint64_t random = 72;
    for (uint32_t i = 0; i < PROBLEMS / 4; i++) {
        arena *keep = arena_new(NULL, NULL);
        world *w = draw(keep, &random);
        belief_weigh(w->b, &w->seen, NULL);
        for (uint32_t f = 0; f < w->in.finding_count; f++) {
            if (w->n->component_of[f] == NO_COMPONENT) continue;
            if (w->weights[f] == NULL) {
                expect_next(w, f, false, false);
                expect_gain(w, f);
            } else {
                expect_next(w, f, true, luck_below(&random, 2));
            }
        }
        arena_free(keep);
    }
}

/* Bars of single faults add up to the odds, however instruments join what they are over. */
static void bars_add_up(void **state)
{
    (void)state;
    uint64_t random = 73;
    for (uint32_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
        const world *w = draw(keep, &random);
        double *bars = ARENA_ARRAY(keep, double, w->n->component_count), prior;
        belief_weigh(w->b, &w->seen, NULL);
        for (uint32_t c = 1; c < w->in.cause_count; c++) {
            double sum = 0;
            belief_bars(w->b, scratch, &w->seen, 1, 1 + c, &prior, bars);
            for (uint32_t g = 0; g < w->n->component_count; g++) sum += bars[g];
            const double wanted =
                10 / log(10) * (belief_log_says(w->b, 1) - belief_log_says(w->b, 1 + c));
            if (!(fabs(sum - wanted) < 1e-9))
                fail_msg("problem %u: %.17g, not %.17g", i, sum, wanted);
            assert_true(fabs(belief_bar_of_answers(w->n, scratch, &w->seen, 1, 1 + c) - wanted) <
                        1e-9);
        }
        arena_free(keep);
        arena_free(scratch);
    }
}

/* Two answers that say something; false: there are none. */
static bool two_answered(const world *w, uint32_t two[2])
{
    uint32_t count = 0;
    for (uint32_t f = 0; f < w->in.finding_count && count < 2; f++) {
        sighting one;
        if (w->n->component_of[f] != NO_COMPONENT && looks_at(w->n, &w->seen, f, &one).count > 0)
            two[count++] = f;
    }
    return count == 2;
}

/* [0] and causes alone: prior times what all was said, summed. */
static double all_chance(const world *w, const belief *single)
{
    double sum = 0;
    for (uint32_t h = 0; h <= w->in.cause_count; h++)
        sum += belief_posterior(single)[h] * all_says(w, h);
    return sum;
}

static void read_amiss_as_often_as_all_states_say(void **state)
{
    (void)state;
    uint64_t random = 74;
    uint32_t compared = 0;
    for (uint32_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
        world *w = draw(keep, &random);
        belief *single = belief_new(keep, w->n, 1);
        const evidence none = {.weights = ARENA_ARRAY(keep, const double *, w->in.finding_count)};
        uint32_t two[2];
        belief_weigh(single, &none, NULL);
        const double all = all_chance(w, single);
        if (two_answered(w, two) && all > 1e-200) {
            belief_weigh(single, &w->seen, NULL);
            const double is = belief_amiss(single, scratch, &w->seen, two[0], two[1]);
            belief_weigh(single, &none, NULL);
            for (uint32_t k = 0; k < 2; k++) {
                const looks had = w->all[two[k]];
                ((sighting *)had.items)[had.count - 1].right = true;
            }
            const double wanted = 1 - all_chance(w, single) / all;
            if (!(fabs(is - wanted) < 1e-10))
                fail_msg("problem %u: %.17g, not %.17g", i, is, wanted);
            compared++;
        }
        arena_free(keep);
        arena_free(scratch);
    }
    if (compared <= PROBLEMS / 4) fail_msg("only %u compared", compared);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(posterior_is_that_of_all_states),
        cmocka_unit_test(next_look_is_foreseen),
        cmocka_unit_test(one_group_is_as_among_all),
        cmocka_unit_test(bars_add_up),
        cmocka_unit_test(read_amiss_as_often_as_all_states_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
