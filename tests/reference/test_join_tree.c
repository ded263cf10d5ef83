/* Random networks of two levels, asked of the engine through books, and of a join tree as a
 * second opinion: dlib's, through the program exact_by_join_tree. Nothing of the engine's way of
 * counting is in it: each cause, each sign's true state and each answer is a node with its full
 * table, and a node that is true with one or two causes, or with something not listed and no
 * listed cause, is known to be true. (It also ties the network together, which dlib needs.) */
#include "testing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "asked_book.h"
#include "join_tree.h"
#include "luck.h"
#include "rule_kit.h"
#include "skips.h"
#include "two_level.h"

#ifndef TT_JOIN_TREE
#define TT_JOIN_TREE ""
#endif

enum { MOST_CAUSES = 6, MOST_SIGNS = 6, TRIALS = 210 };

static void near(double got, double wanted, double tolerance, const char *what)
{
    if (!(fabs(got - wanted) <= tolerance))
        fail_msg("%s: %.15g, the join tree says %.15g", what, got, wanted);
}

/* Answers what stands in the file "networks". */
static FILE *answers_of_join_tree(void)
{
    assert_int_equal(system("'" TT_JOIN_TREE "' <networks >answers"), 0);
    FILE *in = fopen("answers", "r");
    assert_non_null(in);
    return in;
}

static FILE *begin_networks(void)
{
    FILE *out = fopen("networks", "w");
    assert_non_null(out);
    return out;
}

/* ---- the instrument itself ---- */

static double alarm_chance(const void *table, uint32_t parents)
{
    return ((const double *)table)[parents];
}

/* outside-check: the join tree's own answers about the burglary alarm are the published ones
 * source: Russell, Norvig, Artificial Intelligence, 3rd ed., fig. 14.2; dlib (libdlib-dev)
 * standing: VERIFIED, COMPUTED
 */
static void join_tree_knows_the_alarm(void **state)
{
    (void)state;
    static const double burglary[] = {0.001}, earthquake[] = {0.002},
                        first_neighbour[] = {0.05, 0.9}, alarm[] = {0.001, 0.94, 0.29, 0.95},
                        second_neighbour[] = {0.01, 0.7};
    static const uint32_t causes[] = {0, 1}, rings[] = {2};
    static const double wanted[] = {0.284171835364393, 0.176066838405079, 0.760692038863108, 1, 1};
    join_network n = {.count = 0};
    join_add(&n, NULL, 0, alarm_chance, burglary);
    join_add(&n, NULL, 0, alarm_chance, earthquake);
    join_add(&n, causes, 2, alarm_chance, alarm);
    n.known[join_add(&n, rings, 1, alarm_chance, first_neighbour)] = 1;
    n.known[join_add(&n, rings, 1, alarm_chance, second_neighbour)] = 1;
    FILE *out = begin_networks();
    join_write(out, &n);
    assert_int_equal(fclose(out), 0);
    FILE *in = answers_of_join_tree();
    double chance[JOIN_NODES];
    join_read(in, &n, chance);
    fclose(in);
    for (int i = 0; i < 5; i++) near(wanted[i], chance[i], 1e-14, "published");
}

/* ---- a random network, and what is said about its signs ---- */

typedef struct trial {
    two_level n;
    bool said[MOST_SIGNS];
    double weight[MOST_SIGNS][2]; /* [sign][no, yes]: how likely that is what was said */
    uint32_t next;                /* a sign nothing is said about */
} trial;

static double one_of(uint64_t *random, const double *from, uint32_t count)
{
    return from[luck_below(random, count)];
}

/* low … high, in thousandths */
static double thousandths(uint64_t *random, uint32_t low, uint32_t high)
{
    return (low + luck_below(random, high - low + 1)) / 1000.0;
}

static two_level_sign draw_sign(uint64_t *random, uint32_t causes)
{
    static const double right[] = {1, 0.98, 0.95, 0.8};
    two_level_sign s = {
        .leak = thousandths(random, 0, 200), .read_right = one_of(random, right, 4), .minutes = 1};
    s.alone[luck_below(random, causes)] = thousandths(random, 20, 980);
    for (uint32_t c = 0; c < causes; c++)
        if (luck_below(random, 2) == 0) s.alone[c] = thousandths(random, 20, 980);
    return s;
}

