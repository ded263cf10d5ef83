/* Value trees: building, looking up, comparing, the canonical order. */
#include "testing.h"

#include <math.h>

#include "base/value.h"
#include "test_sources.h"

static tt_value answer(arena *a)
{
    value_builder list = value_list(a);
    value_add(&list, value_of_text("floor-left"));
    value_add(&list, value_of_number(2));
    value_builder map = value_map(a);
    value_put_text(&map, "question", "foam-air");
    value_put_number(&map, "reading", 52.5);
    value_put_bool(&map, "about", true);
    value_put_some(&map, "note", "");
    value_put_some(&map, "unit", NULL);
    value_put(&map, "pieces", value_done(&list));
    return value_done(&map);
}

static void what_was_built_is_found(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_value v = answer(a);
    double reading = 0;
    assert_int_equal(v.kind, TT_VALUE_MAP);
    assert_int_equal(v.count, 4); /* no note, no unit */
    assert_string_equal(value_text(&v, "question"), "foam-air");
    assert_true(value_number(&v, "reading", &reading) && reading == 52.5);
    assert_true(value_truth(&v, "about"));
    assert_string_equal(value_get(&v, "pieces")->items[0].text, "floor-left");
    arena_free(a);
}

static void what_is_not_there_is_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_value v = answer(a), text = value_of_text("x");
    double number = 7;
    uint64_t counter = 7;
    assert_null(value_get(&v, "unit"));
    assert_null(value_get(&text, "unit"));
    assert_null(value_get(NULL, "unit"));
    assert_null(value_text(&v, "reading"));
    assert_false(value_number(&v, "question", &number));
    assert_false(value_counter(&v, "reading", &counter)); /* 52.5 counts nothing */
    assert_true(number == 7 && counter == 7);
    assert_false(value_truth(&v, "question"));
    assert_int_equal(value_of_text(NULL).kind, TT_VALUE_NULL);
    arena_free(a);
}

static void numbers_that_are_none_are_null(void **state)
{
    (void)state;
    assert_int_equal(value_of_number(NAN).kind, TT_VALUE_NULL);
    assert_int_equal(value_of_number(-INFINITY).kind, TT_VALUE_NULL);
    assert_false(signbit(value_of_number(-0.0).number));
}

static void counters_are_whole_and_exact(void **state)
{
    (void)state;
    static const struct {
        double number;
        bool counts;
    } table[] = {{0, true},   {1, true},   {9007199254740992.0, true}, {9007199254740994.0, false},
                 {-1, false}, {0.5, false}};
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        value_builder map = value_map(a);
        value_put_number(&map, "n", table[i].number);
        tt_value v = value_done(&map);
        uint64_t counted = 0;
        assert_int_equal(value_counter(&v, "n", &counted), table[i].counts);
        if (table[i].counts) assert_true((double)counted == table[i].number);
    }
    arena_free(a);
}

static void what_came_out_stays_when_more_is_built(void **state)
{
    (void)state;
    arena *a = test_arena();
    value_builder list = value_list(a);
    for (int i = 0; i < 4; i++) value_add(&list, value_of_number(i));
    tt_value before = value_done(&list);
    for (int i = 4; i < 100; i++) value_add(&list, value_of_number(i));
    tt_value after = value_done(&list);
    assert_int_equal(before.count, 4);
    assert_true(before.items[3].number == 3);
    assert_int_equal(after.count, 100);
    assert_true(after.items[3].number == 3 && after.items[99].number == 99);
    arena_free(a);
}

static void order_of_keys_makes_no_difference(void **state)
{
    (void)state;
    arena *a = test_arena();
    value_builder one = value_map(a), two = value_map(a), three = value_map(a);
    value_put_number(&one, "a", 1);
    value_put_text(&one, "b", "x");
    value_put_text(&two, "b", "x");
    value_put_number(&two, "a", 1);
    value_put_text(&three, "b", "x");
    value_put_number(&three, "c", 1);
    tt_value x = value_done(&one), y = value_done(&two), z = value_done(&three);
    assert_true(value_eq(&x, &y));
    assert_false(value_eq(&x, &z));
    assert_int_equal(value_compare(&x, &y), 0);
    /* z lacks the smallest key */
    assert_true(value_compare(&x, &z) < 0 && value_compare(&z, &x) > 0);
    arena_free(a);
}

static void lists_are_told_apart_by_order_and_kind(void **state)
{
    (void)state;
    arena *a = test_arena();
    value_builder one = value_list(a), two = value_list(a), empty = value_list(a),
                  map = value_map(a);
    value_add(&one, value_yes);
    value_add(&one, value_null);
    value_add(&two, value_null);
    value_add(&two, value_yes);
    tt_value x = value_done(&one), y = value_done(&two), none = value_done(&empty),
             no_keys = value_done(&map);
    assert_false(value_eq(&x, &y));
    assert_false(value_eq(&x, &none));
    assert_false(value_eq(&none, &no_keys));
    assert_false(value_eq(&value_no, &value_yes));
    assert_false(value_eq(&value_no, &value_null));
    arena_free(a);
}

static void a_copy_stands_alone(void **state)
{
    (void)state;
    arena *first = test_arena(), *second = test_arena();
    tt_value v = answer(first);
    tt_value copy = value_copy(second, &v);
    assert_true(value_eq(&v, &copy));
    arena_free(first);
    assert_string_equal(value_text(&copy, "question"), "foam-air");
    assert_string_equal(value_get(&copy, "pieces")->items[0].text, "floor-left");
    arena_free(second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_built_is_found),
        cmocka_unit_test(what_is_not_there_is_nothing),
        cmocka_unit_test(numbers_that_are_none_are_null),
        cmocka_unit_test(counters_are_whole_and_exact),
        cmocka_unit_test(what_came_out_stays_when_more_is_built),
        cmocka_unit_test(order_of_keys_makes_no_difference),
        cmocka_unit_test(lists_are_told_apart_by_order_and_kind),
        cmocka_unit_test(a_copy_stands_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
