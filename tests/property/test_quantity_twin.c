/* Quantities against a plain twin: the same book with each quantity a reading of its own, into
 * which the test types what it has worked out itself. The posterior is the same to 1e-12. The gain
 * of asking one against the posteriors it leads to. And edges: a reading that is a limit is that
 * limit in every unit. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "luck.h"
#include "open_gate.h"
#include "rule_kit.h"
#include "small_book.h"

enum {
    READINGS = 4,
    TEXT_ROOM = 16384,
    BOOKS = 300,
    CAUSES = 4,
    EDGE_BOOKS = 60,
    EDGE_QUESTIONS = 8,
    EDGE_LIMITS = 6
};
#define CLOSE 1e-12

typedef struct written {
    char text[TEXT_ROOM];
    size_t length;
} written;

__attribute__((format(printf, 2, 3))) static void put(written *w, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int n = vsnprintf(w->text + w->length, TEXT_ROOM - w->length, format, arguments);
    va_end(arguments);
    assert_in_range(n, 0, TEXT_ROOM - w->length - 1);
    w->length += (size_t)n;
}

/* ---- lengths, in metres ---- */

static const struct {
    const char *name;
    double metres;
} lengths[] = {{"ft", 0.3048}, {"m", 1}, {"in", 0.0254}, {"cm", 0.01}};
enum { LENGTHS = 4 };

typedef struct length_reading {
    uint32_t unit, right; /* right: percent */
    bool known, unsure;
    double metres;
} length_reading;

/* What is reckoned: its formula over two readings and, perhaps, the quantity before it. */
typedef struct reckoned {
    uint32_t a, b, unit, kind;
    bool on_first;
} reckoned;

typedef struct draw {
    uint64_t random;
    length_reading readings[READINGS];
    reckoned q[2];
    uint32_t made_a, made_b; /* ra above rb + margin */
    double margin;           /* metres */
    char limits[6][32];
    uint32_t chances[24];
} draw;

static draw draw_book(uint64_t seed)
{
    draw d = {.random = seed};
    for (int i = 0; i < READINGS; i++) {
        d.readings[i] = (length_reading){.unit = luck_below(&d.random, LENGTHS),
                                         .right = 70 + luck_below(&d.random, 30)};
        uint32_t how = luck_below(&d.random, 8);
        d.readings[i].known = how > 1;
        d.readings[i].unsure = how == 1;
        d.readings[i].metres = (1 + luck_below(&d.random, 4000)) / 100.0;
    }
    for (int i = 0; i < 2; i++) {
        uint32_t a = luck_below(&d.random, READINGS);
        d.q[i] = (reckoned){a, (a + 1 + luck_below(&d.random, READINGS - 1)) % READINGS,
                            luck_below(&d.random, LENGTHS), luck_below(&d.random, 5),
                            i == 1 && luck_below(&d.random, 2) == 0};
    }
    d.made_a = luck_below(&d.random, READINGS);
    d.made_b = (d.made_a + 1) % READINGS;
    d.margin = (1 + luck_below(&d.random, 300)) / 100.0;
    for (int i = 0; i < 6; i++)
        snprintf(d.limits[i], sizeof d.limits[i], "%u.%u %s", 1 + luck_below(&d.random, 30),
                 luck_below(&d.random, 10), lengths[luck_below(&d.random, LENGTHS)].name);
    for (int i = 0; i < 24; i++) d.chances[i] = 5 + luck_below(&d.random, 90);
    return d;
}

static const char *const formulas[] = {"r%u + r%u", "r%u - r%u", "2 * r%u - r%u / 3",
                                       "max(r%u, r%u)", "abs(r%u - r%u)"};

static double value_of(const draw *d, int i)
{
    const reckoned *q = &d->q[i];
    double a = d->readings[q->a].metres, b = d->readings[q->b].metres;
    const double values[] = {a + b, a - b, 2 * a - b / 3, fmax(a, b), fabs(a - b)};
    return values[q->kind] + (q->on_first ? value_of(d, 0) : 0);
}

/* Bits of the readings beneath it. */
static unsigned beneath(const draw *d, int i)
{
    return 1u << d->q[i].a | 1u << d->q[i].b | (d->q[i].on_first ? beneath(d, 0) : 0);
}