static void draw_answer(uint64_t *random, double *weight)
{
    uint32_t kind = luck_below(random, 5);
    weight[0] = kind == 0 || kind == 1 ? 1 : kind == 2 ? 0 : kind == 3 ? 0.25 : 0.6;
    weight[1] = kind == 0 ? 0 : kind == 1 || kind == 2 ? 1 : kind == 3 ? 0.75 : 0.4;
}

static trial draw_trial(uint64_t *random)
{
    static const double not_listed[] = {0, 0.03, 0.15};
    trial t = {.n = {.cause_count = 2 + luck_below(random, MOST_CAUSES - 1),
                     .sign_count = 2 + luck_below(random, MOST_SIGNS - 1),
                     .not_listed = one_of(random, not_listed, 3),
                     .most_faults = 2}};
    for (uint32_t c = 0; c < t.n.cause_count; c++) t.n.prior[c] = thousandths(random, 5, 400);
    for (uint32_t s = 0; s < t.n.sign_count; s++) {
        t.n.signs[s] = draw_sign(random, t.n.cause_count);
        t.said[s] = luck_below(random, 2) == 0;
        draw_answer(random, t.weight[s]);
    }
    t.next = luck_below(random, t.n.sign_count);
    t.said[t.next] = false;
    return t;
}

/* ---- as a network for the join tree ---- */

typedef enum question { ONE_FAULT, TWO_FAULTS, NEXT_NO, NEXT_YES, QUESTIONS } question;

/* Where things are among the nodes: causes first, in their order; pairs last. */
typedef struct layout {
    join_network net;
    uint32_t not_listed, pair[MOST_CAUSES][MOST_CAUSES], answer[MOST_SIGNS];
} layout;

static double constant(const void *chance, uint32_t parents)
{
    (void)parents;
    return *(const double *)chance;
}

static double both(const void *context, uint32_t parents)
{
    (void)context;
    return parents == 3;
}

/* The last parent is something not listed. */
static double can_be(const void *context, uint32_t parents)
{
    const two_level *n = context;
    uint32_t size = 0;
    for (uint32_t c = 0; c <= n->cause_count; c++) size += parents >> c & 1;
    if (parents >> n->cause_count != 0) return size == 1;
    return size == 1 || (size == 2 && n->most_faults == 2);
}

typedef struct sign_table {
    const two_level *n;
    uint32_t sign;
    uint32_t parents[MOST_CAUSES + 1], parent_count; /* the last is something not listed */
} sign_table;

/* Something not listed shows it half as the leak does, half as the mean cause. */
static double not_listed_shows(const two_level *n, uint32_t sign)
{
    double sum = 0, weight = 0;
    for (uint32_t c = 0; c < n->cause_count; c++) {
        double odds = n->prior[c] / (1 - n->prior[c]);
        sum += odds * two_level_chance(n, sign, 1u << c);
        weight += odds;
    }
    return 0.5 * two_level_chance(n, sign, 0) + 0.5 * sum / weight;
}

static double shows(const void *context, uint32_t parents)
{
    const sign_table *t = context;
    uint32_t listed = t->parent_count - 1, causes = 0;
    if (parents >> listed != 0) return not_listed_shows(t->n, t->sign);
    for (uint32_t i = 0; i < listed; i++) causes |= (parents >> i & 1) << t->parents[i];
    return two_level_chance(t->n, t->sign, causes);
}

typedef struct said_table {
    double right, weight[2];
} said_table;

static double says(const void *context, uint32_t state)
{
    const said_table *t = context;
    return t->right * t->weight[state] + (1 - t->right) * t->weight[1 - state];
}

