/* Three multipliers and two adders, the standing example of diagnosis from a model: X = A C, Y = B
 * D, Z = C E, F = X + Y, G = Y + Z with A, B, C, D, E = 3, 2, 2, 3, 3. F should be 12 and is 10; G
 * is 12. Which parts are broken, and which of X, Y, Z is to be measured next?
 *
 * What the rule language can't say: it has no model of a circuit, so that a sign follows from what
 * a part computes; it holds at most two faults at once; and two faults show what one of them or the
 * other would show alone, whereas here {A2, M2} explains what neither explains alone. What can be
 * checked is the reckoning: every set of broken parts becomes a cause of its own, with the prior
 * that the example gives it; the sets that can't be are ruled out by a rule; and each measurement
 * is a question. The sets are worked out here, by following the values through the circuit. */
#include "testing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "asked_book.h"
#include "test_sources.h"

enum { M1, M2, M3, A1, A2, PARTS, SETS = 1 << PARTS };
enum { X, Y, Z, PROBES };
#define UNKNOWN (-1)
#define CLIPPED 1e-6 /* no chance is 0 or 1 in the engine */

static const char *const part_names[] = {"m1", "m2", "m3", "a1", "a2"};

static void near(double got, double wanted, double tolerance)
{
    if (!(fabs(got - wanted) <= tolerance)) fail_msg("%.15g, wanted %.15g", got, wanted);
}

/* ---- the circuit ---- */

/* A sound adder: its output and one input give the other. False if its three values don't agree. */
static bool add_up(int *left, int *right, int sum)
{
    if (*left == UNKNOWN && *right != UNKNOWN) *left = sum - *right;
    if (*right == UNKNOWN && *left != UNKNOWN) *right = sum - *left;
    return *left == UNKNOWN || *left + *right == sum;
}

/* Values of X, Y and Z if exactly these parts are broken and F = f, G = 12; UNKNOWN where nothing
 * follows. False if that can't be. */
static bool values(unsigned broken, int f, int *v)
{
    for (int probe = X; probe <= Z; probe++) v[probe] = broken >> (M1 + probe) & 1 ? UNKNOWN : 6;
    for (int round = 0; round < 2; round++) {
        if ((broken >> A1 & 1) == 0 && !add_up(&v[X], &v[Y], f)) return false;
        if ((broken >> A2 & 1) == 0 && !add_up(&v[Y], &v[Z], 12)) return false;
    }
    return true;
}

static double prior_of(unsigned broken)
{
    double prior = 1;
    for (int part = 0; part < PARTS; part++) prior *= broken >> part & 1 ? .01 : .99;
    return prior;
}

/* "is-a1-m2"; "is" if nothing is broken. */
static void set_name(unsigned broken, char name[32])
{
    int length = snprintf(name, 32, "is");
    for (int part = PARTS; part-- > 0;)
        if (broken >> part & 1)
            length += snprintf(name + length, 32 - (size_t)length, "-%s", part_names[part]);
    assert_true(length < 32);
}

/* ---- the book ---- */

/* What a probe shows: 0 for 6, 1 for the other value (4, or 8 at Z), 2 for none that follows. */
static int shown(const int *v, int probe)
{
    return v[probe] == 6 ? 0 : v[probe] == UNKNOWN ? 2 : 1;
}

static void write_symptoms(FILE *out, int sets_most)
{
    static const char *const answers[] = {"six", "else", "open"};
    char name[32];
    int v[PROBES];
    for (int probe = X; probe <= Z; probe++)
        for (int answer = 0; answer < 3; answer++) {
            fprintf(out,
                    "  %c-%s:\n    text: Seen\n    when: {probe-%c: %s}\n    otherwise: 0 %%\n"
                    "    shown-by:\n",
                    "xyz"[probe], answers[answer], "xyz"[probe], answers[answer]);
            for (unsigned s = 0; s < SETS; s++) {
                if (__builtin_popcount(s) > sets_most) continue;
                set_name(s, name);
                bool can_be = values(s, 10, v);
                int shows = can_be ? shown(v, probe) : 0;
                fprintf(out, "      %s: %d %%\n", name, shows == answer ? 100 : 0);
            }
        }
}

static void write_rule(FILE *out, int sets_most)
{
    char name[32];
    int v[PROBES];
    fprintf(out, "rules:\n  outputs-seen:\n    when: {outputs: f10-g12}\n    then:\n"
                 "      rule-out:\n");
    for (unsigned s = 0; s < SETS; s++) {
        if (__builtin_popcount(s) > sets_most || values(s, 10, v)) continue;
        set_name(s, name);
        fprintf(out, "        - %s\n", name);
    }
}

