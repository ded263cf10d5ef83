/* Which of several things is spoken of, by features: evidence for and against. */
#include <math.h>

#include "listen/word_model.h"
#include "luck.h"
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

/* ---- the same, phrase by phrase ---- */

enum { KINDS = 6, PHRASES = 40, WORDS = 8, MOST = 5 };

typedef struct learned_phrases { /* each of weight 1 */
    feature items[PHRASES][MOST];
    uint32_t count[PHRASES], class[PHRASES];
    double of_class[KINDS];
} learned_phrases;

static bool in_row(const feature *items, uint32_t count, feature_id id, bool denied)
{
    for (uint32_t i = 0; i < count; i++)
        if (items[i].id == id && items[i].denied == denied) return true;
    return false;
}

static double count_in(const learned_phrases *p, uint32_t class, feature_id id, bool denied)
{
    double count = 0;
    for (uint32_t i = 0; i < PHRASES; i++)
        count += p->class[i] == class && in_row(p->items[i], p->count[i], id, denied);
    return count;
}

/* How often it stands in a phrase of a class taken at random; 0: in none. */
static double of_all(const learned_phrases *p, feature_id id, bool denied)
{
    double sum = 0;
    for (uint32_t class = 0; class < KINDS; class ++)
        if (p->of_class[class] > 0) sum += count_in(p, class, id, denied) / p->of_class[class];
    return sum / KINDS;
}

static double told_for(const learned_phrases *p, uint32_t class, const feature *f)
{
    const double all = of_all(p, f->id, f->denied), other = of_all(p, f->id, !f->denied);
    const double mean = all > 0 ? all : other;
    const double count = count_in(p, class, f->id, all > 0 ? f->denied : !f->denied);
    const double tells = mean > 0 ? log((count + mean) / (p->of_class[class] + 1) / mean) : 0;
    if (all > 0) return f->weight * fmax(tells, -0.17 * log(1.0 + KINDS));
    return f->denied && count > 0 ? -f->weight * fmax(tells, 0) : 0;
}

static double missed_by(const learned_phrases *p, uint32_t class, const features *f)
{
    double most = 0;
    for (feature_id id = 0; id < WORDS; id++) {
        const double often =
            p->of_class[class] > 0 ? count_in(p, class, id, false) / p->of_class[class] : 0;
        if (often < 0.7 || in_row(f->items, f->count, id, false) ||
            in_row(f->items, f->count, id, true))
            continue;
        most = fmin(most, log(1 - often + 0.2));
    }
    return 0.35 * log(1.0 + KINDS) * most;
}

static double worth_of(const learned_phrases *p, const feature *items, uint32_t count,
                       const feature *only, uint32_t only_count)
{
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) {
        const double all = of_all(p, items[i].id, items[i].denied);
        if (in_row(items, i, items[i].id, items[i].denied) || items[i].weight < 1) continue;
        if (only != NULL && !in_row(only, only_count, items[i].id, items[i].denied)) continue;
        sum += log(all > 0 ? 1 / all : KINDS);
    }
    return sum;
}

static double likest(const learned_phrases *p, uint32_t class, const features *f,
                     uint32_t strangers)
{
    double most = 0;
    for (uint32_t i = 0; i < PHRASES; i++) {
        if (p->class[i] != class) continue;
        const double common = worth_of(p, f->items, f->count, p->items[i], p->count[i]),
                     all = worth_of(p, f->items, f->count, NULL, 0) + strangers * log(KINDS) +
                           worth_of(p, p->items[i], p->count[i], NULL, 0) - common;
        if (all > 0) most = fmax(most, common / all);
    }
    return log(1.0 + KINDS) * most * most;
}

static uint32_t draw_row(uint64_t *luck, feature *items, bool weaker)
{
    const uint32_t count = 1 + luck_below(luck, MOST);
    for (uint32_t i = 0; i < count; i++)
        items[i] = (feature){luck_below(luck, WORDS), luck_below(luck, 4) == 0,
                             weaker && luck_below(luck, 3) == 0 ? 0.4F : 1.0F, i, i + 1};
    return count;
}

static void each_score_is_that_of_all_phrases(void **state)
{
    (void)state;
    arena *a = test_arena();
    static learned_phrases p;
    static const double none[KINDS] = {0};
    uint64_t luck = 11;
    model_draft *d = model_draft_new(a, KINDS);
    for (uint32_t i = 0; i < PHRASES; i++) {
        p.class[i] = luck_below(&luck, KINDS - 1); /* of the last nothing is learned */
        p.count[i] = draw_row(&luck, p.items[i], false);
        p.of_class[p.class[i]]++;
        const features f = of(p.items[i], p.count[i]);
        model_draft_learn(d, p.class[i], &f, 1);
    }
    const word_model m = model_draft_done(d, none);
    for (uint32_t round = 0; round < 300; round++) {
        feature items[MOST];
        const features f = of(items, draw_row(&luck, items, true));
        const uint32_t strangers = luck_below(&luck, 3);
        double score[KINDS];
        word_model_score(&m, a, &f, strangers, score);
        for (uint32_t class = 0; class < KINDS; class ++) {
            double is = missed_by(&p, class, &f) + likest(&p, class, &f, strangers);
            for (uint32_t i = 0; i < f.count; i++)
                if (!in_row(items, i, items[i].id, items[i].denied))
                    is += told_for(&p, class, &items[i]);
            if (fabs(is - score[class]) > 1e-9)
                fail_msg("round %u, class %u: %g, not %g", round, class, score[class], is);
        }
    }
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
        cmocka_unit_test(each_score_is_that_of_all_phrases),
    };
    return cmocka_run_group_tests_name("word_model", tests, NULL, NULL);
}
