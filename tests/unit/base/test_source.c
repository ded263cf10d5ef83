#include "testing.h"

#include "base/source.h"
#include "base/written.h"
#include "test_sources.h"

static void check_place(str bytes, uint32_t offset, uint32_t line, uint32_t column)
{
    const source s = {STR("a.yaml"), bytes};
    place p = source_place(&s, offset);
    assert_int_equal(p.line, line);
    assert_int_equal(p.column, column);
}

static void places(void **state)
{
    (void)state;
    str text = STR("one\ntw\xC3\xB6 x\r\n\tthree");
    check_place(text, 0, 1, 1);
    check_place(text, 3, 1, 4);
    check_place(text, 4, 2, 1);
    check_place(text, 8, 2, 4); /* two bytes are one column */
    check_place(text, 12, 3, 1);
    check_place(text, 13, 3, 2); /* a tab is one, as in editors */
    check_place(text, 18, 3, 7);
    check_place(text, 1000, 3, 7);
    check_place(STR(""), 0, 1, 1);
    check_place((str){NULL, 0}, 5, 1, 1);
}

static void a_byte_order_mark_has_no_column(void **state)
{
    (void)state;
    str text = STR("\xEF\xBB\xBF"
                   "a: b");
    check_place(text, 0, 1, 1);
    check_place(text, 3, 1, 1);
    check_place(text, 6, 1, 4);
    const source s = {STR("a.yaml"), text}, short_one = {STR("a.yaml"), STR("\xEF\xBB")};
    assert_int_equal(source_text_start(&s), 3);
    assert_int_equal(source_text_start(&short_one), 0);
}

static void going_on_is_the_same_as_beginning_anew(void **state)
{
    (void)state;
    const source s = {STR("a.yaml"), STR("\xEF\xBB\xBFone\n\nt\xE2\x82\xACo\r\nthree\n")};
    for (uint32_t from = 0; from < s.bytes.n; from++) {
        for (uint32_t to = from; to <= s.bytes.n; to++) {
            place straight = source_place(&s, to),
                  on = source_place_after(&s, source_place(&s, from), from, to);
            assert_int_equal(on.line, straight.line);
            assert_int_equal(on.column, straight.column);
        }
    }
}

static void a_line_index_tells_the_same_lines(void **state)
{
    (void)state;
    arena *a = test_arena();
    static const char *const texts[] = {"", "a", "\n", "a\n\nb\r\nc", "\n\n\nx\n"};
    for (size_t t = 0; t < sizeof texts / sizeof *texts; t++) {
        const source s = {STR("a.yaml"), str_of(texts[t])};
        line_index lines = source_lines(a, &s);
        for (uint32_t i = 0; i <= s.bytes.n; i++)
            assert_int_equal(source_line_of(lines, i), source_place(&s, i).line);
    }
    arena_free(a);
}

static void short_form_and_order(void **state)
{
    (void)state;
    arena *a = test_arena();
    sources all =
        sources_from_texts(a, "pump.yaml", "x", "air/b.yaml", "1\n2\n3", "air.yaml", "", NULL);
    assert_int_equal(all.count, 3);
    assert_str(all.items[0].name, "air.yaml");
    assert_str(all.items[1].name, "air/b.yaml");
    assert_str(all.items[2].name, "pump.yaml");
    assert_str(span_short(a, &all, (span){1, 4, 5}), "air/b.yaml:3");
    assert_str(span_short(a, &all, span_nowhere()), "");
    assert_int_equal(sources_sorted(a, NULL, 0).count, 0);
    arena_free(a);
}

static void what_is_written_is_without_its_quotes(void **state)
{
    (void)state;
    arena *a = test_arena();
    const sources all = source_from_text(a, "a.yaml", STR("1 '1' \"\" \"2' \" '"));
    static const struct {
        uint32_t start, end;
        const char *text;
    } wanted[] = {{0, 1, "1"},     {2, 5, "1"},    {6, 8, ""},
                  {9, 12, "\"2'"}, {13, 14, "\""}, {14, 14, ""}};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        assert_str(written_at(&all, (span){0, wanted[i].start, wanted[i].end}), wanted[i].text);
    assert_str(written_at(&all, span_nowhere()), "");
    arena_free(a);
}

static void a_name_ends_where_nothing_of_one_stands(void **state)
{
    (void)state;
    for (int c = 0; c < 256; c++) {
        const char byte = (char)c;
        const bool of_a_name =
            (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
        assert_int_equal(name_goes_on((str){&byte, 1}, 0), of_a_name);
    }
    assert_false(name_goes_on(STR("drop"), 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places),
        cmocka_unit_test(a_byte_order_mark_has_no_column),
        cmocka_unit_test(going_on_is_the_same_as_beginning_anew),
        cmocka_unit_test(a_line_index_tells_the_same_lines),
        cmocka_unit_test(short_form_and_order),
        cmocka_unit_test(what_is_written_is_without_its_quotes),
        cmocka_unit_test(a_name_ends_where_nothing_of_one_stands),
    };
    return cmocka_run_group_tests_name("source", tests, NULL, NULL);
}
