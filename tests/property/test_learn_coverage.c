/* Do 95 in 100 of `learn`'s intervals hold the truth, and are the author's numbers left in peace
 * where they are true? Worlds are drawn as the intervals take them to be: each row and the shares
 * from the Dirichlet distribution that the author's numbers count as; then cases from the world,
 * with slips, and with a season in which a rule makes some causes likelier.
 *
 * TT_WORLDS raises the number of worlds and goes through the whole grid of docs/mathematics.md. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "learn/row.h"
#include "learn/shares.h"
#include "learn_world.h"
#include "luck.h"
#include "testing.h"

enum { CAUSES = 8, LISTED = 4 };

static const learn_weights plain = {{1, 1}, false};
static const double chances[LISTED] = {0.7, 0.3, 0.15, 0.5};

/* SplitMix64, Steele, Lea, Flood 2014. */
static uint64_t drawn;

/* ---- a world ---- */

typedef struct study {
    learn_world w;
    double often[CAUSES], season[CAUSES];
    learn_shares *shares;
} study;

typedef struct score {
    uint32_t numbers, covered, outside;
    double error;
} score;

static void build(study *s, double right)
{
    s->w = (learn_world){.causes = CAUSES, .listed = LISTED, .stride = 3, .chances = chances};
    learn_world_begin(&s->w, right);
    learn_world_build(&s->w);
}

/* The author's own numbers, or a world near them. */
static void make_world(study *s, bool own)
{
    for (uint32_t c = 0; c < CAUSES; c++) s->season[c] = c % 4 == 0 ? 5 : c % 4 == 1 ? 0.5 : 1;
    s->shares = learn_shares_new(s->w.k->keep, s->w.k->weights, CAUSES);
    learn_world_near(&drawn, s->w.n->share, CAUSES, own ? 1e12 : LEARN_SHARES_COUNT, s->often);
    learn_world_draw(&s->w, &drawn, own);
}

static void see(study *s, uint32_t f, uint32_t cause, double right)
{
    double weights[WORLD_STATES] = {0};
    const component *g = &s->w.n->components[s->w.n->component_of[f]];
    const uint32_t row = learn_world_row(&s->w, f, cause), states = s->w.n->in.findings[f].states;
    uint32_t said = learn_world_state(&s->w, &drawn, f, cause);
    if (luck_share(&drawn) > right)
        said = (said + 1 + (uint32_t)(luck_share(&drawn) * (states - 1))) % states;
    weights[said] = 1;
    learn_row_add(s->w.k->keep, s->w.rows[f][row], s->w.n, g, weights, LEARN_CURED);
}

/* Six of ten cases are of the season; two of three questions are answered. */
static void live(study *s, uint32_t cases, double right)
{
    static const double none[CAUSES] = {1, 1, 1, 1, 1, 1, 1, 1};
    for (uint32_t i = 0; i < cases; i++) {
        const double *factor = luck_share(&drawn) < 0.6 ? s->season : none;
        double weight[CAUSES];
        for (uint32_t c = 0; c < CAUSES; c++) weight[c] = s->often[c] * factor[c];
        uint32_t cause = luck_pick(&drawn, weight, CAUSES);
        learn_shares_add(s->w.k->keep, s->shares, factor, cause, LEARN_CURED);
        for (uint32_t f = 0; f < WORLD_FINDINGS; f++)
            if (luck_share(&drawn) < 2.0 / 3) see(s, f, cause, right);
    }
}

static void judge(score *out, double written, double mean, double worth, double truth)
{
    learn_belief b = learn_belief_of(mean, worth);
    out->numbers++;
    out->covered += truth >= b.low && truth <= b.high;
    out->outside += written < b.low || written > b.high;
    out->error += fabs(mean - truth);
}

static void judge_row(study *s, learn_row *r, const double *truth, score *out)
{
    learn_row_fit(s->w.k->scratch, r, &plain);
    for (uint32_t a = 1; a < r->atoms; a++) {
        bool inside[WORLD_STATES] = {false};
        inside[a] = true;
        learn_count c = learn_row_count(s->w.k->scratch, r, &plain, inside);
        judge(out, c.written, c.mean, c.worth, truth[a]);
    }
}

