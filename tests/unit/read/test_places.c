/* Where one stands, how far it is, and where a complaint is seen. */
#include "read_kit.h"

#define HEAD "book:\n  title: T\n  roles: [helper]\n  walk: 4 min\n"
#define PLACES \
    "places:\n  yard:\n    text: the yard\n    walk: {attic: 1.5 h, cellar: 30 s}\n" \
    "  attic:\n    text: the attic\n  cellar:\n    text: the cellar\n"
#define QUESTIONS \
    "questions:\n" \
    "  drip:\n    ask: Does it drip?\n    place: cellar\n" \
    "  hum:\n    ask: Does it hum?\n    place: cellar\n" \
    "  glow:\n    ask: Does it glow?\n    place: attic\n" \
    "  smell:\n    ask: Does it smell?\n" \
    "  old:\n    ask: Is it old?\n    about: the site\n    place: attic\n" \
    "  flow:\n    ask: Flow?\n    reading: flow\n    unit: gpm\n    place: cellar\n" \
    "quantities:\n  twice:\n    text: Twice\n    formula: 2 * flow\n    unit: gpm\n"
#define SYMPTOM(name, when) \
    "  " name ":\n    text: S\n    when: {" when "}\n    shown-by: {worn: often}\n"
#define REST \
    "causes:\n  worn:\n    text: Worn\n" \
    "fixes:\n  mend:\n    text: Mend\n    role: helper\n    place: yard\n    cures: {worn: " \
    "usually}\n" \
    "    harm: none\n    put-back: not needed\n" \
    "  swap:\n    text: Swap\n    role: helper\n    cures: {worn: usually}\n" \
    "    harm: none\n    put-back: not needed\n"
enum { ATTIC, CELLAR, YARD }; /* by name */

static void test_places_are_known_by_name_and_as_written(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, HEAD PLACES QUESTIONS REST);
    assert_non_null(b);
    assert_int_equal(b->place_count, 3);
    assert_text(b->places[ATTIC].id.name, "attic");
    assert_text(texts_for(&b->places[YARD].text, STR("en")), "the yard");
    assert_int_equal(b->places[YARD].before, 0);
    assert_int_equal(b->places[ATTIC].before, 1);
    assert_int_equal(b->places[CELLAR].before, 2);
    assert_int_equal(b->questions[book_question(b, STR("drip"))].place, CELLAR);
    assert_int_equal(b->questions[book_question(b, STR("smell"))].place, NO_ID);
    assert_int_equal(b->questions[b->our_gate].place, NO_ID);
    assert_int_equal(b->fixes[book_fix(b, STR("mend"))].place, YARD);
    assert_int_equal(b->fixes[book_fix(b, STR("swap"))].place, NO_ID);
    kit_end(&k);
}

static void assert_walk(const book *b, uint32_t from, uint32_t to, double minutes)
{
    assert_near(book_walk(b, from, to), minutes);
}

static void test_a_walk_is_as_long_both_ways(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, HEAD PLACES QUESTIONS REST);
    assert_walk(b, YARD, ATTIC, 90);
    assert_walk(b, ATTIC, YARD, 90);
    assert_walk(b, CELLAR, YARD, 0.5);
    assert_walk(b, CELLAR, ATTIC, 4);
    assert_walk(b, ATTIC, ATTIC, 0);
    kit_end(&k);
}

static void test_a_symptom_is_seen_where_its_questions_are_answered(void **state)
{
    static const struct {
        const char *name;
        uint32_t where;
    } seen[] = {{"both-cellar", CELLAR}, {"two-places", NO_ID}, {"with-none", ATTIC},
                {"nowhere", NO_ID},      {"with-fact", CELLAR}, {"reckoned", CELLAR}};
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, HEAD PLACES QUESTIONS REST "symptoms:\n" SYMPTOM("both-cellar", "drip: yes, hum: no")
                SYMPTOM("two-places", "any: [{drip: yes}, {glow: yes}]")
                    SYMPTOM("with-none", "smell: yes, glow: yes") SYMPTOM("nowhere", "smell: no")
                        SYMPTOM("with-fact", "old: yes, hum: yes")
                            SYMPTOM("reckoned", "twice: above 3 gpm"));
    if (b == NULL) fail_msg("%s", kit_said(&k));
    for (size_t i = 0; i < sizeof seen / sizeof *seen; i++)
        assert_int_equal(book_symptom_place(b, book_symptom(b, str_of(seen[i].name))),
                         seen[i].where);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places_are_known_by_name_and_as_written),
        cmocka_unit_test(test_a_walk_is_as_long_both_ways),
        cmocka_unit_test(test_a_symptom_is_seen_where_its_questions_are_answered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
