/* What to tell whoever comes. Parts to bring: the chance that a part is needed is that of its
 * causes, none counted twice. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "asked_book.h"

static const char four_causes[] =
    "book: {title: T, edition: 1, roles: [somebody], not-listed: 5 %}\n"
    "symptoms:\n"
    "  loud:\n"
    "    text: Loud\n"
    "    when: {noise: yes}\n"
    "    shown-by: {a: usually, b: often, c: seldom, d: rarely}\n"
    "  damp:\n"
    "    text: Damp\n"
    "    when: {wet: yes}\n"
    "    shown-by: {a: rarely, b: often, c: usually, d: seldom}\n"
    "causes:\n"
    "  a: {text: A, how-often: common, spare-parts: [Valve, Seal]}\n"
    "  b: {text: B, how-often: common, spare-parts: [Seal]}\n"
    "  c: {text: C, how-often: occasional, spare-parts: [Seal, Hose]}\n"
    "  d: {text: D, how-often: rare}\n"
    "fixes:\n"
    "  mend: {text: Mend, role: somebody, cures: {a: usually, b: sometimes}, harm: none, takes: 5 "
    "min, put-back: not needed}\n"
    "  mend-else: {text: Other, role: somebody, cures: {c: usually, d: usually}, harm: none, "
    "takes: 5 min, put-back: not needed}\n"
    "questions:\n"
    "  noise:\n    ask: Noise?\n"
    "  wet:\n    ask: Wet?\n";

static void assert_same(double a, double b)
{
    if (fabs(a - b) > 1e-12) fail_msg("%.17g is not %.17g", a, b);
}

static double chance_of(const tt_spare *all, uint32_t count, const char *text)
{
    double found = -1;
    for (uint32_t i = 0; i < count; i++) {
        if (strcmp(all[i].text, text) != 0) continue;
        assert_true(found < 0);
        found = all[i].chance;
    }
    return found;
}

static void one_fault_adds_up(void **state)
{
    (void)state;
    asked_book a = asked_new(four_causes);
    asked_answer(&a, "noise", "yes");
    assert_false(asked_look(&a)->pairs_matter);
    const tt_spare *all;
    uint32_t count;
    assert_int_equal(tt_spare_parts(a.c, &all, &count), TT_OK);
    assert_int_equal(count, 3);
    double of_a = asked_chance(&a, "a"), of_b = asked_chance(&a, "b"), of_c = asked_chance(&a, "c");
    assert_true(of_a > 0.1 && of_b > 0.05 && of_c > 0.001);
    assert_same(chance_of(all, count, "Valve"), of_a);
    assert_same(chance_of(all, count, "Hose"), of_c);
    assert_same(chance_of(all, count, "Seal"), of_a + of_b + of_c);
    assert_string_equal(all[0].text, "Seal");
    for (uint32_t i = 1; i < count; i++) assert_true(all[i - 1].chance >= all[i].chance);
    asked_free(&a);
}

/* "Better, but not gone": two faults at once. All pairs are shown here, for there are six. */
static void two_faults_count_once(void **state)
{
    (void)state;
    asked_book a = asked_new(four_causes);
    asked_answer(&a, "noise", "yes");
    asked_answer(&a, "wet", "yes");
    assert_int_equal(tt_fix_tried(a.c, tt_fix_find(a.book, "mend"), TT_BETTER), TT_OK);
    const tt_view *view = asked_look(&a);
    assert_true(view->pairs_matter);
    assert_true(view->two_faults > 0.01);
    assert_int_equal(view->pair_count, 6);
    double of_all = asked_chance(&a, "a") + asked_chance(&a, "b") + asked_chance(&a, "c"),
           twice = 0;
    for (uint32_t i = 0; i < view->pair_count; i++) {
        const tt_pair *pair = &view->pairs[i];
        if (strcmp(pair->first, "d") != 0 && strcmp(pair->second, "d") != 0) twice += pair->chance;
    }
    assert_true(twice > 1e-4);
    const tt_spare *all;
    uint32_t count;
    assert_int_equal(tt_spare_parts(a.c, &all, &count), TT_OK);
    assert_same(chance_of(all, count, "Seal"), of_all - twice);
    asked_free(&a);
}

/* Common at the outset, and less than a tenth of that by now. */
static void what_the_answers_speak_against(void **state)
{
    (void)state;
    asked_book a = asked_new(four_causes);
    const tt_against *all;
    uint32_t count = 7;
    assert_int_equal(tt_spoken_against(a.c, &all, &count), TT_OK);
    assert_int_equal(count, 0);
    double before = asked_chance(&a, "a");
    asked_answer(&a, "wet", "yes");
    asked_answer(&a, "noise", "no");
    assert_int_equal(tt_spoken_against(a.c, &all, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(all[0].name, "a");
    assert_string_equal(all[0].text, "A");
    assert_same(all[0].before, before);
    assert_same(all[0].now, asked_chance(&a, "a"));
    assert_true(all[0].now < 0.1 * before);
    asked_free(&a);
}

static void without_parts_there_are_none(void **state)
{
    (void)state;
    asked_book a =
        asked_new("book: {title: T, edition: 1, roles: [somebody], not-listed: 5 %}\n"
                  "symptoms:\n  loud: {text: Loud, when: {noise: yes}, shown-by: {a: usually}}\n"
                  "causes:\n  a: {text: A, how-often: common}\n"
                  "fixes:\n  mend: {text: M, role: somebody, cures: {a: usually}, harm: none, "
                  "takes: 5 min, put-back: not needed}\n"
                  "questions:\n  noise:\n    ask: Noise?\n");
    const tt_spare *all;
    uint32_t count = 7;
    assert_int_equal(tt_spare_parts(a.c, &all, &count), TT_OK);
    assert_int_equal(count, 0);
    asked_free(&a);
}

static void readings_in_words(void **state)
{
    (void)state;
    asked_book a = asked_new(
        "book: {title: T, edition: 1, roles: [somebody], not-listed: 5 %}\n"
        "symptoms:\n  low: {text: Low, when: {gauge: below 20 psi}, shown-by: {a: usually}}\n"
        "causes:\n  a: {text: A, how-often: common}\n"
        "fixes:\n  mend: {text: M, role: somebody, cures: {a: usually}, harm: none, takes: 5 min, "
        "put-back: not needed}\n"
        "questions:\n  gauge:\n    ask: Gauge?\n    reading: pressure\n    unit: psi\n    "
        "plausible: 0 to 150 psi\n"
        "  noise:\n    ask: Noise?\n");
    const char *words;
    uint32_t gauge = tt_question_find(a.book, "gauge");
    assert_int_equal(tt_reading_text(a.c, gauge, 52, &words), TT_OK);
    assert_string_equal(words, "52 psi");
    assert_int_equal(tt_reading_text(a.c, tt_question_find(a.book, "noise"), 52, &words),
                     TT_FAULTY);
    assert_int_equal(tt_reading_text(a.c, TT_NONE, 52, &words), TT_FAULTY);
    asked_free(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_fault_adds_up),
        cmocka_unit_test(two_faults_count_once),
        cmocka_unit_test(what_the_answers_speak_against),
        cmocka_unit_test(without_parts_there_are_none),
        cmocka_unit_test(readings_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