static void judge_all(study *s, score *shares, score *chances)
{
    double sum = 0;
    learn_shares_fit(s->w.k->scratch, s->shares, &plain);
    for (uint32_t c = 0; c < CAUSES; c++) sum += s->shares->weight[c];
    for (uint32_t c = 0; c < CAUSES; c++)
        judge(shares, s->w.n->share[c], s->shares->weight[c] / sum, s->shares->worth[c],
              s->often[c]);
    for (uint32_t f = 0; f < WORLD_FINDINGS; f++)
        for (uint32_t i = 0; i <= LISTED; i++)
            judge_row(s, s->w.rows[f][i], s->w.truth[f][i], chances);
}

typedef struct setting {
    double right;
    uint32_t cases, worlds;
    bool own;
} setting;

static void study_worlds(setting at, score *shares, score *chances)
{
    *shares = *chances = (score){0};
    for (uint32_t w = 0; w < at.worlds; w++) {
        study s = {0};
        drawn = 1000003 * (uint64_t)w + at.cases;
        build(&s, at.right);
        make_world(&s, at.own);
        live(&s, at.cases, at.right);
        judge_all(&s, shares, chances);
        net_kit_free(s.w.k);
    }
}

/* ---- tests ---- */

static double part(uint32_t count, uint32_t of)
{
    return (double)count / of;
}

static void print_line(setting at, const score *shares, const score *chances)
{
    printf("read right %.2f, %4u cases, %s: shares %5u: held %.3f, outside %.3f, error %.4f; "
           "chances %5u: held %.3f, outside %.3f, error %.4f\n",
           at.right, at.cases, at.own ? "own " : "near", shares->numbers,
           part(shares->covered, shares->numbers), part(shares->outside, shares->numbers),
           shares->error / shares->numbers, chances->numbers,
           part(chances->covered, chances->numbers), part(chances->outside, chances->numbers),
           chances->error / chances->numbers);
}

/* Of 8 shares and 54 chances a world; numbers of one world hang together, so the spread of the
 * counts is taken wide: with 20 worlds four standard errors of the shares are 0.07. */
static void ninety_five_in_a_hundred_hold(void **state)
{
    (void)state;
    static const double rights[] = {0.9, 1};
    for (size_t i = 0; i < 2; i++) {
        score shares, chances;
        setting at = {rights[i], 600, 20, false};
        study_worlds(at, &shares, &chances);
        print_line(at, &shares, &chances);
        assert_true(part(chances.covered, chances.numbers) > 0.92);
        assert_true(part(chances.covered, chances.numbers) < 0.98);
        assert_true(part(shares.covered, shares.numbers) > 0.88);
    }
}

static void true_numbers_are_left_in_peace(void **state)
{
    (void)state;
    static const double rights[] = {0.9, 1};
    for (size_t i = 0; i < 2; i++) {
        score shares, chances;
        setting at = {rights[i], 600, 20, true};
        study_worlds(at, &shares, &chances);
        print_line(at, &shares, &chances);
        assert_true(part(chances.outside, chances.numbers) <= 0.07);
        assert_true(part(shares.outside, shares.numbers) <= 0.07);
    }
}

/* The grid of docs/mathematics.md. */
static void the_long_study(void **state)
{
    (void)state;
    const char *wanted = getenv("TT_WORLDS");
    static const double rights[] = {0.9, 0.95, 1};
    static const uint32_t cases[] = {300, 1000, 3000};
    for (int own = 0; wanted != NULL && own < 2; own++)
        for (size_t r = 0; r < 3; r++)
            for (size_t c = 0; c < 3; c++) {
                score shares, chances;
                setting at = {rights[r], cases[c], (uint32_t)strtoul(wanted, NULL, 10), own == 1};
                study_worlds(at, &shares, &chances);
                print_line(at, &shares, &chances);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ninety_five_in_a_hundred_hold),
        cmocka_unit_test(true_numbers_are_left_in_peace),
        cmocka_unit_test(the_long_study),
    };
    return cmocka_run_group_tests_name("learn coverage", tests, NULL, NULL);
}