static bool all_known(const draw *d, unsigned readings)
{
    for (int i = 0; i < READINGS; i++)
        if ((readings >> i & 1) != 0 && !d->readings[i].known) return false;
    return true;
}

static double all_right(const draw *d, unsigned readings)
{
    double right = 1;
    for (int i = 0; i < READINGS; i++)
        if ((readings >> i & 1) != 0) right *= d->readings[i].right / 100.0;
    return right;
}

static void put_reading(written *w, const char *name, uint32_t unit, double right)
{
    put(w, "  %s:\n    ask: How long?\n    reading: length\n    unit: %s\n    read-right: %.17g\n",
        name, lengths[unit].name, right);
}

static void put_symptom(written *w, const draw *d, int n, const char *when)
{
    put(w,
        "  s%d:\n    text: S\n    when: {%s}\n    shown-by: {c%d: %u %%, c%d: %u %%}\n    "
        "otherwise: %u %%\n",
        n, when, n % CAUSES, d->chances[3 * n], (n + 1) % CAUSES, d->chances[3 * n + 1],
        1 + d->chances[3 * n + 2] / 4);
}

static void put_symptoms(written *w, const draw *d, bool twin)
{
    char when[256];
    put(w, "symptoms:\n");
    snprintf(when, sizeof when, "q0: above %s", d->limits[0]);
    put_symptom(w, d, 0, when);
    snprintf(when, sizeof when, "q1: at most %s", d->limits[1]);
    put_symptom(w, d, 1, when);
    snprintf(when, sizeof when, "q1: above %s, look: dry", d->limits[2]);
    put_symptom(w, d, 2, when);
    if (twin)
        snprintf(when, sizeof when, "made: above %.17g m", d->margin);
    else
        snprintf(when, sizeof when, "r%u: above r%u + %.17g m", d->made_a, d->made_b, d->margin);
    put_symptom(w, d, 3, when);
    snprintf(when, sizeof when, "r0: below %s", d->limits[3]);
    put_symptom(w, d, 4, when);
    put_symptom(w, d, 5, "look: wet");
}

static void put_rest(written *w)
{
    put(w, "causes:\n");
    for (int i = 0; i < CAUSES; i++) put(w, "  c%d: {text: C}\n", i);
    put(w, "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {c0: often, c1: often, c2: "
           "often, c3: often}\n    harm: none\n    put-back: not needed\n");
}

static void write_book(written *w, const draw *d, bool twin)
{
    char name[16];
    w->length = 0;
    put(w, "book:\n  title: T\n  roles: [helper]\nquestions:\n  look:\n    ask: Look?\n    "
           "answers: {dry: Dry, odd: Odd, wet: Wet}\n");
    for (int i = 0; i < READINGS; i++) {
        snprintf(name, sizeof name, "r%d", i);
        put_reading(w, name, d->readings[i].unit, d->readings[i].right / 100.0);
    }
    if (!twin) put(w, "quantities:\n");
    for (int i = 0; i < 2; i++) {
        snprintf(name, sizeof name, "q%d", i);
        if (twin) {
            put_reading(w, name, d->q[i].unit, all_right(d, beneath(d, i)));
            continue;
        }
        put(w, "  %s:\n    text: Q\n    unit: %s\n    formula: ", name, lengths[d->q[i].unit].name);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
        put(w, formulas[d->q[i].kind], d->q[i].a, d->q[i].b);
#pragma GCC diagnostic pop
        put(w, "%s\n", d->q[i].on_first ? " + q0" : "");
    }
    if (twin) {
        put_reading(w, "made", d->readings[d->made_a].unit,
                    all_right(d, 1u << d->made_a | 1u << d->made_b));
        put(w, "    usual: -0.0001 m to 0.0001 m\n");
    }
    put_symptoms(w, d, twin);
    put_rest(w);
}

static tt_case *begin(tt_book **rules, const written *w)
{
    tt_case *c;
    *rules = small_book(w->text);
    assert_int_equal(tt_case_new(*rules, NULL, &c), TT_OK);
    open_gate(c);
    return c;
}

