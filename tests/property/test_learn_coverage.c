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
#include "luck.h"
#include "net_kit.h"
#include "testing.h"

enum { CAUSES = 8, FINDINGS = 9, LISTED = 4, STATES = 3 };

static const learn_weights plain = {{1, 1}, false};

/* SplitMix64, Steele, Lea, Flood 2014. */
static uint64_t drawn;
static void draw_near(const double *mean, uint32_t count, double strength, double *out)
{
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += out[i] = luck_gamma(&drawn, strength * mean[i]);
    for (uint32_t i = 0; i < count; i++) out[i] /= sum;
}

/* ---- a world ---- */

/* Row LISTED of each finding is that of the causes it doesn't list. */
typedef struct study {
    net_kit *k;
    const net *n;
    double often[CAUSES], season[CAUSES];
    double truth[FINDINGS][LISTED + 1][STATES];
    learn_row *rows[FINDINGS][LISTED + 1];
    learn_shares *shares;
} study;

typedef struct score {
    uint32_t numbers, covered, outside;
    double error;
} score;

static uint32_t listed_at(uint32_t finding, uint32_t i)
{
    return (finding * 3 + i) % CAUSES;
}

static uint32_t row_of(uint32_t finding, uint32_t cause)
{
    for (uint32_t i = 0; i < LISTED; i++)
        if (listed_at(finding, i) == cause) return i;
    return LISTED;
}

static void add_sign(study *s, uint32_t f, uint32_t state)
{
    static const double chances[LISTED] = {0.7, 0.3, 0.15, 0.5};
    uint32_t symptom =
        net_kit_symptom(s->k, "s", net_kit_is(s->k, f, state), state == 1 ? 0.1 : 0.05);
    for (uint32_t i = 0; i < LISTED; i++)
        net_kit_list(s->k, symptom, listed_at(f, i), chances[i] / state);
}

/* Every third question has three answers, two of them a symptom. */
static void build(study *s, double right)
{
    s->k = net_kit_new();
    for (uint32_t c = 0; c < CAUSES; c++) net_kit_cause(s->k, "c", 1 + c % 4);
    for (uint32_t f = 0; f < FINDINGS; f++) {
        uint32_t states = f % 3 == 2 ? 3 : 2;
        net_kit_finding(s->k, "f", states);
        s->k->findings[f].right = right;
        for (uint32_t v = 1; v < states; v++) add_sign(s, f, v);
    }
    s->n = net_kit_build(s->k);
}

/* The author's own numbers, or a world near them. */
static void make_world(study *s, bool own)
{
    for (uint32_t c = 0; c < CAUSES; c++) s->season[c] = c % 4 == 0 ? 5 : c % 4 == 1 ? 0.5 : 1;
    s->shares = learn_shares_new(s->k->keep, s->k->weights, CAUSES);
    draw_near(s->n->share, CAUSES, own ? 1e12 : LEARN_SHARES_COUNT, s->often);
    for (uint32_t f = 0; f < FINDINGS; f++) {
        const component *g = &s->n->components[s->n->component_of[f]];
        for (uint32_t i = 0; i <= LISTED; i++) {
            double strength = i < LISTED ? LEARN_ROW_COUNTS : LEARN_BASE_COUNTS;
            const double *row = i < LISTED ? component_row(g, listed_at(f, i)) : g->base;
            s->rows[f][i] = learn_row_new(s->k->keep, row, g->atom_count, strength);
            draw_near(row, g->atom_count, own ? 1e12 : strength, s->truth[f][i]);
        }
    }
}

static void see(study *s, uint32_t f, uint32_t cause, double right)
{
    double weights[STATES] = {0};
    const component *g = &s->n->components[s->n->component_of[f]];
    uint32_t row = row_of(f, cause), states = s->n->in.findings[f].states,
             said = luck_pick(&drawn, s->truth[f][row], g->atom_count);
    for (uint32_t v = 0; v < states; v++)
        if (g->cell_atom[v] == said) {
            said = v; /* each answer is an atom of its own */
            break;
        }
    if (luck_share(&drawn) > right)
        said = (said + 1 + (uint32_t)(luck_share(&drawn) * (states - 1))) % states;
    weights[said] = 1;
    learn_row_add(s->k->keep, s->rows[f][row], s->n, g, weights, LEARN_CURED);
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
        learn_shares_add(s->k->keep, s->shares, factor, cause, LEARN_CURED);
        for (uint32_t f = 0; f < FINDINGS; f++)
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
    learn_row_fit(s->k->scratch, r, &plain);
    for (uint32_t a = 1; a < r->atoms; a++) {
        bool inside[STATES] = {false};
        inside[a] = true;
        learn_count c = learn_row_count(s->k->scratch, r, &plain, inside);
        judge(out, c.written, c.mean, c.worth, truth[a]);
    }
}

static void judge_all(study *s, score *shares, score *chances)
{
    double sum = 0;
    learn_shares_fit(s->k->scratch, s->shares, &plain);
    for (uint32_t c = 0; c < CAUSES; c++) sum += s->shares->weight[c];
    for (uint32_t c = 0; c < CAUSES; c++)
        judge(shares, s->n->share[c], s->shares->weight[c] / sum, s->shares->worth[c], s->often[c]);
    for (uint32_t f = 0; f < FINDINGS; f++)
        for (uint32_t i = 0; i <= LISTED; i++) judge_row(s, s->rows[f][i], s->truth[f][i], chances);
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
        net_kit_free(s.k);
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