static void add_causes(layout *l, const two_level *n)
{
    uint32_t all[MOST_CAUSES + 1];
    double one, two;
    for (uint32_t c = 0; c < n->cause_count; c++)
        all[c] = join_add(&l->net, NULL, 0, constant, &n->prior[c]);
    two_level_odds(n, &one, &two);
    double odds = n->not_listed / (1 - n->not_listed) * (one + two), chance = odds / (1 + odds);
    all[n->cause_count] = l->not_listed = join_add(&l->net, NULL, 0, constant, &chance);
    l->net.known[join_add(&l->net, all, n->cause_count + 1, can_be, n)] = 1;
}

static void add_sign(layout *l, const trial *t, const two_level *n, uint32_t sign)
{
    sign_table table = {.n = n, .sign = sign};
    for (uint32_t c = 0; c < n->cause_count; c++)
        if (n->signs[sign].alone[c] > 0) table.parents[table.parent_count++] = c;
    table.parents[table.parent_count++] = l->not_listed;
    uint32_t node = join_add(&l->net, table.parents, table.parent_count, shows, &table);
    said_table answer = {n->signs[sign].read_right, {0, 1}};
    for (int y = 0; y < 2 && t->said[sign]; y++) answer.weight[y] = t->weight[sign][y];
    l->answer[sign] = join_add(&l->net, &node, 1, says, &answer);
    if (t->said[sign]) l->net.known[l->answer[sign]] = 1;
}

static void add_pairs(layout *l, const two_level *n)
{
    for (uint32_t c = 0; c < n->cause_count; c++)
        for (uint32_t d = 0; d < c; d++) {
            const uint32_t two_of[] = {c, d};
            l->pair[c][d] = l->pair[d][c] = join_add(&l->net, two_of, 2, both, NULL);
        }
}

static void lay_out(layout *l, const trial *t, question q)
{
    two_level n = t->n;
    *l = (layout){.not_listed = 0};
    n.most_faults = q == ONE_FAULT ? 1 : 2;
    add_causes(l, &n);
    for (uint32_t s = 0; s < n.sign_count; s++) add_sign(l, t, &n, s);
    if (q != ONE_FAULT) add_pairs(l, &n);
    if (q == NEXT_NO) l->net.known[l->answer[t->next]] = 0;
    if (q == NEXT_YES) l->net.known[l->answer[t->next]] = 1;
}

/* ---- compared ---- */

typedef struct opinion {
    double node[QUESTIONS][JOIN_NODES];
    layout l; /* of any question but ONE_FAULT, which has no pairs; all else is alike */
} opinion;

static double bits(double p)
{
    return p > 0 ? -p * log2(p) : 0;
}

/* Over something not listed, each cause alone, each pair. */
static double entropy(const opinion *o, question q, uint32_t causes)
{
    double sum = bits(o->node[q][o->l.not_listed]);
    for (uint32_t c = 0; c < causes; c++) {
        double alone = o->node[q][c];
        for (uint32_t d = 0; d < causes; d++)
            if (d != c) alone -= o->node[q][o->l.pair[c][d]];
        sum += bits(alone);
        for (uint32_t d = 0; d < c; d++) sum += bits(o->node[q][o->l.pair[c][d]]);
    }
    return sum;
}

static double gain(const opinion *o, const trial *t)
{
    double yes = o->node[TWO_FAULTS][o->l.answer[t->next]];
    return entropy(o, TWO_FAULTS, t->n.cause_count) - yes * entropy(o, NEXT_YES, t->n.cause_count) -
           (1 - yes) * entropy(o, NEXT_NO, t->n.cause_count);
}

static asked_book ask_engine(const trial *t)
{
    char *yaml = two_level_rules(&t->n), name[16];
    asked_book a = asked_new(yaml);
    free(yaml);
    for (uint32_t s = 0; s < t->n.sign_count; s++) {
        const double *w = t->weight[s];
        snprintf(name, sizeof name, "s%02u", s);
        if (!t->said[s]) continue;
        if (w[0] == 1 && w[1] == 1)
            asked_answer(&a, name, "unsure");
        else if (w[0] == 1 || w[1] == 1)
            asked_answer(&a, name, w[1] == 1 ? "yes" : "no");
        else
            asked_likely(&a, name, w[0], w[1]);
    }
    return a;
}

