/* Our own words: in which language, and how they count. That none is missing is the build's to see.
 */
#include "testing.h"

#include <string.h>

#include "base/unicode.h"
#include "say/catalogue.h"
#include "test_sources.h"

static void a_tag_names_its_language_by_its_first_part(void **state)
{
    (void)state;
    assert_int_equal(tongue_of("es"), TONGUE_ES);
    assert_int_equal(tongue_of("es-MX"), TONGUE_ES);
    assert_int_equal(tongue_of("ES-us"), TONGUE_ES);
    assert_int_equal(tongue_of("en-GB"), TONGUE_EN);
    assert_int_equal(tongue_of("est"), TONGUE_EN); /* another language, which is none of ours */
    assert_int_equal(tongue_of("de"), TONGUE_EN);
    assert_int_equal(tongue_of(""), TONGUE_EN);
    assert_int_equal(tongue_of(NULL), TONGUE_EN);
    for (tongue i = 0; i < TONGUE_COUNT; i++) assert_int_equal(tongue_of(tongue_tag(i)), i);
}

static void one_is_said_otherwise_than_none_and_two(void **state)
{
    (void)state;
    static const struct {
        tongue in;
        const char *number, *words;
    } rows[] = {{TONGUE_EN, "0", "0 questions that nobody could answer"},
                {TONGUE_EN, "1", "1 question that nobody could answer"},
                {TONGUE_EN, "2", "2 questions that nobody could answer"},
                {TONGUE_ES, "0", "0 preguntas que nadie pudo responder"},
                {TONGUE_ES, "1", "1 pregunta que nadie pudo responder"},
                {TONGUE_ES, "2", "2 preguntas que nadie pudo responder"},
                {TONGUE_ES, "11", "11 preguntas que nadie pudo responder"}};
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(FILL(a, rows[i].in, TEXT_UNTOLD, rows[i].number), rows[i].words);
    arena_free(a);
}

/* Typed without accents they are understood whatever is spoken, so no two may be one word. */
static void no_two_words_are_typed_alike(void **state)
{
    (void)state;
    arena *a = test_arena();
    for (tongue in = 0; in < TONGUE_COUNT; in++)
        for (text_id i = TYPED_DANGER; i <= TYPED_HAND; i++)
            for (tongue other = 0; other < TONGUE_COUNT; other++)
                for (text_id k = TYPED_DANGER; k <= TYPED_HAND; k++)
                    if (i != k)
                        assert_false(str_eq(unicode_plain(a, str_of(catalogue_text(in, i))),
                                            unicode_plain(a, str_of(catalogue_text(other, k)))));
    arena_free(a);
}

static void what_only_authors_read_is_english_everywhere(void **state)
{
    (void)state;
    assert_string_equal(catalogue_text(TONGUE_ES, PROGRAM_TURN),
                        catalogue_text(TONGUE_EN, PROGRAM_TURN));
    assert_string_not_equal(catalogue_text(TONGUE_ES, PAGE_DANGER),
                            catalogue_text(TONGUE_EN, PAGE_DANGER));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tag_names_its_language_by_its_first_part),
        cmocka_unit_test(one_is_said_otherwise_than_none_and_two),
        cmocka_unit_test(no_two_words_are_typed_alike),
        cmocka_unit_test(what_only_authors_read_is_english_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
