/* Noisy or, with and without a leak: what others printed, through books.
 *
 * Two conventions stand side by side in the literature for the number p of a cause when there is a
 * leak. Henrion, Some practical issues in constructing belief networks, UAI 3 (1989) 161-173: the
 * leak is in it, p = P(sign | this cause and no other). Díez, Parameter adjustment in Bayes
 * networks: the generalized noisy or-gate, UAI 9 (1993) 99-105: net of the leak, P(sign | this
 * cause alone) = 1 - (1 - leak)(1 - p). An author here writes Henrion's: of 100 calls with this
 * cause alone, how many show it. */
#include "testing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "asked_book.h"
#include "two_level.h"

static void near(double got, double wanted, double tolerance)
{
    if (!(fabs(got - wanted) <= tolerance)) fail_msg("%.15g, wanted %.15g", got, wanted);
}

/* P(yes | these causes, bits) of the only sign, as the engine's table has it. At most two causes;
 * none: a cause that is listed nowhere, as nothing-wrong is. */
static double engine_chance(const asked_book *a, uint32_t causes)
{
    arena *keep = arena_new(NULL, NULL);
    const belief *b = belief_new(keep, asked_net(a), 2);
    uint32_t nothing = asked_cause(a, "nothing-wrong");
    double row[2], chance = NAN;
    for (uint32_t h = 1; h < belief_count(b); h++) {
        uint32_t size, cause[2];
        belief_hypothesis(b, h, &size, cause);
        uint32_t set = 1u << cause[0] | (size == 2 ? 1u << cause[1] : 0);
        if (set == (causes == 0 ? 1u << nothing : causes)) {
            belief_row(b, 0, h, row);
            chance = row[1];
        }
    }
    arena_free(keep);
    return chance;
}

static asked_book book_of(const two_level *n)
{
    char *yaml = two_level_rules(n);
    asked_book a = asked_new(yaml);
    free(yaml);
    return a;
}

static two_level one_sign(double leak, uint32_t causes, const double *alone)
{
    two_level n = {.cause_count = causes, .sign_count = 1, .most_faults = 2, .nothing = true};
    n.signs[0] = (two_level_sign){.leak = leak, .read_right = 1, .minutes = 1};
    for (uint32_t c = 0; c < causes; c++) {
        n.prior[c] = 0.1;
        n.signs[0].alone[c] = alone[c];
    }
    return n;
}

/* outside-check: fever by cold, flu or malaria: seven rows of the noisy or's table of eight
 * source: Russell, Norvig, Artificial Intelligence, 3rd ed., section 14.3; each row is the product
 * of what inhibits standing: VERIFIED, COMPUTED
 */
static void fever(void **state)
{
    (void)state;
    static const double alone[] = {0.4, 0.8, 0.9};
    static const double printed[] = {0, 0.4, 0.8, 0.88, 0.9, 0.94, 0.98}; /* [cold, flu, malaria] */
    two_level n = one_sign(0, 3, alone);
    asked_book a = book_of(&n);
    /* No chance is nought here: without a leak the engine has one of 0.000001. All three at once,
     * 0.988, is no hypothesis of ours. */
    const double leak = 1e-6;
    for (uint32_t set = 0; set < 7; set++) {
        near(engine_chance(&a, set), printed[set], 1.01e-6);
        near(engine_chance(&a, set), 1 - (1 - leak) * (1 - printed[set]), 1e-14);
    }
    asked_free(&a);
}

/* outside-check: leaky noisy or: leak 0.1, causes 0.2 and 0.4 net of it, give 0.1 0.28 0.46 0.568
 * source: Pearl (1988) p. 184; the two conventions: Zagorecki and Druzdzel, abstract
 * standing: VERIFIED, COMPUTED
 */
static void leak_in_both_conventions(void **state)
{
    (void)state;
    static const double net_of_leak[] = {0.2, 0.4}; /* Díez */
    static const double rows[] = {0.1, 0.28, 0.46, 0.568};
    two_level n = one_sign(0.1, 2, net_of_leak);
    asked_book a = book_of(&n);
    for (uint32_t set = 0; set < 4; set++) near(engine_chance(&a, set), rows[set], 1e-14);
    asked_free(&a);

    /* Henrion's numbers, as an author writes them, without anything turned over. */
    a = asked_new("book:\n  title: Leak\n  roles: [anybody]\n"
                  "questions:\n  seen:\n    ask: Is it seen?\n"
                  "symptoms:\n  seen-it:\n    text: It is seen\n    when: {seen: yes}\n"
                  "    otherwise: 0.1\n    shown-by: {one: 0.28, two: 0.46}\n"
                  "causes:\n  one:\n    text: One\n  two:\n    text: Two\n"
                  "  nothing-wrong:\n    text: Nothing\n");
    for (uint32_t set = 0; set < 4; set++) {
        uint32_t one = asked_cause(&a, "one"), two = asked_cause(&a, "two");
        uint32_t causes = (set & 1) << one | (set >> 1) << two;
        near(engine_chance(&a, causes), rows[set], 1e-14);
    }
    asked_free(&a);
}

/* A node that is on if one of its edges fires: 0.8 where the parent is on, else 0.1. So it has a
 * leak, 1 - 0.9^k, and each parent alone 1 - 0.2 / 0.9. Fills [parents that are on]. */
static void rows_of_node(uint32_t parents, double *chance)
{
    static const double alone[] = {7.0 / 9, 7.0 / 9, 7.0 / 9};
    two_level n = one_sign(1 - pow(0.9, parents), parents, alone);
    asked_book a = book_of(&n);
    for (uint32_t set = 0; set < 1u << parents && set < 7; set++)
        chance[set] = engine_chance(&a, set);
    asked_free(&a);
}

static double given(bool on, double chance)
{
    return on ? chance : 1 - chance;
}

/* outside-check: a graph of five nodes, an edge fires with 0.8 or 0.1: node 3 is on in 0.81441875
 * source: computed here: all 16 worlds of the nodes above it
 * standing: COMPUTED
 */
static void graph_of_noisy_edges(void **state)
{
    (void)state;
    /* Nodes in between are more than two levels, which rules can't say: the rows are the engine's,
     * the sum over the nodes is the test's. All three parents of node 3 at once are no hypothesis
     * of ours either; that row is made of the engine's others, as a noisy or's can be. */
    double of_one[2], of_two[4], of_three[8], sum = 0;
    rows_of_node(1, of_one);
    rows_of_node(2, of_two);
    rows_of_node(3, of_three);
    of_three[7] = 1 - (1 - of_three[3]) * (1 - of_three[4]) / (1 - of_three[0]);
    for (unsigned world = 0; world < 16; world++) {
        unsigned zero = world & 1, four = world >> 1 & 1, one = world >> 2 & 1, two = world >> 3;
        sum += 0.25 * given(one == 1, of_one[zero]) * given(two == 1, of_two[zero | four << 1]) *
               of_three[one | two << 1 | four << 2];
    }
    near(sum, 130307.0 / 160000, 1e-14);
    near(sum, 0.81441875, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fever),
        cmocka_unit_test(leak_in_both_conventions),
        cmocka_unit_test(graph_of_noisy_edges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