static uint32_t pair_node(const opinion *o, const asked_book *a, const tt_pair *p)
{
    return o->l.pair[asked_cause(a, p->first)][asked_cause(a, p->second)];
}

static void compare_screen(asked_book *a, const trial *t, const opinion *o)
{
    const tt_view *v = asked_look(a);
    const double *two = o->node[TWO_FAULTS], *shown = v->pairs_matter ? two : o->node[ONE_FAULT];
    double both_of_any = 0;
    for (uint32_t c = 0; c < t->n.cause_count; c++) {
        char name[16];
        snprintf(name, sizeof name, "c%02u", c);
        near(asked_chance(a, name), shown[c], 1e-11, name);
        for (uint32_t d = 0; d < c; d++) both_of_any += two[o->l.pair[c][d]];
    }
    near(asked_chance(a, NULL), shown[o->l.not_listed], 1e-11, "something not listed");
    near(v->two_faults, both_of_any, 1e-11, "two faults");
    assert_true(v->pair_count > 0);
    for (uint32_t i = 0; i < v->pair_count; i++)
        near(v->pairs[i].chance, two[pair_node(o, a, &v->pairs[i])], 1e-11, "a pair");
}

/* What the screen doesn't show: chances of causes with pairs, the next answers, the gain. */
static void compare_belief(const asked_book *a, const trial *t, const opinion *o)
{
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    const double **weights = ARENA_ARRAY(keep, const double *, asked_net(a)->in.finding_count);
    for (uint32_t s = 0; s < t->n.sign_count; s++)
        if (t->said[s]) weights[s] = t->weight[s];
    const evidence seen = {.weights = weights};
    belief *b = belief_new(keep, asked_net(a), 2);
    belief_weigh(b, &seen, NULL);
    double marginal[MOST_CAUSES + 1], answer[2];
    belief_marginals(b, marginal);
    for (uint32_t c = 0; c < t->n.cause_count; c++)
        near(marginal[1 + c], o->node[TWO_FAULTS][c], 1e-11, "a cause");
    for (uint32_t s = 0; s < t->n.sign_count; s++) {
        if (t->said[s]) continue;
        double tells = belief_gain(b, scratch, &seen, s, answer);
        near(answer[1], o->node[TWO_FAULTS][o->l.answer[s]], 1e-11, "the next answer");
        if (s == t->next) near(tells, gain(o, t), 1e-10, "the gain");
    }
    arena_free(keep);
    arena_free(scratch);
}

/* outside-check: 210 random networks: causes, pairs, next answers and gains as a join tree has them
 * source: dlib, Bayesian networks by join tree (Debian's libdlib-dev)
 * standing: COMPUTED
 */
static void random_networks(void **state)
{
    (void)state;
    static trial trials[TRIALS];
    static opinion o;
    uint64_t random = 20;
    FILE *out = begin_networks();
    for (int i = 0; i < TRIALS; i++) {
        trials[i] = draw_trial(&random);
        for (question q = 0; q < QUESTIONS; q++) {
            lay_out(&o.l, &trials[i], q);
            join_write(out, &o.l.net);
        }
    }
    assert_int_equal(fclose(out), 0);
    FILE *in = answers_of_join_tree();
    for (int i = 0; i < TRIALS; i++) {
        for (question q = 0; q < QUESTIONS; q++) {
            lay_out(&o.l, &trials[i], q);
            join_read(in, &o.l.net, o.node[q]);
        }
        asked_book a = ask_engine(&trials[i]);
        compare_screen(&a, &trials[i], &o);
        compare_belief(&a, &trials[i], &o);
        asked_free(&a);
    }
    fclose(in);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(join_tree_knows_the_alarm),
        cmocka_unit_test(random_networks),
    };
    if (TT_JOIN_TREE[0] == '\0')
        return skip_all_since("Bayesian networks by dlib: a C++ compiler or Debian's package "
                              "libdlib-dev is not here; " BY_EVERYTHING);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
