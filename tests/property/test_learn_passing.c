/* Do 95 in 100 of the intervals of how often a sign shows while it is there hold the truth, and is
 * a sign that stays left in peace? Rows are drawn from the Dirichlet distribution around the
 * author's; two looks in half of the cases. TT_WORLDS raises the number of worlds. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "learn/passing.h"
#include "luck.h"
#include "net_kit.h"
#include "testing.h"

static const learn_weights plain = {{1, 1}, false};

/* SplitMix64, Steele, Lea, Flood 2014. */
static uint64_t drawn;

typedef struct setting {
    double right;
    uint32_t cases, worlds;
    bool stays;
} setting;

typedef struct score {
    uint32_t worlds, held, outside;
    double error;
} score;

static bool falls(double chance)
{
    return luck_share(&drawn) < chance;
}

static void live(net_kit *k, const net *n, learn_row *r, learn_passing *x, setting at, double p,
                 double q)
{
    for (uint32_t i = 0; i < at.cases; i++) {
        const bool there = falls(p);
        const uint32_t count = falls(0.5) ? 2 : 1;
        double weights[2][2] = {{0}};
        sighting items[2];
        for (uint32_t l = 0; l < count; l++) {
            const bool shown = there && falls(q), said = falls(at.right) ? shown : !shown;
            weights[l][said] = 1;
            items[l] = (sighting){.weights = weights[l]};
        }
        learn_row_add(k->keep, r, n, &n->components[0], weights[count - 1], LEARN_CURED);
        learn_passing_add(k->keep, x, n, &n->components[0], (looks){items, count}, LEARN_CURED);
    }
}

static void one_world(setting at, score *out)
{
    net_kit *k = net_kit_new();
    const double p = 0.5 + 0.45 * luck_share(&drawn),
                 q = at.stays ? 1 : 0.4 + 0.55 * luck_share(&drawn);
    net_kit_cause(k, "a", 1);
    net_kit_finding(k, "f", 2);
    k->findings[0].right = at.right;
    net_kit_symptom(k, "s", net_kit_is(k, 0, 1), 0.1);
    const net *n = net_kit_build(k);
    const double is = luck_gamma(&drawn, 20 * p * q), not = luck_gamma(&drawn, 20 * (1 - p * q));
    double written[2];
    bool inside[2];
    for (uint32_t v = 0; v < 2; v++) {
        written[n->components[0].cell_atom[v]] = (v == 1 ? is : not ) / (is + not );
        inside[n->components[0].cell_atom[v]] = v == 1;
    }
    learn_row *r = learn_row_new(k->keep, written, 2, LEARN_ROW_COUNTS);
    learn_passing x = {.row = r, .inside = inside, .written = 1};
    live(k, n, r, &x, at, p, q);
    learn_row_fit(k->scratch, r, &plain);
    const learn_count c = learn_row_count(k->scratch, r, &plain, inside);
    learn_passing_fit(&x, &plain, sqrt(c.mean * (1 - c.mean) / c.worth));
    out->worlds++;
    out->held += q >= x.low && q <= x.high;
    out->outside += x.high < 1;
    out->error += fabs(x.mean - q);
    net_kit_free(k);
}

static score study(setting at)
{
    score out = {0};
    drawn = 77 + at.cases;
    for (uint32_t w = 0; w < at.worlds; w++) one_world(at, &out);
    printf("read right %.2f, %4u cases, %s: held %.3f, outside %.3f of %u, error %.4f\n", at.right,
           at.cases, at.stays ? "stays" : "comes and goes", (double)out.held / out.worlds,
           (double)out.outside / out.worlds, out.worlds, out.error / out.worlds);
    return out;
}

/* Four standard errors of 300 worlds are 0.05. */
static void intervals_hold(void **state)
{
    (void)state;
    const score out = study((setting){0.95, 300, 300, false});
    assert_true(out.held > 0.9 * out.worlds && out.held < 0.995 * out.worlds);
}

static void signs_that_stay_are_left_in_peace(void **state)
{
    (void)state;
    const score out = study((setting){0.95, 300, 300, true});
    assert_true(out.outside <= 0.07 * out.worlds);
}

static void the_long_study(void **state)
{
    (void)state;
    const char *wanted = getenv("TT_WORLDS");
    static const double rights[] = {0.9, 0.95, 1};
    static const uint32_t cases[] = {100, 300, 1000};
    for (size_t c = 0; wanted != NULL && c < 3; c++)
        for (size_t r = 0; r < 3; r++)
            for (int stays = 0; stays < 2; stays++)
                study((setting){rights[r], cases[c], (uint32_t)strtoul(wanted, NULL, 10),
                                stays == 1});
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(intervals_hold),
        cmocka_unit_test(signs_that_stay_are_left_in_peace),
        cmocka_unit_test(the_long_study),
    };
    return cmocka_run_group_tests_name("learn passing", tests, NULL, NULL);
}