static void give(const tt_book *rules, tt_case *c, const char *name, double metres, uint32_t unit)
{
    const tt_reply reply = {
        .kind = TT_NUMBER, .number = metres / lengths[unit].metres, .unit = lengths[unit].name};
    assert_int_equal(tt_answer(c, tt_question_find(rules, name), &reply), TT_OK);
}

static void give_readings(const draw *d, uint64_t *random, const tt_book *rules, tt_case *c)
{
    char name[16];
    for (int i = 0; i < READINGS; i++) {
        snprintf(name, sizeof name, "r%d", i);
        if (d->readings[i].known)
            give(rules, c, name, d->readings[i].metres, luck_below(random, LENGTHS));
        if (d->readings[i].unsure)
            assert_int_equal(
                tt_answer(c, tt_question_find(rules, name), &(tt_reply){.kind = TT_UNSURE}), TT_OK);
    }
    if (luck_below(random, 2) == 0)
        assert_int_equal(tt_answer(c, tt_question_find(rules, "look"),
                                   &(tt_reply){.kind = TT_ANSWER, .option = luck_below(random, 3)}),
                         TT_OK);
}

static void give_reckoned(const draw *d, const tt_book *rules, tt_case *c)
{
    if (all_known(d, beneath(d, 0))) give(rules, c, "q0", value_of(d, 0), d->q[0].unit);
    if (all_known(d, beneath(d, 1))) give(rules, c, "q1", value_of(d, 1), d->q[1].unit);
    double made = d->readings[d->made_a].metres - d->readings[d->made_b].metres;
    if (all_known(d, 1u << d->made_a | 1u << d->made_b))
        give(rules, c, "made", made, d->readings[d->made_a].unit);
}

/* Not listed at [CAUSES]. */
static void chances_of(tt_case *c, double *out)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++)
        out[v->causes[i].name == NULL ? CAUSES : v->causes[i].name[1] - '0'] = v->causes[i].chance;
}

static void a_quantity_counts_as_its_value_would(void **state)
{
    (void)state;
    static written plain, twin;
    uint32_t reckoned_count = 0;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        draw d = draw_book(seed * 7919);
        tt_book *rules, *other;
        write_book(&plain, &d, false);
        write_book(&twin, &d, true);
        tt_case *c = begin(&rules, &plain), *o = begin(&other, &twin);
        uint64_t again = d.random;
        give_readings(&d, &d.random, rules, c);
        give_readings(&d, &again, other, o);
        give_reckoned(&d, other, o);
        double p[CAUSES + 1], q[CAUSES + 1];
        chances_of(c, p);
        chances_of(o, q);
        for (int i = 0; i <= CAUSES; i++)
            if (!(fabs(p[i] - q[i]) <= CLOSE))
                fail_msg("book %d, cause %d: %.17g, twin %.17g\n%s", (int)seed, i, p[i], q[i],
                         plain.text);
        reckoned_count += all_known(&d, beneath(&d, 0)) + all_known(&d, beneath(&d, 1));
        tt_case_free(c);
        tt_case_free(o);
        tt_book_free(rules);
        tt_book_free(other);
    }
    assert_true(reckoned_count > BOOKS / 2);
}

/* ---- what asking is worth ---- */

static double entropy(const double *p)
{
    double h = 0;
    for (int i = 0; i <= CAUSES; i++) h -= p[i] > 0 ? p[i] * log2(p[i]) : 0;
    return h;
}

static void chances_after(const tt_book *rules, tt_case *c, double metres, double *out)
{
    give(rules, c, "q", metres, 1);
    chances_of(c, out);
    assert_int_equal(tt_undo(c), TT_OK);
}

/* One limit, two states: the mean of the two posteriors is the posterior of now, which tells how
 * likely each state is. */
