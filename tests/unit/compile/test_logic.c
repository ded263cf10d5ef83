/* What logic_build refuses, and in which words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "rule_kit.h"

static const str no_names[EXPR_STATES_MAX];

static void assert_text(str got, const char *wanted)
{
    assert_string_equal(got.p, wanted);
    assert_int_equal(got.n, strlen(wanted));
}

static uint32_t note_count(const fault *f)
{
    uint32_t count = 0;
    for (const fault_note *n = f->notes; n != NULL; n = n->next) count++;
    return count;
}

static const fault_note *note_of(const fault *f, uint32_t n)
{
    const fault_note *note = f->notes;
    while (n-- > 0 && note != NULL) note = note->next;
    assert_non_null(note);
    return note;
}

static bool same_place(span a, span b)
{
    return a.file == b.file && a.start == b.start && a.end == b.end;
}

static void nothing_is_fine(void **state)
{
    (void)state;
    rule_kit k = kit_new(4);
    const logic *l = kit_build(&k);
    assert_non_null(l);
    assert_int_equal(kit_faults(&k), 0);
    assert_int_equal(logic_source(l)->atom_count, 0);
    assert_non_null(wm_new(k.keep, l));
    kit_free(&k);
}

/* "a: not b. b: not a." has two readings. */
static void two_that_exclude_each_other(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t a = kit_atom(&k, "rule a"), b = kit_atom(&k, "rule b");
    const expr *to_b = kit_needs(&k, b), *to_a = kit_needs(&k, a);
    kit_body(&k, a, kit_not(&k, to_b));
    kit_body(&k, b, kit_not(&k, to_a));
    assert_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 1);
    const fault *f = kit_fault(&k, 0);
    assert_string_equal(fault_id(f->code), "T601");
    assert_text(f->text,
                "\"rule a\" depends on its own opposite: \"rule a\" needs \"rule b\" not to hold; "
                "\"rule b\" needs \"rule a\" not to hold.");
    assert_true(same_place(f->at, to_b->at));
    assert_int_equal(note_count(f), 2);
    assert_true(same_place(note_of(f, 1)->at, to_a->at));
    assert_text(note_of(f, 1)->text, "\"rule b\" needs \"rule a\" not to hold");
    assert_true(f->help.n > 0);
    kit_free(&k);
}

/* "a: not a." has none. */
static void one_that_excludes_itself(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t a = kit_atom(&k, "rule a");
    kit_body(&k, a, kit_not(&k, kit_needs(&k, a)));
    assert_null(kit_build(&k));
    assert_text(kit_fault(&k, 0)->text,
                "\"rule a\" depends on its own opposite: \"rule a\" needs \"rule a\" not to hold.");
    kit_free(&k);
}

static void the_whole_way_round_is_told(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t f = kit_finding(&k, "valve", 2);
    uint32_t a = kit_atom(&k, "rule a"), wet = kit_atom(&k, "wet-line is yes"),
             b = kit_atom(&k, "rule b");
    kit_body(&k, a, kit_all(&k, kit_is(&k, f, 1), kit_not(&k, kit_needs(&k, wet)), NULL));
    kit_body(&k, wet, kit_needs(&k, b));
    kit_body(&k, b, kit_at_least(&k, 1, kit_is(&k, f, 2), kit_needs(&k, a), NULL));
    assert_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 1);
    assert_text(
        kit_fault(&k, 0)->text,
        "\"rule a\" depends on its own opposite: \"rule a\" needs \"wet-line is yes\" not to hold; "
        "\"wet-line is yes\" needs \"rule b\"; \"rule b\" needs \"rule a\".");
    assert_int_equal(note_count(kit_fault(&k, 0)), 3);
    kit_free(&k);
}

/* A loop is told once, a second one beside it as well. */
static void each_loop_once(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t a = kit_atom(&k, "a"), b = kit_atom(&k, "b"), c = kit_atom(&k, "c"),
             d = kit_atom(&k, "d");
    kit_body(&k, a, kit_not(&k, kit_needs(&k, b)));
    kit_body(&k, b, kit_not(&k, kit_needs(&k, a)));
    kit_body(&k, c, kit_not(&k, kit_needs(&k, d)));
    kit_body(&k, d, kit_all(&k, kit_needs(&k, c), kit_needs(&k, a), NULL));
    assert_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 2);
    kit_free(&k);
}

static void long_way(rule_kit *k, uint32_t length)
{
    char name[24];
    for (uint32_t i = 0; i < length; i++) {
        snprintf(name, sizeof name, "r%u", (unsigned)i);
        kit_atom(k, name);
    }
    for (uint32_t i = 0; i < length; i++) {
        const expr *next = kit_needs(k, (i + 1) % length);
        kit_body(k, i, i == 0 ? kit_not(k, next) : next);
    }
}

