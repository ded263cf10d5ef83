/* A gate question that is answered by a number: it opens by a number that is safe, and by nothing
 * else that is said; words of danger beside a safe number keep it shut. */
#include <string.h>

#include "ear_kit.h"
#include "testing.h"

static const char yaml[] =
    "book: {title: Test, edition: 1, roles: [hand]}\n"
    "questions:\n"
    "  gauge:\n    ask: What does the gauge of the tank read?\n    reading: pressure\n"
    "    unit: psi\n    plausible: 0 to 100 psi\n    safe: below 20 psi\n"
    "  inside:\n    ask: How many people are in the tank?\n    count: people\n"
    "    plausible: 0 to 10\n    safe: at most 0\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad}\n"
    "symptoms:\n  bad-look:\n    text: It looks bad\n    when: {look: bad}\n"
    "    shown-by: {wear: often}\n"
    "causes:\n  wear: {text: Worn}\n";

static const struct said {
    const char *question, *words;
    gate_kind kind;
    double number;
} all[] = {
    {"gauge", "12 psi", GATE_SAFE, 12},
    {"gauge", "12", GATE_SAFE, 12},
    {"gauge", "0 psi", GATE_SAFE, 0},
    {"gauge", "1 bar", GATE_SAFE, 14.503773773},
    {"gauge", "20 psi", GATE_DANGER, 20},
    {"gauge", "2 bar", GATE_DANGER, 29.007547546},
    {"gauge", "90", GATE_DANGER, 90},
    {"gauge", "12 psi and there is smoke", GATE_DANGER, -1},
    {"gauge", "12 kg", GATE_NOTHING, -1},
    {"gauge", "nothing", GATE_NOTHING, -1},
    {"gauge", "no", GATE_NOTHING, -1},
    {"gauge", "it is low", GATE_NOTHING, -1},
    {"gauge", "a man is stuck in the brush", GATE_DANGER, -1},
    {"gauge", "there is smoke", GATE_DANGER, -1},
    {"gauge", "", GATE_NOTHING, -1},
    {"inside", "0", GATE_SAFE, 0},
    {"inside", "1", GATE_DANGER, 1},
    {"inside", "nobody", GATE_NOTHING, -1},
    {"inside", "he is not moving", GATE_DANGER, -1},
};

static void only_a_safe_number_opens_it(void **state)
{
    (void)state;
    ear_kit e = ear_new(yaml);
    unsigned wrong = 0;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const struct said *s = &all[i];
        const gate_heard heard =
            listen_gate(e.l, e.keep, book_question(e.book, str_of(s->question)), str_of(s->words));
        const double off = heard.number - s->number;
        const bool same_number = s->number < 0 || (off < 1e-6 && off > -1e-6);
        if (heard.kind == s->kind && same_number) continue;
        print_error("'%s' to %s: %d, %.9g\n", s->words, s->question, (int)heard.kind, heard.number);
        wrong++;
    }
    assert_int_equal(wrong, 0);
    ear_free(&e);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(only_a_safe_number_opens_it)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
