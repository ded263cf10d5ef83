/* Which of several things is spoken of, by features: evidence for and against. */
#include <math.h>

#include "listen/word_model.h"
#include "test_sources.h"
#include "testing.h"

enum { FOAM, DRY, WET, ROOF, NOISE };     /* features */
enum { TOO_DRY, TOO_WET, LOUD, CLASSES }; /* classes */

static const double prior[CLASSES] = {0, 0, 0};

static features of(const feature *items, uint32_t count)
{
    return (features){.items = items, .count = count};
}
#define SAID(...) \
    of((const feature[]){__VA_ARGS__}, \
       (uint32_t)(sizeof((const feature[]){__VA_ARGS__}) / sizeof(feature)))
#define HAS(id) \
    { \
        id, false, 1.0F, 0, 1 \
    }
#define DENIED(id) \
    { \
        id, true, 1.0F, 0, 1 \
    }

static word_model learned(arena *a)
{
    model_draft *d = model_draft_new(a, CLASSES);
    const features dry = SAID(HAS(FOAM), HAS(DRY)), wet = SAID(HAS(FOAM), HAS(WET)),
                   not_dry = SAID(DENIED(DRY)), loud = SAID(HAS(NOISE)), nothing = of(NULL, 0);
    model_draft_learn(d, TOO_DRY, &dry, 1);
    model_draft_learn(d, TOO_WET, &wet, 1);
    model_draft_learn(d, TOO_WET, &not_dry, 1);
    model_draft_learn(d, LOUD, &loud, 1);
    model_draft_learn(d, LOUD, &nothing, 1); /* teaches nothing */
    return model_draft_done(d, prior);
}

static uint32_t best(arena *a, const word_model *m, features f)
{
    double score[CLASSES];
    uint32_t most = 0;
    word_model_score(m, a, &f, 0, score);
    for (uint32_t i = 1; i < CLASSES; i++)
        if (score[i] > score[most]) most = i;
    return most;
}

static void words_lead_to_what_they_were_said_of(void **state)
{
    (void)state;
    arena *a = test_arena();
    const word_model m = learned(a);
    assert_int_equal(best(a, &m, SAID(HAS(DRY))), TOO_DRY);
    assert_int_equal(best(a, &m, SAID(HAS(FOAM), HAS(WET))), TOO_WET);
    assert_int_equal(best(a, &m, SAID(HAS(NOISE))), LOUD);
    assert_int_equal(best(a, &m, SAID(DENIED(DRY))), TOO_WET);
    arena_free(a);
}

static void nothing_said_is_no_evidence_for_any(void **state)
{
    (void)state;
    arena *a = test_arena();
    const word_model m = learned(a);
    double said[CLASSES], none[CLASSES];
    const features dry = SAID(HAS(DRY)), strange = SAID(HAS(ROOF));
    word_model_score(&m, a, &strange, 0, none);
    for (uint32_t i = 0; i < CLASSES; i++) assert_true(none[i] <= 0);
    word_model_score(&m, a, &dry, 0, said);
    assert_true(said[TOO_DRY] > 0 && said[LOUD] < 0);
    for (uint32_t i = 0; i < CLASSES; i++) assert_true(isfinite(said[i]));
    arena_free(a);
}

static void strangers_weaken_what_is_said(void **state)
{
    (void)state;
    arena *a = test_arena();
    const word_model m = learned(a);
    double alone[CLASSES], among[CLASSES];
    const features dry = SAID(HAS(FOAM), HAS(DRY));
    word_model_score(&m, a, &dry, 0, alone);
    word_model_score(&m, a, &dry, 5, among);
    assert_true(among[TOO_DRY] < alone[TOO_DRY]);
    arena_free(a);
}

static void it_says_what_it_knows(void **state)
{
    (void)state;
    arena *a = test_arena();
    const word_model m = learned(a);
    assert_true(word_model_knows(&m, FOAM));
    assert_false(word_model_knows(&m, ROOF));
    const features both = SAID(HAS(FOAM), {ROOF, false, 1.0F, 1, 2});
    assert_int_equal(word_model_strangers(&m, &both), 1);
    arena_free(a);
}

static void a_heavier_phrase_counts_more(void **state)
{
    (void)state;
    arena *a = test_arena();
    model_draft *d = model_draft_new(a, 2);
    const features x = SAID(HAS(FOAM)), y = SAID(HAS(ROOF));
    double score[2];
    model_draft_learn(d, 0, &x, 3);
    model_draft_learn(d, 0, &y, 1);
    model_draft_learn(d, 1, &x, 1);
    model_draft_learn(d, 1, &y, 3);
    const word_model m = model_draft_done(d, prior);
    word_model_score(&m, a, &x, 0, score);
    assert_true(score[0] > score[1]);
    word_model_score(&m, a, &y, 0, score);
    assert_true(score[1] > score[0]);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_lead_to_what_they_were_said_of),
        cmocka_unit_test(nothing_said_is_no_evidence_for_any),
        cmocka_unit_test(strangers_weaken_what_is_said),
        cmocka_unit_test(it_says_what_it_knows),
        cmocka_unit_test(a_heavier_phrase_counts_more),
    };
    return cmocka_run_group_tests_name("word_model", tests, NULL, NULL);
}
