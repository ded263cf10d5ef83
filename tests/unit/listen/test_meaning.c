/* Words as features: concepts and stems, what is denied, what is strange, what is fine. */
#include "ear_kit.h"
#include "listen/listener.h"
#include "test_sources.h"
#include "testing.h"

static const char yaml[] =
    "book:\n  title: Test\n  edition: 1\n  roles: [hand]\n"
    "words-for:\n"
    "  foam: {en: [foam, suds, no bubbles], es: [espuma]}\n"
    "  dry: {en: [dry, stiff], es: [seca]}\n"
    "questions:\n"
    "  look:\n    ask: How is the nozzle?\n    answers: {good: Good, bad: Leaking}\n    usual: "
    "good\n"
    "symptoms:\n"
    "  bad-look:\n    text: The nozzle leaks\n    when: {look: bad}\n    heard: [nozzle leaks]\n"
    "    shown-by: {wear: 90 %}\n    otherwise: 1 %\n"
    "causes:\n  wear:\n    text: It is worn\n    how-often: common\n    part: p\n"
    "fixes:\n  renew:\n    text: Renew it\n    cures: {wear: 90 %}\n    takes: 5 min\n    role: "
    "hand\n    harm: none\n    put-back: not needed\n";

enum { DRY, FOAM }; /* concepts, by name, as a book has them */

static ear_kit f;
static meaning m;

static int set_up(void **state)
{
    (void)state;
    f = ear_new(yaml);
    m = meaning_new(f.keep, f.keep, f.book, &f.l->manner, &f.l->language);
    arena *scratch = test_arena();
    meaning_learn(&m, scratch, STR("The nozzles are leaking"));
    arena_free(scratch);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    ear_free(&f);
    return 0;
}

static features read(const char *line, said *s)
{
    *s = said_read(f.keep, str_of(line));
    return meaning_read(&m, f.keep, s, 0, s->count);
}

static const feature *find(const features *all, feature_id id)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (all->items[i].id == id) return &all->items[i];
    return NULL;
}

static void a_concept_has_many_words(void **state)
{
    (void)state;
    said s;
    static const char *const lines[] = {"dry foam", "stiff suds", "la espuma seca", "foan is dry"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const features all = read(lines[i], &s);
        assert_non_null(find(&all, FOAM));
        assert_non_null(find(&all, DRY));
        assert_false(find(&all, DRY)->denied);
    }
}

static void words_are_known_without_their_endings(void **state)
{
    (void)state;
    said s;
    const features one = read("nozzle leaks", &s), more = read("the nozzles leaked", &s);
    assert_int_equal(one.count, 2);
    assert_int_equal(more.count, 2);
    for (uint32_t i = 0; i < 2; i++) assert_int_equal(one.items[i].id, more.items[i].id);
    assert_true(one.items[0].id >= 2); /* behind the concepts */
}

static void a_no_denies_what_it_stands_before(void **state)
{
    (void)state;
    said s;
    features all = read("foam is not dry", &s);
    assert_true(find(&all, DRY)->denied);
    assert_false(find(&all, FOAM)->denied);
    all = read("no, dry foam", &s); /* the no answers */
    assert_false(find(&all, DRY)->denied);
    all = read("no bubbles", &s); /* a phrase of the concept, no included */
    assert_non_null(find(&all, FOAM));
    assert_false(find(&all, FOAM)->denied);
    assert_null(find(&all, FEATURE_DENIAL));
}

static void strangers_are_counted_and_all_well_is_heard(void **state)
{
    (void)state;
    said s;
    assert_int_equal(read("dry foam", &s).strangers, 0);
    assert_int_equal(read("dry foam xyzzy plugh", &s).strangers, 2);
    assert_true(read("looks good", &s).fine);
    assert_false(read("not looks good", &s).fine);
    assert_false(read("dry foam", &s).fine);
}

static void it_says_which_words_it_knows(void **state)
{
    (void)state;
    const said s = said_read(f.keep, STR("suds xyzzy nozle"));
    assert_true(meaning_knows(&m, f.keep, &s, 0));
    assert_false(meaning_knows(&m, f.keep, &s, 1));
    assert_true(meaning_knows(&m, f.keep, &s, 2)); /* a slip */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_concept_has_many_words),
        cmocka_unit_test(words_are_known_without_their_endings),
        cmocka_unit_test(a_no_denies_what_it_stands_before),
        cmocka_unit_test(strangers_are_counted_and_all_well_is_heard),
        cmocka_unit_test(it_says_which_words_it_knows),
    };
    return cmocka_run_group_tests_name("meaning", tests, set_up, tear_down);
}