static void asking_is_worth_what_the_posteriors_say(void **state)
{
    (void)state;
    static written w;
    uint64_t random = 99;
    uint32_t weighed = 0;
    for (int n = 0; n < 200; n++) {
        w.length = 0;
        put(&w, "book:\n  title: T\n  roles: [helper]\n  two-faults: 0 %%\nquestions:\n  look:\n   "
                " ask: Look?\n"
                "    answers: {dry: Dry, wet: Wet}\n");
        put_reading(&w, "r0", luck_below(&random, LENGTHS), 0.9);
        put_reading(&w, "r1", luck_below(&random, LENGTHS), 0.8);
        put(&w, "quantities:\n  q:\n    text: Q\n    formula: r0 + r1\n    unit: m\nsymptoms:\n");
        put(&w,
            "  s:\n    text: S\n    when: {q: above 5 m}\n    shown-by: {c0: %u %%, c1: %u %%}\n   "
            " otherwise: %u %%\n",
            20 + luck_below(&random, 79), 2 + luck_below(&random, 90), 1 + luck_below(&random, 30));
        put(&w, "  l:\n    when: {look: dry}\n    shown-by: {c1: often, c2: sometimes}\n");
        put_rest(&w);
        tt_book *rules;
        tt_case *c = begin(&rules, &w);
        const tt_reply dry = {.kind = n % 2 == 0 ? TT_UNSURE : TT_ANSWER, .option = 0};
        assert_int_equal(tt_answer(c, tt_question_find(rules, "look"), &dry), TT_OK);
        const tt_view *v;
        assert_int_equal(tt_look(c, &v), TT_OK);
        assert_int_equal(v->next.quantity, tt_question_find(rules, "q"));
        double bits = v->next.bits, now[CAUSES + 1], low[CAUSES + 1], high[CAUSES + 1];
        chances_of(c, now);
        chances_after(rules, c, 1, low);
        chances_after(rules, c, 9, high);
        int widest = 0;
        for (int i = 1; i <= CAUSES; i++)
            if (fabs(high[i] - low[i]) > fabs(high[widest] - low[widest])) widest = i;
        if (fabs(high[widest] - low[widest]) > 0.01) {
            double share = (now[widest] - low[widest]) / (high[widest] - low[widest]);
            double wanted = entropy(now) - share * entropy(high) - (1 - share) * entropy(low);
            if (!(fabs(bits - wanted) <= 1e-10)) fail_msg("%.17g bits, wanted %.17g", bits, wanted);
            weighed++;
        }
        tt_case_free(c);
        tt_book_free(rules);
    }
    assert_true(weighed > 100);
}

/* ---- edges ---- */

/* In base units: number × factor + offset. Factors: NIST SP 811, appendix B. */
static const struct {
    const char *name;
    double factor, offset;
} units[][3] = {
    {{"psi", 6894.757293168361, 0}, {"bar", 100000, 0}, {"kPa", 1000, 0}},
    {{"ft", 0.3048, 0}, {"m", 1, 0}, {"in", 0.0254, 0}},
    {{"gal/min", 3.785411784, 0}, {"L/min", 1, 0}, {"gal/h", 3.785411784 / 60, 0}},
    {{"degF", 1 / 1.8, -32 / 1.8}, {"degC", 1, 0}, {"degC", 1, 0}},
};
static const char *const measures[] = {"pressure", "length", "flow", "temperature"};
static const char *const comparisons[] = {"below", "at most", "above", "at least"};

typedef struct edge {
    uint32_t measure, unit, comparison;
    double number; /* as written, in tenths */
} edge;

static bool shown(tt_case *c, const char *symptom)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, symptom) == 0) return true;
    return false;
}

/* `beside`: -1 a little below the limit, 0 at it, 1 a little above. */
static void check_edge(const tt_book *rules, tt_case *c, const edge *e, int q, int n, int beside)
{
    char question[32], symptom[32];
    snprintf(question, sizeof question, "q%d", q);
    snprintf(symptom, sizeof symptom, "s%d-%d", q, n);
    const bool wanted[][3] = {
        {true, false, false}, {true, true, false}, {false, false, true}, {false, true, true}};
    double base = e->number * units[e->measure][e->unit].factor + units[e->measure][e->unit].offset;
    base += beside * 1e-7 * fmax(1, fabs(base));
    for (int u = 0; u < 3; u++) {
        const tt_reply reply = {.kind = TT_NUMBER,
                                .unit = units[e->measure][u].name,
                                .number = (base - units[e->measure][u].offset) /
                                          units[e->measure][u].factor};
        assert_int_equal(tt_answer(c, tt_question_find(rules, question), &reply), TT_OK);
        if (shown(c, symptom) != wanted[e->comparison][beside + 1])
            fail_msg("%s %.17g %s: read as %.17g %s", comparisons[e->comparison], e->number,
                     units[e->measure][e->unit].name, reply.number, reply.unit);
    }
}