/* With all sets of at most so many broken parts. */
static asked_book circuit(int sets_most)
{
    char *text, name[32];
    size_t length;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, "book:\n  title: Multipliers and adders\n  roles: [anybody]\n"
                 "  not-listed: 0\n  two-faults: 0\nquestions:\n"
                 "  outputs:\n    ask: What do F and G show?\n    about: today\n    answers:\n"
                 "      f12-g12: F 12 and G 12\n      f10-g12: F 10 and G 12\n");
    for (int probe = X; probe <= Z; probe++)
        fprintf(out,
                "  probe-%c:\n    ask: What does the probe show?\n    read-right: 100 %%\n"
                "    answers:\n      six: Six\n      else: The other value\n      open: No value\n",
                "xyz"[probe]);
    fprintf(out, "symptoms:\n");
    write_symptoms(out, sets_most);
    fprintf(out, "causes:\n");
    for (unsigned s = 0; s < SETS; s++) {
        set_name(s, name);
        if (__builtin_popcount(s) <= sets_most)
            fprintf(out, "  %s:\n    text: Broken\n    how-often: %.17g\n", name, prior_of(s));
    }
    write_rule(out, sets_most);
    assert_int_equal(fclose(out), 0);
    asked_book a = asked_new(text);
    free(text);
    return a;
}

static double chance_of_set(asked_book *a, unsigned broken)
{
    char name[32];
    set_name(broken, name);
    return asked_chance(a, name);
}

#define BIT(part) (1u << (part))

/* ---- posteriors ---- */

/* outside-check: of 32 sets of broken parts the four least that explain F = 10, G = 12
 * source: the example of de Kleer, Williams, Artif Intell 32 (1987) 97-130; all 32 counted out here
 * standing: COMPUTED
 */
static void minimal_diagnoses(void **state)
{
    (void)state;
    static const unsigned wanted[] = {BIT(M1), BIT(M2) | BIT(M3), BIT(A1), BIT(M2) | BIT(A2)};
    unsigned found[SETS], count = 0, consistent = 0;
    asked_book a = circuit(PARTS);
    asked_answer(&a, "outputs", "f10-g12");
    for (unsigned s = 0; s < SETS; s++) {
        if (chance_of_set(&a, s) <= 0) continue;
        consistent++;
        bool minimal = true;
        for (unsigned less = 0; less < s; less++)
            if ((less & s) == less && chance_of_set(&a, less) > 0) minimal = false;
        if (minimal) found[count++] = s;
    }
    assert_int_equal(consistent, 27);
    assert_int_equal(count, 4);
    for (unsigned i = 0; i < 4; i++) assert_int_equal(found[i], wanted[i]);
    asked_free(&a);
}

/* Of each size but the first all that can be are equally likely. */
/* outside-check: chances of the 27 sets, of each part, with one in a hundred parts broken
 * source: the example of de Kleer, Williams (1987), worked out by enumeration
 * standing: COMPUTED
 */
static void chances_of_sets_and_parts(void **state)
{
    (void)state;
    static const double by_size[] = {0,
                                     .47802642581466087,
                                     .004828549755703645,
                                     4.877322985559237e-05,
                                     4.92658887430226e-07,
                                     4.9763523982851115e-09};
    static const unsigned how_many[] = {0, 2, 9, 10, 5, 1};
    static const double parts[] = {.4976352398285111, .019608814013850253, .014780264258146608,
                                   .4976352398285111, .014780264258146608};
    unsigned counted[PARTS + 1] = {0};
    asked_book a = circuit(PARTS);
    asked_answer(&a, "outputs", "f10-g12");
    for (unsigned s = 0; s < SETS; s++) {
        double chance = chance_of_set(&a, s);
        if (chance <= 0) continue;
        unsigned size = (unsigned)__builtin_popcount(s);
        near(chance, by_size[size], 1e-12);
        counted[size]++;
    }
    for (int size = 0; size <= PARTS; size++) assert_int_equal(counted[size], how_many[size]);
    for (int part = 0; part < PARTS; part++)
        near(asked_chance_of_all(&a, part_names[part]), parts[part], 1e-12);
    asked_free(&a);
}

/* ---- the next measurement ---- */

