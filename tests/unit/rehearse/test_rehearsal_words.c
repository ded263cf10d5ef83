/* What was counted, written down as words and added elsewhere: the same as if it had been counted
 * there. Words that were changed on the way, that are cut short, or that another book or other
 * options have counted, are refused, and then nothing is added. */
#include "book_folder.h"
#include "testing.h"

#include <stdlib.h>
#include <string.h>

#include "telltale.h"

enum { CALLS = 40, HEAD = 6 };

static const tt_rehearsal_options options = {.seed = 7, .role = TT_NONE, .sensitivity = true};

static tt_rehearsal *rehearsal_of(const tt_book *b, const tt_rehearsal_options *how)
{
    tt_rehearsal *r;
    assert_int_equal(tt_rehearsal_new(b, how, &r), TT_OK);
    return r;
}

typedef struct scene {
    tt_book *b;
    tt_rehearsal *counted;
    uint64_t *words;
    uint32_t count;
} scene;

static int set_up(void **state)
{
    scene *s = malloc(sizeof *s);
    assert_non_null(s);
    const uint64_t *words;
    s->b = book_folder("tests/cli/regulator");
    s->counted = rehearsal_of(s->b, &options);
    assert_int_equal(tt_rehearsal_play(s->counted, 0, CALLS), TT_OK);
    assert_int_equal(tt_rehearsal_words(s->counted, &words, &s->count), TT_OK);
    s->words = malloc(s->count * sizeof *words);
    assert_non_null(s->words);
    memcpy(s->words, words, s->count * sizeof *words);
    *state = s;
    return 0;
}

static void assert_same_words(tt_rehearsal *r, const uint64_t *words, uint32_t count)
{
    const uint64_t *own;
    uint32_t own_count;
    assert_int_equal(tt_rehearsal_words(r, &own, &own_count), TT_OK);
    assert_int_equal(own_count, count);
    assert_memory_equal(own, words, count * sizeof *words);
}

/* Of what was refused nothing was counted. */
static int tear_down(void **state)
{
    scene *s = *state;
    assert_same_words(s->counted, s->words, s->count);
    free(s->words);
    tt_rehearsal_free(s->counted);
    tt_book_free(s->b);
    free(s);
    return 0;
}

/* By Fowler, Noll and Vo (1991), FNV-1a of 64 bits, over the bytes of the words, the lowest first.
 */
static uint64_t check_of(const uint64_t *words, uint32_t count)
{
    uint64_t hash = UINT64_C(0xCBF29CE484222325);
    for (uint32_t i = 0; i < count * 8; i++)
        hash = (hash ^ ((words[i / 8] >> (8 * (i % 8))) & 0xFF)) * UINT64_C(0x100000001B3);
    return hash;
}

static void refuses(const scene *s, uint32_t count, uint64_t calls)
{
    assert_int_equal(tt_rehearsal_add_words(s->counted, s->words, count, calls), TT_FAULTY);
}

static void is_refused_by(const scene *s, const tt_book *b, const tt_rehearsal_options *how)
{
    tt_rehearsal *into = rehearsal_of(b, how);
    assert_int_equal(tt_rehearsal_add_words(into, s->words, s->count, CALLS), TT_FAULTY);
    tt_rehearsal_free(into);
}

static void added_they_are_as_if_counted_here(void **state)
{
    scene *s = *state;
    tt_rehearsal *into = rehearsal_of(s->b, &options);
    const tt_rehearsed *x, *y;
    assert_int_equal(tt_rehearsal_add_words(into, s->words, s->count, CALLS), TT_OK);
    assert_same_words(into, s->words, s->count);
    assert_int_equal(tt_rehearsal_look(into, &x), TT_OK);
    assert_int_equal(tt_rehearsal_look(s->counted, &y), TT_OK);
    assert_true(x->all.leads.count == y->all.leads.count && x->all.leads.of == CALLS);
    assert_int_equal(x->moving_count, y->moving_count);
    tt_rehearsal_free(into);
}

static void what_was_changed_on_the_way_is_refused(void **state)
{
    scene *s = *state;
    for (uint32_t i = 0; i < s->count; i += i < 2 * HEAD ? 1 : 13) {
        s->words[i] ^= UINT64_C(1) << (i % 64);
        refuses(s, s->count, CALLS);
        s->words[i] ^= UINT64_C(1) << (i % 64);
    }
    s->words[s->count - 1] ^= 1;
    refuses(s, s->count, CALLS);
    s->words[s->count - 1] ^= 1;
}

static void what_is_cut_short_is_refused(void **state)
{
    scene *s = *state;
    for (uint32_t count = 0; count < s->count; count += count < 2 * HEAD ? 1 : 17)
        refuses(s, count, CALLS);
}

/* In front stands what they must fit: of another size they are refused even if nothing was changed
 * on the way. */
static void what_does_not_fit_is_refused_though_it_is_whole(void **state)
{
    scene *s = *state;
    for (uint32_t i = 0; i < HEAD; i++) {
        static const uint64_t others[] = {0, 1, 9999, UINT64_MAX};
        const uint64_t was = s->words[i], check = s->words[s->count - 1];
        for (size_t k = 0; k < sizeof others / sizeof *others; k++) {
            s->words[i] = others[k] != was ? others[k] : was + 1;
            s->words[s->count - 1] = check_of(s->words, s->count - 1);
            refuses(s, s->count, CALLS);
        }
        s->words[i] = was;
        assert_true(check_of(s->words, s->count - 1) == check);
        s->words[s->count - 1] = check;
    }
}

static void what_tells_of_other_calls_is_refused(void **state)
{
    scene *s = *state;
    refuses(s, s->count, CALLS + 1);
    refuses(s, s->count, 0);
}

static void what_others_have_counted_is_refused(void **state)
{
    static const tt_rehearsal_options other_seed = {.seed = 8,
                                                    .role = TT_NONE,
                                                    .sensitivity = true},
                                      plain = {.seed = 7, .role = TT_NONE};
    scene *s = *state;
    tt_book *other = book_folder("rules/foam-line");
    is_refused_by(s, s->b, &other_seed);
    is_refused_by(s, s->b, &plain);
    is_refused_by(s, other, &options);
    tt_book_free(other);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(added_they_are_as_if_counted_here),
        TEST(what_was_changed_on_the_way_is_refused),
        TEST(what_is_cut_short_is_refused),
        TEST(what_does_not_fit_is_refused_though_it_is_whole),
        TEST(what_tells_of_other_calls_is_refused),
        TEST(what_others_have_counted_is_refused),
    };
    return cmocka_run_group_tests_name("counts as words", tests, NULL, NULL);
}