/* A very long way round neither overflows the stack nor floods the reader. */
static void a_long_loop(void **state)
{
    (void)state;
    rule_kit k = kit_new(100 * 1000);
    long_way(&k, 100 * 1000);
    assert_null(kit_build(&k));
    const fault *f = kit_fault(&k, 0);
    assert_int_equal(note_count(f), 24);
    assert_non_null(
        strstr(f->text.p, "; and so on over 99976 steps; \"r99988\" needs \"r99989\"; "));
    assert_non_null(strstr(f->text.p, "\"r99999\" needs \"r0\"."));
    kit_free(&k);
}

static void a_loop_of_24_is_told_whole(void **state)
{
    (void)state;
    rule_kit k = kit_new(24);
    long_way(&k, 24);
    assert_null(kit_build(&k));
    assert_null(strstr(kit_fault(&k, 0)->text.p, "and so on"));
    assert_int_equal(note_count(kit_fault(&k, 0)), 24);
    kit_free(&k);
}

/* Not (not a) is a, so this loop goes through no negation. */
static void two_negations_cancel(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t f = kit_finding(&k, "valve", 2), a = kit_atom(&k, "a"), b = kit_atom(&k, "b");
    kit_body(&k, a,
             kit_not(&k, kit_all(&k, kit_not(&k, kit_needs(&k, b)), kit_is(&k, f, 1), NULL)));
    kit_body(&k, b, kit_needs(&k, a));
    assert_non_null(kit_build(&k));
    kit_free(&k);
}

/* ---- contradictions ---- */

typedef struct clash {
    rule_kit k;
    uint32_t air, look, yes, no;
} clash;

static clash new_clash(void)
{
    clash c = {.k = kit_new(64)};
    c.air = kit_finding(&c.k, "pump-air", 3);
    c.look = kit_finding(&c.k, "foam-look", 2);
    c.yes = kit_atom(&c.k, "wet-line is yes");
    c.no = kit_atom(&c.k, "wet-line is no");
    const uint32_t values[2] = {c.yes, c.no};
    kit_group(&c.k, "wet-line", values, 2);
    return c;
}

static void both_values_are_told_with_their_chains(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t dry = kit_atom(&c.k, "rule dry-air"), stiff = kit_atom(&c.k, "symptom stiff");
    uint32_t carrier = kit_body(&c.k, c.yes, kit_needs(&c.k, dry));
    uint32_t rule =
        kit_body(&c.k, dry, kit_all(&c.k, kit_is(&c.k, c.air, 1), kit_needs(&c.k, stiff), NULL));
    uint32_t shown = kit_body(&c.k, stiff, kit_is(&c.k, c.look, 2));
    uint32_t other = kit_body(&c.k, c.no, kit_is(&c.k, c.air, 3));
    assert_null(kit_build(&c.k));
    assert_int_equal(kit_faults(&c.k), 1);
    const fault *f = kit_fault(&c.k, 0);
    assert_string_equal(fault_id(f->code), "T602");
    assert_text(f->text, "\"wet-line is yes\" and \"wet-line is no\" both hold when pump-air is a "
                         "and foam-look is b, "
                         "but wet-line can have one value only.");
    assert_true(same_place(f->at, c.k.bodies[carrier].at));
    assert_int_equal(note_count(f), 4);
    assert_text(note_of(f, 0)->text, "\"symptom stiff\" holds: foam-look is b");
    assert_true(same_place(note_of(f, 0)->at, c.k.bodies[shown].at));
    assert_text(note_of(f, 1)->text,
                "\"rule dry-air\" holds: pump-air is a and \"symptom stiff\" holds");
    assert_true(same_place(note_of(f, 1)->at, c.k.bodies[rule].at));
    assert_text(note_of(f, 2)->text, "\"wet-line is yes\" holds: \"rule dry-air\" holds");
    assert_text(note_of(f, 3)->text, "\"wet-line is no\" holds: pump-air is a");
    assert_true(same_place(note_of(f, 3)->at, c.k.bodies[other].at));
    kit_free(&c.k);
}

static void answers_apart_are_no_clash(void **state)
{
    (void)state;
    clash c = new_clash();
    kit_body(&c.k, c.yes, kit_is(&c.k, c.air, 1));
    kit_body(&c.k, c.no, kit_is(&c.k, c.air, 6));
    assert_non_null(kit_build(&c.k));
    assert_int_equal(kit_faults(&c.k), 0);
    kit_free(&c.k);
}