/* Bits that a probe tells, and the chance of each thing it may show, by the engine. */
static double gain(asked_book *a, int probe, int sets_most, double *shows)
{
    char name[32], question[] = "probe-x";
    int v[PROBES];
    question[6] = "xyz"[probe];
    arena *keep = test_arena(), *scratch = test_arena();
    const net *n = asked_net(a);
    double *factor = ARENA_ARRAY(keep, double, n->in.cause_count);
    for (unsigned s = 0; s < SETS; s++) {
        if (__builtin_popcount(s) > sets_most) continue;
        set_name(s, name);
        factor[asked_cause(a, name)] = values(s, 10, v) ? 1 : 0;
    }
    const evidence nothing = {.weights = ARENA_ARRAY(keep, const double *, n->in.finding_count)};
    belief *b = belief_new(keep, n, 1);
    belief_weigh(b, &nothing, factor);
    double bits = belief_gain(b, scratch, &nothing, tt_question_find(a->book, question), shows);
    arena_free(scratch);
    arena_free(keep);
    return bits;
}

/* States of an answer in the engine are in the order of names: else, open, six. */
enum { ELSE, OPEN, SIX };

static double entropy(const double *p, int count)
{
    double bits = 0;
    for (int i = 0; i < count; i++)
        if (p[i] > 0) bits -= p[i] * log2(p[i]);
    return bits;
}

/* A set shows one of three things for certain; no chance may be 0 or 1, so the row is divided by
 * its sum, held at 0.000001 or more and divided again (docs/mathematics.md, tables). */
static void blurred_row(double *row)
{
    double sure = (1 - CLIPPED) / (1 + CLIPPED), sum = sure + 2 * CLIPPED;
    row[0] = sure / sum;
    row[1] = row[2] = CLIPPED / sum;
}

/* What the entropy of such a row takes from the gain. */
static double entropy_of_row(void)
{
    double row[3];
    blurred_row(row);
    return entropy(row, 3);
}

/* What is seen with such rows where chance p of it was wanted. */
static double blurred(double p)
{
    double row[3];
    blurred_row(row);
    return row[1] + p * (row[0] - row[1]);
}

/* outside-check: X is to be measured next; what each probe may show, and its entropy
 * source: the example of de Kleer, Williams (1987), worked out by enumeration
 * standing: COMPUTED
 */
static void best_probe(void **state)
{
    (void)state;
    static const double wanted[PROBES][3] = {
        {.492560848312, .00507439151688, .502364760171},
        {.00970587274126, .000197068531324, .990097058727},
        {.0048285497557, .00024584176118, .994925608483},
    };
    static const double entropies[] = {1.0408, .0815, .0474};
    double shows[3];
    asked_book a = circuit(PARTS);
    asked_answer(&a, "outputs", "f10-g12");
    for (int probe = X; probe <= Z; probe++) {
        double bits = gain(&a, probe, PARTS, shows);
        for (int y = ELSE; y <= SIX; y++) near(shows[y], blurred(wanted[probe][y]), 1e-12);
        near(bits, entropy(shows, 3) - entropy_of_row(), 1e-12);
        near(bits, entropies[probe], 1e-4);
    }
    const tt_view *v = asked_look(&a);
    assert_int_equal(v->next.question, tt_question_find(a.book, "probe-x"));
    near(v->next.bits, gain(&a, X, PARTS, shows), 1e-12);
    asked_free(&a);
}

/* outside-check: with a single fault X tells one bit exactly, Y and Z nothing
 * source: the example of de Kleer, Williams (1987), worked out by enumeration
 * standing: COMPUTED
 */
static void best_probe_with_one_fault(void **state)
{
    (void)state;
    double shows[3];
    asked_book a = circuit(1);
    asked_answer(&a, "outputs", "f10-g12");
    near(chance_of_set(&a, BIT(M1)), .5, 1e-12);
    near(chance_of_set(&a, BIT(A1)), .5, 1e-12);
    double bits = gain(&a, X, 1, shows);
    near(bits, entropy(shows, 3) - entropy_of_row(), 1e-12);
    near(bits, 1, 1e-4);
    near(gain(&a, Y, 1, shows), 0, 1e-12);
    near(gain(&a, Z, 1, shows), 0, 1e-12);
    assert_int_equal(asked_look(&a)->next.question, tt_question_find(a.book, "probe-x"));
    asked_answer(&a, "probe-x", "else");
    near(chance_of_set(&a, BIT(M1)), 1, 2 * CLIPPED);
    asked_free(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(minimal_diagnoses),
        cmocka_unit_test(chances_of_sets_and_parts),
        cmocka_unit_test(best_probe),
        cmocka_unit_test(best_probe_with_one_fault),
    };
    return cmocka_run_group_tests_name("best probe", tests, NULL, NULL);
}
