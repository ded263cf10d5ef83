/* Where there are many causes, what is tried next is looked for at the heavy ones alone. It is what
 * the whole order begins with, made anew after each failure of all fixes that are left. */
#include <math.h>

#include "choose/fix_order.h"
#include "luck.h"
#include "testing.h"

enum { CAUSES = 200, FIXES = 200, CURES = 2, ROUNDS = 200 };

typedef struct many {
    fix_option fixes[FIXES];
    net_rate cures[FIXES][CURES];
    double w[CAUSES + 1];
    choice_input in;
} many;

static void draw_fix(many *m, uint32_t f, uint64_t *random)
{
    fix_option *fix = &m->fixes[f];
    *fix = (fix_option){.name = STR("fix"),
                        .minutes = 1 + luck_below(random, 60),
                        .level = (risk_level)luck_below(random, 3),
                        .cannot_undo = luck_below(random, 9) == 0,
                        .cures = m->cures[f],
                        .cure_count = luck_below(random, CURES + 1),
                        .open = luck_below(random, 5) > 0,
                        .place = NO_PLACE};
    const uint32_t first = luck_below(random, CAUSES - CURES);
    for (uint32_t i = 0; i < CURES; i++)
        m->cures[f][i] = (net_rate){first + i, .5 + .5 * luck_share(random)};
}

/* From even to nearly certain. */
static void draw(many *m, uint64_t *random)
{
    const double power = 1 + luck_below(random, 40);
    double total = 0;
    *m = (many){.in = {.cause_count = CAUSES,
                       .fix_count = FIXES,
                       .rules = choice_rules_default,
                       .here = NO_PLACE}};
    m->in.fixes = m->fixes;
    m->in.rules.soonest = luck_below(random, 4) == 0;
    for (uint32_t h = 0; h <= CAUSES; h++) total += m->w[h] = pow(luck_share(random), power);
    for (uint32_t h = 0; h <= CAUSES; h++) m->w[h] /= total;
    for (uint32_t f = 0; f < FIXES; f++) draw_fix(m, f, random);
}

static uint32_t plain_next(const many *m, arena *scratch, const double *left)
{
    ranked_fix order[FIXES];
    choose_order(&m->in, scratch, left, order);
    return order[0].standing <= FIX_POSSIBLE ? order[0].fix : NO_FIX;
}

static void as_the_order_begins(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    uint64_t random = 17;
    uint32_t tried = 0, runs_of_several = 0;
    for (int round = 0; round < ROUNDS; round++) {
        many m;
        draw(&m, &random);
        const arena_mark before = arena_here(keep);
        fix_course *run = fix_course_own(keep, &m.in);
        assert_true(run->lightest * CAUSES >= 4); /* heavy ones are few */
        for (int again = 0; again < 2; again++) { /* a run leaves nothing behind */
            many now = m;
            now.in.fixes = now.fixes;
            uint32_t here = 0;
            fix_course_begin(run, NULL, m.w);
            for (;; here++) {
                const uint32_t f = fix_course_next(run, fix_course_total(run));
                assert_int_equal(f, plain_next(&now, scratch, run->left));
                assert_true(fix_course_total(run) == weights_total(run->left, CAUSES));
                if (f == NO_FIX) break;
                fix_course_try(run, f);
                now.fixes[f].open = false;
            }
            tried += here;
            runs_of_several += here > 1;
        }
        arena_back_to(keep, before);
    }
    assert_true(tried > ROUNDS && runs_of_several > ROUNDS / 4);
    arena_free(scratch);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_the_order_begins)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
