/* JSON text to trees and back; what is refused, and where. */
#include "testing.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "memory_sweep.h"
#include "show/json.h"
#include "test_sources.h"

enum { MOST = 1 << 20 };

/* What comes back of a text, or of why it is refused: "line:column text". */
static str again(arena *a, str text, int digits)
{
    tt_value v;
    json_fault fault;
    if (json_read(a, text, MOST, &v, &fault)) return json_write(a, &v, digits);
    return str_printf(a, "%u:%u %.*s", fault.line, fault.column, STR_ARG(fault.text));
}

static void what_is_read_is_written(void **state)
{
    (void)state;
    static const char *const same[] = {
        "{\"question\":\"foam-air\",\"reading\":52.5,\"pieces\":[\"left\",{\"a\":null}],\"about\":"
        "true,\"no\":false}",
        "[]",
        "{}",
        "\"\"",
        "0",
        "-3",
        "9007199254740992",
        "-9007199254740992",
        "[[],{}]",
        "null",
        "\"caf\xC3\xA9 \xF0\x9F\x92\xA7 \\\" \\\\ / \\n\\t\\b\\f\\r \\u001F\"",
        "{\"z\":1,\"a\":2}", /* the map's order */
    };
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        assert_str(again(a, str_of(same[i]), 17), same[i]);
    assert_str(again(a, STR(" { \"a\" : [ 1.0 , -0.0, 1e3 ] } \n"), 17), "{\"a\":[1,0,1000]}");
    assert_str(again(a, STR("\"\\u00e9\\ud83d\\udca7\""), 17), "\"\xC3\xA9\xF0\x9F\x92\xA7\"");
    arena_free(a);
}

static void numbers_keep_their_digits(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_str(again(a, STR("0.1"), 17), "0.10000000000000001");
    assert_str(again(a, STR("0.1"), 10), "0.1");
    assert_str(again(a, STR("0.30000000000000004"), 10), "0.3");
    assert_str(again(a, STR("1e-300"), 10), "1e-300");
    assert_str(again(a, STR("123456789012"), 10), "123456789012");
    static const double hard[] = {DBL_MIN, DBL_MAX, 1.0 / 3, 5e-324, 9007199254740994.0,
                                  -1e22,   43.51132};
    for (size_t i = 0; i < sizeof hard / sizeof *hard; i++) {
        tt_value v = value_of_number(hard[i]), back;
        json_fault fault;
        assert_true(json_read(a, json_write(a, &v, 17), MOST, &back, &fault));
        assert_true(back.number == hard[i]);
    }
    arena_free(a);
}

static void what_is_measured_has_a_point(void **state)
{
    (void)state;
    static const struct {
        double number;
        const char *text;
    } table[] = {{45, "45.0"},   {0, "0.0"},     {-0.0, "0.0"},
                 {1, "1.0"},     {0.25, "0.25"}, {12345678901, "1.23456789e10"},
                 {1e-7, "1e-7"}, {NAN, "null"}};
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const tt_value v = value_of_measure(table[i].number),
                       same = value_of_number(table[i].number);
        assert_str(json_write(a, &v, 10), table[i].text);
        assert_true(value_eq(&v, &same));
    }
    arena_free(a);
}

static void lines_stand_as_deep_as_what_they_are_in(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_value v;
    json_fault fault;
    assert_true(json_read(a, STR("{\"a\":[1,{\"b\":[]}],\"c\":{}}"), MOST, &v, &fault));
    assert_str(json_write_lines(a, &v, 10, 2),
               "{\n  \"a\": [\n    1,\n    {\n      \"b\": []\n    }\n  ],\n  \"c\": {}\n}\n");
    arena_free(a);
}

static void what_is_refused_says_where_and_why(void **state)
{
    (void)state;
    static const struct {
        const char *text, *wrong;
    } table[] = {
        {"", "1:0 the text ends too soon: a quote, bracket or brace is not closed"},
        {"{\"a\":1,\n \"a\":2}", "2:4 this key stands there already; write each key once"},
        {"{\"a\":1", "1:6 the text ends too soon: a quote, bracket or brace is not closed"},
        {"{} {}", "1:4 the value ended before; leave out what follows it"},
        {"{a:1}", "1:2 this is not JSON; look for a missing comma, colon or quote before it"},
        {"\"\\u0000\"", "1:8 the character U+0000 can't stand in a text; leave it out"},
        {"{\"\\u0000\":1}", "1:9 the character U+0000 can't stand in a text; leave it out"},
        {"\"\xFF\"", "1:1 these bytes are not UTF-8; write the text in UTF-8"},
        {"1e999", "1:5 this number is too large"},
        {"99999999999999999999", "1:20 this number is too large"},
        {"{\"data\":[1,9007199254740993]}",
         "0:0 data[1]: whole numbers beyond 9007199254740992 can't be held exactly; write it with "
         "an exponent, or as text"},
        {"NaN", "1:3 this is not JSON; look for a missing comma, colon or quote before it"},
    };
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        assert_str(again(a, str_of(table[i].text), 17), table[i].wrong);
    arena_free(a);
}

