/* What words are heard with is made when it is first wanted; heard is the same, however it was
 * made. */
#include "testing.h"

#include <stdlib.h>

#include "session/session.h"
#include "small_book.h"

static const char yaml[] =
    "book: {title: Pump, roles: [{op: {authorised: yes}}]}\n"
    "questions:\n"
    "  smoke: {ask: 'Is there smoke?', safe: [no], about: today}\n"
    "  air: {ask: 'What does the gauge read?', reading: pressure, unit: psi}\n"
    "symptoms:\n"
    "  weak: {text: 'Hardly any water', when: {air: below 20 psi}, heard: ['the water hardly "
    "runs'],\n"
    "         shown-by: {worn: often}}\n"
    "causes:\n  worn: {text: 'It is worn'}\n"
    "fixes:\n  change: {text: 'Change it', cures: {worn: often}, harm: none, role: op,\n"
    "           put-back: not needed}\n";

static void same_complaints(const tt_book *one, const tt_book *two, const char *words)
{
    tt_complaint *a, *b;
    uint32_t a_count, b_count;
    assert_int_equal(tt_complaints_heard(one, words, &a, &a_count), TT_OK);
    assert_int_equal(tt_complaints_heard(two, words, &b, &b_count), TT_OK);
    assert_int_equal(a_count, b_count);
    assert_true(a_count > 0);
    for (uint32_t i = 0; i < a_count; i++) {
        assert_string_equal(a[i].name, b[i].name);
        assert_true(a[i].match == b[i].match);
    }
    free(a);
    free(b);
}

static void same_overheard(const tt_book *one, const tt_book *two, const char *words, bool danger)
{
    tt_overheard a, b;
    assert_int_equal(tt_overhear(one, words, false, &a), TT_OK);
    assert_int_equal(tt_overhear(two, words, false, &b), TT_OK);
    assert_int_equal(a.danger, danger);
    assert_int_equal(b.danger, danger);
    assert_string_equal(a.word, b.word);
}

static void words_are_heard_alike_before_and_after(void **state)
{
    (void)state;
    tt_book *ready = small_book(yaml), *unready = small_book(yaml);
    assert_null(ready->ear); /* loading alone makes nothing to hear with */
    assert_int_equal(tt_book_hear(ready), TT_OK);
    const listener *first = ready->ear;
    assert_non_null(first);
    assert_int_equal(tt_book_hear(ready), TT_OK);
    assert_ptr_equal(ready->ear, first); /* once is enough */
    same_complaints(ready, unready, "the water hardly runs at the tap");
    same_overheard(ready, unready, "there is smoke everywhere", true);
    same_overheard(ready, unready, "a man is caught in it", true);
    same_overheard(ready, unready, "the second one", false);
    assert_null(unready->ear); /* what many may share is not changed by hearing */
    tt_book_free(ready);
    tt_book_free(unready);
}

static bool tells(const char *words, bool name)
{
    tt_overheard o;
    tt_book *b = small_book(yaml);
    assert_int_equal(tt_overhear(b, words, name, &o), TT_OK);
    tt_book_free(b);
    return o.told;
}

/* Where the host asks something else; where it asks for a name only what is clear counts. */
static void what_is_wrong_is_told_apart_from_names_and_replies(void **state)
{
    (void)state;
    assert_true(tells("the water hardly runs at the tap", false));
    assert_true(tells("the water hardly runs at the tap", true));
    assert_false(tells("yes", false));
    assert_false(tells("no", false));
    assert_false(tells("what do you mean", false));
    assert_false(tells("the cellar tap", true));
    assert_false(tells("Our farm", true));
    assert_false(tells("back", false));
}

static void a_number_is_read_alike(void **state)
{
    (void)state;
    tt_book *books[] = {small_book(yaml), small_book(yaml)};
    assert_int_equal(tt_book_hear(books[0]), TT_OK);
    for (int i = 0; i < 2; i++) {
        tt_case *c;
        tt_reply r;
        const char *why;
        assert_int_equal(tt_case_new(books[i], NULL, &c), TT_OK);
        const uint32_t air = tt_question_find(books[i], "air");
        assert_int_equal(tt_reply_read(c, air, "I see 40 psi", &r, &why), TT_OK);
        assert_int_equal(r.kind, TT_NUMBER);
        assert_true(r.number == 40);
        assert_int_equal(books[i]->ear == NULL, i == 1);
        tt_case_free(c);
        tt_book_free(books[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_are_heard_alike_before_and_after),
        cmocka_unit_test(what_is_wrong_is_told_apart_from_names_and_replies),
        cmocka_unit_test(a_number_is_read_alike),
    };
    return cmocka_run_group_tests_name("hearing", tests, NULL, NULL);
}
