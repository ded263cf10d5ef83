/* Which complaints are meant: other words, negation, slips, several in one breath, and what is
 * none. */
#include "ear_kit.h"
#include "test_sources.h"
#include "testing.h"

static const char yaml[] =
    "book:\n  title: Test\n  edition: 1\n  roles: [hand]\n"
    "words-for:\n"
    "  pump: {en: [pump, engine], es: [bomba]}\n"
    "  noise: {en: [rattle, noisy, makes noise], es: [ruido, truena]}\n"
    "  dead: {en: [dead, does not start, no sign of life], es: [muerta, no arranca]}\n"
    "  radio: {en: [radio, wireless], es: [radio]}\n"
    "questions:\n"
    "  state:\n    ask: How is the pump?\n    answers:\n      loud: It rattles\n      silent: It "
    "stands still\n      fine: It runs quietly\n    usual: fine\n"
    "  drop:\n    ask: Is the floor dry?\n    usual: yes\n"
    "symptoms:\n"
    "  rattles:\n    text: The pump rattles\n    when: {state: loud}\n    heard: [pump rattles, "
    "pump is noisy, '/\\bclonk\\b/']\n"
    "    shown-by: {loose: 90 %}\n    otherwise: 1 %\n"
    "  stands:\n    text: The pump stands still\n    when: {state: silent}\n    heard: [pump is "
    "dead, pump stands, nothing turns]\n"
    "    shown-by: {worn: 90 %}\n    otherwise: 1 %\n"
    "  wet:\n    text: The floor is wet\n    when: {drop: no}\n    heard: [wet floor, water on the "
    "floor, floor is not dry]\n"
    "    shown-by: {seal: 90 %}\n    otherwise: 1 %\n"
    "causes:\n"
    "  loose:\n    text: A bolt is loose\n    how-often: common\n    part: p\n"
    "  worn:\n    text: The motor is worn\n    how-often: common\n    part: p\n"
    "  seal:\n    text: The seal is worn\n    how-often: common\n    part: p\n"
    "fixes:\n"
    "  renew:\n    text: Renew it\n    cures: {loose: 90 %, worn: 90 %, seal: 90 %}\n    takes: "
    "5 min\n    role: hand\n    harm: none\n"
    "    put-back: not needed\n";

static ear_kit f;

static int set_up(void **state)
{
    (void)state;
    f = ear_new(yaml);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    ear_free(&f);
    return 0;
}

static complaints_heard hear(const char *said)
{
    return listen_complaints(f.l, f.keep, str_of(said));
}

static str first_of(const complaint_heard *h)
{
    return f.book->symptoms[h->ranked[0].symptom].id.name;
}

static void assert_one(const char *said, const char *id)
{
    complaints_heard c = hear(said);
    if (c.count != 1) print_message("%s\n", said);
    assert_int_equal(c.count, 1);
    assert_str(first_of(&c.items[0]), id);
    assert_int_equal(c.items[0].kind, COMPLAINT_CLEAR);
}

static void phrases_of_the_book_are_understood(void **state)
{
    (void)state;
    assert_one("pump rattles", "rattles");
    assert_one("the pump is dead!", "stands");
    assert_one("wet floor", "wet");
}

static void other_words_are_understood(void **state)
{
    (void)state;
    assert_one("la bomba hace ruido", "rattles");
    assert_one("engine gives no sign of life", "stands");
    assert_one("it was rattling again", "rattles");
    assert_one("pmup ratles", "rattles");
    assert_one("clonk clonk", "rattles");
}

static void several_in_one_breath(void **state)
{
    (void)state;
    complaints_heard c = hear("the pump rattles and there is water on the floor");
    assert_int_equal(c.count, 2);
    assert_str(first_of(&c.items[0]), "rattles");
    assert_str(first_of(&c.items[1]), "wet");
    assert_true(c.items[0].to <= c.items[1].from);
}

static void what_is_denied_is_not_meant(void **state)
{
    (void)state;
    complaints_heard c = hear("the pump is not dead");
    for (uint32_t i = 0; i < c.count; i++) assert_false(str_is(first_of(&c.items[i]), "stands"));
    assert_one("floor is not dry", "wet");
    assert_int_equal(hear("pump is fine, all good").count, 0);
}

static void what_is_about_something_else_is_none(void **state)
{
    (void)state;
    assert_int_equal(hear("hello").count, 0);
    assert_int_equal(hear("").count, 0);
    assert_int_equal(hear("the radio is dead").count, 0);
    assert_int_equal(hear("when does the mechanic come").count, 0);
}

static void a_posterior_over_all(void **state)
{
    (void)state;
    complaints_heard c = hear("the pump");
    if (c.count > 0) assert_int_equal(c.items[0].kind, COMPLAINT_CLOSE);
    c = hear("pump is noisy");
    double sum = 0;
    for (uint32_t i = 0; i < c.items[0].count; i++) {
        sum += c.items[0].ranked[i].posterior;
        if (i > 0)
            assert_true(c.items[0].ranked[i].posterior <= c.items[0].ranked[i - 1].posterior);
    }
    assert_int_equal(c.items[0].count, 3);
    assert_true(sum > 1 - 1e-9 && sum < 1 + 1e-9);
    assert_true(c.items[0].ranked[0].evidence > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(phrases_of_the_book_are_understood),
        cmocka_unit_test(other_words_are_understood),
        cmocka_unit_test(several_in_one_breath),
        cmocka_unit_test(what_is_denied_is_not_meant),
        cmocka_unit_test(what_is_about_something_else_is_none),
        cmocka_unit_test(a_posterior_over_all),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
