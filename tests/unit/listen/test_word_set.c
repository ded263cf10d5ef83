/* Words known, and what a slip of the pen was meant to be. */
#include "listen/word_set.h"

#include "base/pattern.h"
#include "luck.h"
#include "test_sources.h"
#include "testing.h"

static void a_word_is_there_once(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    char word[] = "foam";
    const word_entry *foam = word_set_add(&s, (str){word, 4});
    word[0] = 'r'; /* its text was copied */
    assert_ptr_equal(word_set_add(&s, STR("foam")), foam);
    assert_int_equal(word_set_add(&s, STR("dry"))->id, 1);
    assert_int_equal(s.count, 2);
    assert_ptr_equal(word_set_find(&s, STR("foam")), foam);
    assert_null(word_set_find(&s, STR("foa")));
    word_set_add_all(&s, STR("foam is wet"));
    assert_int_equal(s.count, 4);
    arena_free(a);
}

/* More words than a set has room for at first. */
static void many_words_are_found_again(void **state)
{
    (void)state;
    enum { MANY = 5000 };
    arena *a = test_arena();
    word_set s = word_set_new(a);
    for (int i = 0; i < MANY; i++) word_set_add(&s, str_printf(a, "w%d", i));
    for (int i = 0; i < MANY; i++)
        assert_int_equal(word_set_find(&s, str_printf(a, "w%d", i))->id, i);
    assert_null(word_set_find(&s, str_printf(a, "w%d", MANY)));
    arena_free(a);
}

static void assert_near(const word_set *s, arena *a, const char *slip, const char *meant)
{
    uint32_t patience = PATTERN_PATIENCE;
    const word_entry *e = word_set_near(s, a, str_of(slip), &patience);
    if ((e == NULL) != (meant == NULL)) print_message("%s\n", slip);
    if (meant == NULL)
        assert_null(e);
    else
        assert_str(e->text, meant);
}

static void a_slip_is_near_and_begins_alike(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add_all(&s, STR("dry brush conveyor pressure"));
    assert_int_equal(slip_allowed(3), 0);
    assert_int_equal(slip_allowed(4), 1);
    assert_int_equal(slip_allowed(7), 1);
    assert_int_equal(slip_allowed(8), 2);
    assert_near(&s, a, "brsh", "brush");
    assert_near(&s, a, "rbush", "brush"); /* the first two changed places */
    assert_near(&s, a, "crush", NULL);
    assert_near(&s, a, "brxxh", NULL);
    assert_near(&s, a, "convayer", "conveyor");
    assert_near(&s, a, "dri", NULL); /* too short for a slip */
    assert_near(&s, a, "pressssssure", NULL);
    arena_free(a);
}

static void of_two_as_near_the_preferred_is_meant(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add(&s, STR("smoky"));
    word_set_add(&s, STR("smoke"))->preferred = true;
    assert_near(&s, a, "smokx", "smoke");
    assert_near(&s, a, "smoky", "smoky"); /* what is nearer comes first all the same */
    arena_free(a);
}

/* ---- the same by looking at all ---- */

static const word_entry *near_among_all(const word_set *s, arena *a, str word)
{
    const word_entry *best = NULL;
    size_t least = SIZE_MAX;
    for (const word_entry *e = s->first; e != NULL; e = e->next) {
        const size_t shorter = e->text.n < word.n ? e->text.n : word.n;
        if (slip_allowed(shorter) == 0) continue;
        const bool alike =
            e->text.p[0] == word.p[0] || (e->text.p[0] == word.p[1] && e->text.p[1] == word.p[0]);
        const size_t distance = str_distance(a, e->text, word);
        if (!alike || distance > slip_allowed(shorter) || distance > least) continue;
        if (distance == least && (best->preferred || !e->preferred)) continue;
        best = e;
        least = distance;
    }
    return best;
}