static void a_reading_at_a_limit_is_at_it_in_every_unit(void **state)
{
    (void)state;
    static written w;
    static edge edges[EDGE_QUESTIONS][EDGE_LIMITS];
    uint64_t random = 4711;
    for (int b = 0; b < EDGE_BOOKS; b++) {
        w.length = 0;
        put(&w, "book:\n  title: T\n  roles: [helper]\n  two-faults: 0 %%\nquestions:\n");
        for (int q = 0; q < EDGE_QUESTIONS; q++)
            put(&w, "  q%d:\n    ask: How much?\n    reading: %s\n    unit: %s\n", q,
                measures[q % 4], units[q % 4][luck_below(&random, 3)].name);
        put(&w, "symptoms:\n");
        for (int q = 0; q < EDGE_QUESTIONS; q++)
            for (int n = 0; n < EDGE_LIMITS; n++) {
                edge *e = &edges[q][n];
                *e = (edge){(uint32_t)q % 4, luck_below(&random, 3), luck_below(&random, 4),
                            (1 + luck_below(&random, 5000)) / 10.0};
                put(&w,
                    "  s%d-%d:\n    text: S\n    when: {q%d: %s %.1f %s}\n    shown-by: {c0: "
                    "often}\n",
                    q, n, q, comparisons[e->comparison], e->number,
                    units[e->measure][e->unit].name);
            }
        put_rest(&w);
        tt_book *rules;
        tt_case *c = begin(&rules, &w);
        for (int q = 0; q < EDGE_QUESTIONS; q++)
            for (int n = 0; n < EDGE_LIMITS; n++)
                for (int beside = -1; beside <= 1; beside++)
                    check_edge(rules, c, &edges[q][n], q, n, beside);
        tt_case_free(c);
        tt_book_free(rules);
    }
}

/* Written in two units, one limit is one limit: the numbers a book leads to are those of the book
 * that says it in one. */
static void one_limit_in_two_units_is_one(void **state)
{
    (void)state;
    static written w;
    uint64_t random = 31;
    for (int n = 0; n < 300; n++) {
        double tenths = 1 + luck_below(&random, 5000), chances[2][CAUSES + 1];
        for (int in_feet = 0; in_feet < 2; in_feet++) {
            w.length = 0;
            put(&w, "book:\n  title: T\n  roles: [helper]\nquestions:\n");
            put_reading(&w, "r", 1, 0.9);
            put(&w,
                "symptoms:\n  s:\n    text: S\n    when: {r: below %.1f ft}\n    shown-by: {c0: "
                "often, c1: seldom}\n",
                tenths / 10);
            if (in_feet)
                put(&w,
                    "  t:\n    text: T\n    when: {r: at least %.1f ft}\n    shown-by: {c1: "
                    "usually, c2: often}\n",
                    tenths / 10);
            else
                put(&w,
                    "  t:\n    text: T\n    when: {r: at least %.5f m}\n    shown-by: {c1: "
                    "usually, c2: often}\n",
                    tenths / 10 * 0.3048);
            put_rest(&w);
            tt_book *rules;
            tt_case *c = begin(&rules, &w);
            give(rules, c, "r", tenths / 10 * 0.3048 * 2, 1);
            chances_of(c, chances[in_feet]);
            tt_case_free(c);
            tt_book_free(rules);
        }
        for (int i = 0; i <= CAUSES; i++) assert_true(fabs(chances[0][i] - chances[1][i]) <= CLOSE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_quantity_counts_as_its_value_would),
        cmocka_unit_test(asking_is_worth_what_the_posteriors_say),
        cmocka_unit_test(a_reading_at_a_limit_is_at_it_in_every_unit),
        cmocka_unit_test(one_limit_in_two_units_is_one),
    };
    return cmocka_run_group_tests_name("quantities and a twin", tests, NULL, NULL);
}