/* Apart only through a rule that asks for the other's absence. */
static void apart_through_not(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t rule = kit_atom(&c.k, "rule soaked");
    kit_body(&c.k, rule, kit_any(&c.k, kit_is(&c.k, c.air, 1), kit_is(&c.k, c.look, 1), NULL));
    kit_body(&c.k, c.yes, kit_needs(&c.k, rule));
    kit_body(&c.k, c.no,
             kit_all(&c.k, kit_not(&c.k, kit_needs(&c.k, rule)), kit_is(&c.k, c.look, 2), NULL));
    assert_non_null(kit_build(&c.k));
    assert_int_equal(kit_faults(&c.k), 0);
    kit_free(&c.k);
}

static void what_does_not_hold_is_told_too(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t rule = kit_atom(&c.k, "rule soaked");
    kit_body(&c.k, rule, kit_is(&c.k, c.look, 1));
    kit_body(&c.k, c.yes, kit_is(&c.k, c.air, 1));
    kit_body(&c.k, c.no, kit_not(&c.k, kit_needs(&c.k, rule)));
    assert_null(kit_build(&c.k));
    const fault *f = kit_fault(&c.k, 0);
    assert_int_equal(note_count(f), 3);
    assert_text(note_of(f, 1)->text, "\"rule soaked\" does not hold: foam-look is b");
    assert_true(same_place(note_of(f, 1)->at, c.k.atoms[rule].at));
    assert_text(note_of(f, 2)->text, "\"wet-line is no\" holds: \"rule soaked\" does not hold");
    kit_free(&c.k);
}

/* "not known" is a possibility of its own, and excludes every answer. */
static void not_known_is_a_choice(void **state)
{
    (void)state;
    clash c = new_clash();
    kit_body(&c.k, c.yes, kit_not(&c.k, kit_known(&c.k, c.air)));
    kit_body(&c.k, c.no, kit_is(&c.k, c.look, 1));
    assert_null(kit_build(&c.k));
    assert_text(kit_fault(&c.k, 0)->text, "\"wet-line is yes\" and \"wet-line is no\" both hold "
                                          "when pump-air is not known and foam-look is a, "
                                          "but wet-line can have one value only.");
    kit_free(&c.k);

    c = new_clash();
    kit_body(&c.k, c.yes, kit_not(&c.k, kit_known(&c.k, c.air)));
    kit_body(&c.k, c.no, kit_is(&c.k, c.air, 3));
    assert_non_null(kit_build(&c.k));
    kit_free(&c.k);
}

/* While air is not known, "air is low" is not false but open, and so is its opposite. */
static void open_is_not_false(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t low = kit_atom(&c.k, "rule low-air");
    kit_body(&c.k, low, kit_is(&c.k, c.air, 1));
    kit_body(&c.k, c.yes, kit_not(&c.k, kit_needs(&c.k, low)));
    kit_body(&c.k, c.no, kit_not(&c.k, kit_known(&c.k, c.air)));
    assert_non_null(kit_build(&c.k));
    assert_int_equal(kit_faults(&c.k), 0);
    kit_free(&c.k);
}

/* What holds unless a rule holds that holds unless another does. */
static void not_upon_not(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t low = kit_atom(&c.k, "rule low-air"), high = kit_atom(&c.k, "rule other-air");
    kit_body(&c.k, low, kit_is(&c.k, c.air, 1));
    kit_body(&c.k, high, kit_not(&c.k, kit_needs(&c.k, low)));
    kit_body(&c.k, c.yes, kit_not(&c.k, kit_needs(&c.k, high)));
    kit_body(&c.k, c.no, kit_is(&c.k, c.air, 3));
    assert_null(kit_build(&c.k));
    assert_text(kit_fault(&c.k, 0)->text,
                "\"wet-line is yes\" and \"wet-line is no\" both hold when pump-air is a, "
                "but wet-line can have one value only.");
    kit_free(&c.k);
}

/* The search tries foam-look before it finds that pump-air decides; the author is not told of it.
 */
static void only_answers_that_matter(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t side = kit_finding(&c.k, "side", 4), first = kit_finding(&c.k, "first", 3);
    kit_body(&c.k, c.yes,
             kit_any(&c.k, kit_all(&c.k, kit_is(&c.k, c.look, 1), kit_is(&c.k, side, 1), NULL),
                     kit_is(&c.k, first, 1), NULL));
    kit_body(&c.k, c.no, kit_all(&c.k, NULL));
    assert_null(kit_build(&c.k));
    assert_text(kit_fault(&c.k, 0)->text,
                "\"wet-line is yes\" and \"wet-line is no\" both hold when first is a, "
                "but wet-line can have one value only.");
    kit_free(&c.k);
}

