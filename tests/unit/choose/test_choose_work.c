/* What a decision does grows with the causes and fixes there are, not with their square: each of
 * these choices was once square in something. */
#include "testing.h"

#include <math.h>

#include "choose/choose.h"
#include "work.h"

/* For four times as much it is four times the work; if it grew with the square, sixteen times. */
enum { PART = 500, TIMES = 4, MOST_TIMES = 7, CURED_BY_ONE = 10 };

typedef struct made {
    arena *a;
    choice_input in;
    fix_option *fixes;
    double *weights;
} made;

static void add_fix(made *m, uint32_t first, uint32_t count)
{
    net_rate *cures = ARENA_ARRAY(m->a, net_rate, count);
    for (uint32_t i = 0; i < count; i++) cures[i] = (net_rate){first + i, 0.9};
    m->fixes[m->in.fix_count] = (fix_option){.name = str_printf(m->a, "f%u", m->in.fix_count),
                                             .minutes = 200,
                                             .level = RISK_LOW,
                                             .cures = cures,
                                             .cure_count = count,
                                             .open = true,
                                             .place = NO_PLACE,
                                             .set_up = NO_SET_UP};
    m->in.fix_count++;
}

static void one_each(made *m)
{
    for (uint32_t c = 0; c < m->in.cause_count; c++) add_fix(m, c, 1);
}

static void one_for_several(made *m)
{
    for (uint32_t c = 0; c < m->in.cause_count; c += CURED_BY_ONE) add_fix(m, c, CURED_BY_ONE);
}

static void two_by_two(made *m)
{
    one_each(m);
    for (uint32_t f = 1; f < m->in.fix_count; f += 2) {
        uint32_t *first = ARENA_NEW(m->a, uint32_t);
        *first = f - 1;
        m->fixes[f].after = first;
        m->fixes[f].after_count = 1;
    }
}

static void each_with_a_set_up(made *m)
{
    one_each(m);
    for (uint32_t f = 0; f < m->in.fix_count; f++) {
        m->fixes[f].set_up = 1 + f;
        m->fixes[f].set_up_minutes = 10;
    }
}

/* A question that tells half of the causes from the others, so dear that knowing all would not be
 * worth it, and yet not so dear that nobody would have to look at each cause for it. */
static void add_question(made *m)
{
    static const double even[] = {0.5, 0.5};
    const uint32_t n = m->in.cause_count;
    prediction *seen = ARENA_NEW(m->a, prediction);
    question_option *q = ARENA_NEW(m->a, question_option);
    uint32_t *listed = ARENA_ARRAY(m->a, uint32_t, n);
    double *rows = ARENA_ARRAY(m->a, double, 2 * (size_t)n);
    for (uint32_t c = 0; c < n; c++) {
        listed[c] = c;
        rows[2 * c] = c % 2 == 0 ? 0.9 : 0.1;
        rows[2 * c + 1] = 1 - rows[2 * c];
    }
    *seen = (prediction){.states = 2,
                         .base = even,
                         .other = even,
                         .listed_count = n,
                         .listed = listed,
                         .rows = rows};
    *q = (question_option){.name = STR("q"), .seen = seen, .place = NO_PLACE};
    const double bits = prediction_gain(seen, m->weights, n, NULL), half = log2(n) / 2;
    q->minutes = bits * 100 / half;
    m->in.questions = q;
    m->in.question_count = 1;
}

typedef void (*maker)(made *m);

static uint64_t work_of(maker make, uint32_t n)
{
    arena *a = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    made m = {.a = a, .in = {.cause_count = n, .rules = choice_rules_default}};
    m.in.fixes = m.fixes = ARENA_ARRAY(a, fix_option, n);
    m.weights = ARENA_ARRAY(a, double, (size_t)n + 1);
    for (uint32_t c = 0; c < n; c++) m.weights[1 + c] = 1.0 / n;
    make(&m);
    add_question(&m);
    ranked_fix *order = ARENA_ARRAY(a, ranked_fix, n);
    const uint64_t before = work_done();
    choose_order(&m.in, scratch, m.weights, order);
    const choice c = choose_step(&m.in, scratch, m.weights);
    const uint64_t work = work_done() - before;
    assert_int_equal(c.step, STEP_CALL);
    assert_int_equal(order[0].standing, FIX_NOT_YET);
    arena_free(scratch);
    arena_free(a);
    return work;
}

static void work_grows_with_causes_and_fixes(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        maker make;
    } all[] = {
        {"a fix for each cause", one_each},
        {"a fix for several causes", one_for_several},
        {"fixes two by two", two_by_two},
        {"each with a set-up", each_with_a_set_up},
    };
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const uint64_t part = work_of(all[i].make, PART),
                       whole = work_of(all[i].make, TIMES * PART);
        assert_true(part > PART);
        if (whole > MOST_TIMES * part)
            fail_msg("%s: %llu steps, and %llu for %d times as much", all[i].name,
                     (unsigned long long)part, (unsigned long long)whole, TIMES);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(work_grows_with_causes_and_fixes)};
    return cmocka_run_group_tests_name("choose work", tests, NULL, NULL);
}
