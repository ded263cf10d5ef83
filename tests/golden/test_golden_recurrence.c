/* What comes back: factors that recurrence.py worked out in 50 digits; and a site whose troubles
 * are drawn day by day, in which each cause comes as often as its factor says. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "believe/recurrence.h"
#include "choice_twin.h"
#include "luck.h"
#include "testing.h"

enum { CAUSES = 4, CURES = 3 };

static const double share[CAUSES] = {0.5, 0.3, 0.15, 0.05};
static const double usually[CAUSES] = {0.1, 0.1, 0.1, 0.1};
static const uint32_t of_first[] = {2, 3}, of_third[] = {3};
static const uint32_t *const roots[CAUSES] = {of_first, NULL, of_third, NULL};
static const uint32_t root_count[CAUSES] = {2, 0, 1, 0};

typedef struct scenario {
    const char *name;
    double of[CURES][CAUSES], ago[CURES];
    bool came_back[CURES];
    uint32_t cures, calls;
    double days;
} scenario;

static const scenario scenarios[] = {
    {.name = "nothing"},
    {.name = "yesterday", .of = {{0, 1}}, .ago = {1}, .cures = 1, .calls = 1, .days = 5},
    {.name = "long-ago", .of = {{0, 1}}, .ago = {390}, .cures = 1, .calls = 1, .days = 395},
    {.name = "with-roots", .of = {{1}}, .ago = {10}, .cures = 1, .calls = 4, .days = 200},
    {.name = "came-back",
     .of = {{0, 0, 1}},
     .ago = {20},
     .came_back = {true},
     .cures = 1,
     .calls = 2,
     .days = 100},
    {.name = "third-time",
     .of = {{1}, {1}, {1}},
     .ago = {190, 100, 12},
     .cures = 3,
     .calls = 5,
     .days = 210},
    {.name = "something-else",
     .of = {{1}, {0, 1}},
     .ago = {60, 30},
     .cures = 2,
     .calls = 2,
     .days = 70},
    {.name = "not-sure-which",
     .of = {{0.75, 0.25}, {0.5, 0, 0.25}},
     .ago = {40, 15},
     .came_back = {false, true},
     .cures = 2,
     .calls = 3,
     .days = 90},
};

static double *factors_of(arena *keep, const scenario *s)
{
    past_cure *cures = ARENA_ARRAY(keep, past_cure, CURES);
    for (uint32_t i = 0; i < s->cures; i++)
        cures[i] = (past_cure){s->of[i], s->ago[i], s->came_back[i]};
    const recurrence_input in = {.share = share,
                                 .returns = usually,
                                 .cause_count = CAUSES,
                                 .roots = roots,
                                 .root_count = root_count,
                                 .cures = cures,
                                 .cure_count = s->cures,
                                 .calls = s->calls,
                                 .days = s->days};
    return recurrence_factors(keep, &in);
}

static const scenario *scenario_named(const char *name)
{
    for (size_t i = 0; i < sizeof scenarios / sizeof *scenarios; i++)
        if (strcmp(scenarios[i].name, name) == 0) return &scenarios[i];
    fail_msg("no scenario '%s'", name);
    return NULL;
}

static void factors_are_those_worked_out(void **state)
{
    (void)state;
    FILE *golden = fopen(TT_SOURCE_DIR "/tests/golden/data/recurrence.tsv", "r");
    assert_non_null(golden);
    char name[40], number[60];
    unsigned cause, lines = 0;
    for (; fscanf(golden, "%39s %u %59s", name, &cause, number) == 3; lines++) {
        arena *keep = arena_new(NULL, NULL);
        assert_true(cause < CAUSES);
        const double is = factors_of(keep, scenario_named(name))[cause],
                     wanted = strtod(number, NULL);
        if (!(fabs(is - wanted) < 1e-13 * wanted))
            fail_msg("%s, cause %u: %.17g, not %s", name, cause, is, number);
        arena_free(keep);
    }
    assert_int_equal(lines, CAUSES * sizeof scenarios / sizeof *scenarios);
    fclose(golden);
}

/* ---- day by day ---- */

/* The cause of a trouble on this day after one cure of the first cause; CAUSES: none came, or the
 * day was not reached without one. */
static uint32_t drawn_cause(uint64_t *random, double anew, double day)
{
    double first = INFINITY;
    uint32_t cause = CAUSES;
    for (uint32_t c = 0; c < CAUSES; c++) {
        const double waits = day - log1p(-luck_share(random)) / (anew * share[c]);
        if (waits < first) cause = c;
        first = fmin(first, waits);
    }
    if (luck_share(random) < usually[0]) {
        const double waits = -RETURNS_HALF_DAYS * log2(1 - luck_share(random));
        const uint32_t by_root = luck_share(random) < share[2] / (share[2] + share[3]) ? 2 : 3;
        if (waits >= day && waits < first) {
            first = waits;
            cause = luck_share(random) < 0.5 ? 0 : by_root;
        }
    }
    return first < day + 1 ? cause : CAUSES;
}

static void each_comes_as_often_as_its_factor_says(void **state)
{
    (void)state;
    enum { HISTORIES = 2000000 };
    const scenario s = {.of = {{1}},
                        .ago = {10.5},
                        .cures = 1,
                        .calls = 4,
                        .days = 200}; /* the middle of the day */
    arena *keep = arena_new(NULL, NULL);
    const double *factor = factors_of(keep, &s);
    double seen[CAUSES + 1] = {0}, all = 0, sum = 0;
    uint64_t random = 91;
    for (uint32_t i = 0; i < HISTORIES; i++)
        seen[drawn_cause(&random, (s.calls + 1.0) / (s.days + 30), 10)]++;
    for (uint32_t c = 0; c < CAUSES; c++) all += seen[c];
    for (uint32_t c = 0; c < CAUSES; c++) sum += share[c] * factor[c];
    for (uint32_t c = 0; c < CAUSES; c++) {
        const double wanted = share[c] * factor[c] / sum, is = seen[c] / all;
        const double off = sqrt(wanted * (1 - wanted) / all);
        if (!(fabs(is - wanted) < 4 * off))
            fail_msg("cause %u: %g, not %g ± %g", c, is, wanted, off);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_are_those_worked_out),
        cmocka_unit_test(each_comes_as_often_as_its_factor_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