static void whatever_is_answered(void **state)
{
    (void)state;
    clash c = new_clash();
    kit_body(&c.k, c.yes, kit_all(&c.k, NULL));
    kit_body(&c.k, c.no, kit_is(&c.k, c.air, 7));
    assert_null(kit_build(&c.k));
    assert_text(kit_fault(&c.k, 0)->text,
                "\"wet-line is yes\" and \"wet-line is no\" both hold whatever is answered, "
                "but wet-line can have one value only.");
    kit_free(&c.k);
}

/* A loop that nothing supports from outside never holds, so it clashes with nothing. */
static void unsupported_loops_clash_with_nothing(void **state)
{
    (void)state;
    clash c = new_clash();
    uint32_t a = kit_atom(&c.k, "a"), b = kit_atom(&c.k, "b");
    kit_body(&c.k, a, kit_needs(&c.k, b));
    kit_body(&c.k, b, kit_needs(&c.k, a));
    kit_body(&c.k, c.yes, kit_needs(&c.k, a));
    kit_body(&c.k, c.no, kit_all(&c.k, NULL));
    assert_non_null(kit_build(&c.k));
    uint32_t body = kit_body(&c.k, b, kit_is(&c.k, c.air, 4));
    assert_null(kit_build(&c.k));
    const fault *f = kit_fault(&c.k, 0);
    assert_int_equal(note_count(f), 4);
    assert_true(same_place(note_of(f, 0)->at, c.k.bodies[body].at) ||
                same_place(note_of(f, 1)->at, c.k.bodies[body].at));
    kit_free(&c.k);
}

/* Sixty answers that play together: parity can't be decided by trying, so the search must stop and
 * say so. */
static void the_search_is_bounded(void **state)
{
    (void)state;
    rule_kit k = kit_new(400);
    uint32_t odd = UINT32_MAX, even = UINT32_MAX;
    for (uint32_t i = 0; i < 60; i++) {
        uint32_t f = kit_finding(&k, "switch", 2), next_odd = kit_atom(&k, "odd"),
                 next_even = kit_atom(&k, "even");
        const expr *on = kit_is(&k, f, 1), *off = kit_is(&k, f, 2);
        if (i == 0) {
            kit_body(&k, next_odd, on);
            kit_body(&k, next_even, off);
        } else {
            kit_body(&k, next_odd,
                     kit_any(&k, kit_all(&k, on, kit_needs(&k, even), NULL),
                             kit_all(&k, off, kit_needs(&k, odd), NULL), NULL));
            kit_body(&k, next_even,
                     kit_any(&k, kit_all(&k, on, kit_needs(&k, odd), NULL),
                             kit_all(&k, off, kit_needs(&k, even), NULL), NULL));
        }
        odd = next_odd;
        even = next_even;
    }
    const uint32_t values[2] = {odd, even};
    kit_group(&k, "parity", values, 2);
    assert_non_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 1);
    assert_string_equal(fault_id(kit_fault(&k, 0)->code), "T603");
    assert_int_equal(faults_errors(k.list), 0);
    kit_free(&k);
}

/* Sixty-four values, each for its own answer: two thousand pairs, none in doubt. Then two that
 * meet. */
static void many_values(void **state)
{
    (void)state;
    rule_kit k = kit_new(80);
    uint32_t values[64], f = kit_finding(&k, "code", 64);
    for (uint32_t i = 0; i < 64; i++) {
        values[i] = kit_atom(&k, "value");
        kit_body(&k, values[i], kit_is(&k, f, (state_mask)1 << i));
    }
    kit_group(&k, "meaning", values, 64);
    k.findings[f].state_names = no_names;
    assert_non_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 0);
    kit_body(&k, values[7], kit_is(&k, f, (state_mask)1 << 63));
    assert_null(kit_build(&k));
    assert_int_equal(kit_faults(&k), 1);
    kit_free(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_fine),
        cmocka_unit_test(two_that_exclude_each_other),
        cmocka_unit_test(one_that_excludes_itself),
        cmocka_unit_test(the_whole_way_round_is_told),
        cmocka_unit_test(each_loop_once),
        cmocka_unit_test(a_long_loop),
        cmocka_unit_test(a_loop_of_24_is_told_whole),
        cmocka_unit_test(two_negations_cancel),
        cmocka_unit_test(both_values_are_told_with_their_chains),
        cmocka_unit_test(answers_apart_are_no_clash),
        cmocka_unit_test(apart_through_not),
        cmocka_unit_test(what_does_not_hold_is_told_too),
        cmocka_unit_test(not_known_is_a_choice),
        cmocka_unit_test(open_is_not_false),
        cmocka_unit_test(not_upon_not),
        cmocka_unit_test(only_answers_that_matter),
        cmocka_unit_test(whatever_is_answered),
        cmocka_unit_test(unsupported_loops_clash_with_nothing),
        cmocka_unit_test(the_search_is_bounded),
        cmocka_unit_test(many_values),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