static const word_entry *begun_among_all(const word_set *s, str word, size_t front, size_t ending)
{
    const word_entry *best = NULL;
    size_t most = front - 1;
    for (const word_entry *e = s->first; e != NULL; e = e->next) {
        size_t n = 0;
        while (n < e->text.n && n < word.n && e->text.p[n] == word.p[n]) n++;
        const size_t longer = e->text.n > word.n ? e->text.n : word.n;
        if (n <= most || longer - n > ending) continue;
        most = n;
        best = e;
    }
    return best;
}

static str drawn_word(arena *a, uint64_t *luck)
{
    char word[16];
    const uint32_t length = 1 + luck_below(luck, 12);
    for (uint32_t i = 0; i < length; i++) word[i] = (char)('a' + luck_below(luck, 3));
    return str_copy(a, (str){word, length});
}

static void what_is_near_is_found_without_looking_at_all(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    uint64_t luck = 7;
    uint32_t near = 0, begun = 0;
    for (int i = 0; i < 400; i++)
        word_set_add(&s, drawn_word(a, &luck))->preferred = luck_below(&luck, 3) == 0;
    for (int i = 0; i < 3000; i++) {
        const str word = drawn_word(a, &luck);
        uint32_t patience = PATTERN_PATIENCE;
        const word_entry *found = word_set_near(&s, a, word, &patience);
        assert_ptr_equal(found, near_among_all(&s, a, word));
        near += found != NULL;
        found = word_set_begun(&s, word, 5, 4, &patience);
        assert_ptr_equal(found, begun_among_all(&s, word, 5, 4));
        begun += found != NULL;
    }
    assert_in_range(near, 1000, 2999);
    assert_in_range(begun, 300, 2999);
    arena_free(a);
}

/* However many words begin alike and are as long: what is compared is counted. */
static void patience_ends(void **state)
{
    (void)state;
    enum { MANY = 10000 };
    arena *a = test_arena();
    word_set s = word_set_new(a);
    for (uint32_t i = 0; i < MANY; i++) word_set_add(&s, str_printf(a, "a%07u", i));
    uint32_t patience = PATTERN_PATIENCE, before = patience;
    assert_non_null(word_set_near(&s, a, STR("a00000x0"), &patience));
    assert_in_range(before - patience, MANY, 100 * MANY);
    before = patience = MANY;
    assert_null(word_set_near(&s, a, STR("a00000x0"), &patience));
    assert_int_equal(patience, 0);
    assert_null(word_set_near(&s, a, STR("a00000x0"), &patience));
    assert_null(word_set_begun(&s, STR("a00000x0"), 5, 4, &patience));
    arena_free(a);
}

static void endings_of_plurals_are_forms(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add_all(&s, STR("hose brush leaks gas"));
    assert_str(word_set_form(&s, a, STR("hoses"))->text, "hose");
    assert_str(word_set_form(&s, a, STR("brushes"))->text, "brush");
    assert_str(word_set_form(&s, a, STR("leak"))->text, "leaks");
    assert_str(word_set_form(&s, a, STR("gas"))->text, "gas");
    assert_null(word_set_form(&s, a, STR("ga")));
    assert_null(word_set_form(&s, a, STR("hosen")));
    arena_free(a);
}

static void the_next_word_of_a_plain_text(void **state)
{
    (void)state;
    size_t at = 0;
    str word;
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_str(word, "foam");
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_str(word, "dry");
    assert_false(plain_next(STR("foam is dry"), &at, &word));
    at = 0;
    assert_false(plain_next(STR(""), &at, &word));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_word_is_there_once),
        cmocka_unit_test(many_words_are_found_again),
        cmocka_unit_test(a_slip_is_near_and_begins_alike),
        cmocka_unit_test(of_two_as_near_the_preferred_is_meant),
        cmocka_unit_test(what_is_near_is_found_without_looking_at_all),
        cmocka_unit_test(patience_ends),
        cmocka_unit_test(endings_of_plurals_are_forms),
        cmocka_unit_test(the_next_word_of_a_plain_text),
    };
    return cmocka_run_group_tests_name("word_set", tests, NULL, NULL);
}