/* `count` times the one text, then once the other. */
static str many(arena *a, size_t count, const char *each, const char *end)
{
    text_builder b = {.keep = a};
    for (size_t i = 0; i < count; i++) text_add(&b, str_of(each));
    text_add(&b, str_of(end));
    return text_done(&b);
}

static void depth_number_and_length_are_limited(void **state)
{
    (void)state;
    arena *a = test_arena();
    json_fault fault;
    tt_value v;
    str deep = str_printf(a, "%s%s", many(a, 64, "[", "").p, many(a, 64, "]", "").p);
    assert_true(json_read(a, deep, MOST, &v, &fault));
    assert_str(again(a, many(a, 65, "[", ""), 17),
               "1:65 lists and maps are nested more than 64 deep; write it flatter");
    assert_str(again(a, str_printf(a, "\"%s\"", many(a, 100, "[", "").p), 17),
               str_printf(a, "\"%s\"", many(a, 100, "[", "").p).p); /* a text nests nothing */
    str long_list = str_printf(a, "[\n%s]", many(a, JSON_MOST_VALUES, "1,", "1").p);
    assert_str(again(a, long_list, 17),
               "2:524288 there are more than 262144 values in it; write less at once");
    assert_false(json_read(a, STR("[1]"), 2, &v, &fault));
    assert_str(fault.text, "it has more than 2 bytes, which is the most that is read at once");
    arena_free(a);
}

static bool comes_again(void *of, arena *keep, arena *scratch)
{
    tt_value v;
    json_fault fault;
    (void)of;
    (void)scratch;
    assert_true(json_read(keep, STR("{\"a\":[1,\"b\",{\"c\":null}]}"), MOST, &v, &fault));
    return str_is(json_write(keep, &v, 10), "{\"a\":[1,\"b\",{\"c\":null}]}");
}

static void every_allocation_that_fails_is_taken_well(void **state)
{
    (void)state;
    memory_sweeps(comes_again, NULL);
}

static void the_public_face_owns_what_it_reads(void **state)
{
    (void)state;
    static const char good[] = "{\"kind\":\"answer\",\"data\":{\"reading\":0.1}}",
                      bad[] = "{\"kind\":}";
    tt_document *d;
    char *text;
    assert_int_equal(tt_document_read(good, sizeof good - 1, MOST, &d), TT_OK);
    assert_string_equal(tt_document_wrong(d), "");
    assert_int_equal(tt_value_json(tt_document_value(d), 10, &text), TT_OK);
    assert_string_equal(text, good);
    free(text);
    tt_document_free(d);
    assert_int_equal(tt_document_read(bad, sizeof bad - 1, MOST, &d), TT_FAULTY);
    assert_null(tt_document_value(d));
    assert_string_equal(
        tt_document_wrong(d),
        "line 1, column 9: this is not JSON; look for a missing comma, colon or quote before it");
    tt_document_free(d);
    tt_document_free(NULL);
}

static void the_locale_changes_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "C"};
    const char *chosen = NULL;
    for (size_t i = 0; chosen == NULL; i++) chosen = setlocale(LC_NUMERIC, names[i]);
    str got = again(a, STR("[0.5,1.25e-7]"), 10);
    setlocale(LC_NUMERIC, "C");
    assert_str(got, "[0.5,1.25e-7]");
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_read_is_written),
        cmocka_unit_test(numbers_keep_their_digits),
        cmocka_unit_test(what_is_measured_has_a_point),
        cmocka_unit_test(lines_stand_as_deep_as_what_they_are_in),
        cmocka_unit_test(what_is_refused_says_where_and_why),
        cmocka_unit_test(depth_number_and_length_are_limited),
        cmocka_unit_test(every_allocation_that_fails_is_taken_well),
        cmocka_unit_test(the_public_face_owns_what_it_reads),
        cmocka_unit_test(the_locale_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
