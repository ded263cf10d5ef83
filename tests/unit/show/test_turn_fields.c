/* A turn for programs: every turn fits the schema that comes from the same table, and
 * docs/turn.schema.json is that schema. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "json_schema.h"
#include "odd_turns.h"
#include "show/json.h"
#include "show/turn_fields.h"
#include "test_sources.h"

static json_t *parsed(arena *a, const tt_value *v)
{
    const str text = json_write(a, v, JSON_DIGITS_SHOWN);
    json_t *json = json_loadb(text.p, text.n, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(json);
    return json;
}

static void any_turn_fits_the_schema(void **state)
{
    (void)state;
    arena *a = test_arena();
    const tt_value schema = turn_schema(a);
    json_t *wanted = parsed(a, &schema);
    odd_turns o = {.keep = a, .state = 5, .word = 1};
    const arena_mark here = arena_here(a);
    for (unsigned round = 0; round < 500; round++) {
        tt_turn turn = *odd_turn(&o);
        turn.how = turn.kind == TT_TURN_END ? "stopped" : "";
        turn.wrong_code = *turn.wrong != 0 ? "not-understood" : "";
        const turn_about about = {.number = round + 1,
                                  .case_number = round % 2 == 0 ? "" : "483201K",
                                  .text = "All of it",
                                  .status = 3};
        const tt_value value = turn_value(a, &turn, &about);
        json_t *json = parsed(a, &value);
        assert_true(fits_schema(wanted, json));
        assert_int_equal(json_is_null(json_object_get(json, "case")), round % 2 == 0);
        assert_int_equal(json_array_size(json_object_get(json, "choices")), turn.choice_count);
        assert_int_equal(json_object_get(json, "status") != NULL, turn.kind == TT_TURN_END);
        json_decref(json);
        arena_back_to(a, here);
    }
    json_decref(wanted);
    arena_free(a);
}

/* A refusal of the reply as such stands in the place of what the turn says itself. */
static void what_is_wrong_is_told_once(void **state)
{
    (void)state;
    arena *a = test_arena();
    odd_turns o = {.keep = a, .state = 5, .word = 1};
    tt_turn turn = *odd_turn(&o);
    turn.how = "";
    turn.kind = TT_TURN_COMPLAINT;
    turn.wrong = "of the turn";
    turn.wrong_code = "not-understood";
    turn_about about = {.number = 1, .case_number = "", .text = ""};
    tt_value value = turn_value(a, &turn, &about);
    assert_string_equal(value_text(value_get(&value, "wrong"), "code"), "not-understood");
    about.wrong_code = "no-json";
    about.wrong = "as such";
    value = turn_value(a, &turn, &about);
    assert_string_equal(value_text(value_get(&value, "wrong"), "text"), "as such");
    arena_free(a);
}

/* TT_UPDATE_EXPECTED=1 writes it anew. */
static void the_page_is_the_schema(void **state)
{
    static const char path[] = TT_SOURCE_DIR "/docs/turn.schema.json";
    (void)state;
    arena *a = test_arena();
    const tt_value schema = turn_schema(a);
    json_t *json = parsed(a, &schema);
    if (getenv("TT_UPDATE_EXPECTED") != NULL)
        assert_int_equal(json_dump_file(json, path, JSON_INDENT(1) | JSON_PRESERVE_ORDER), 0);
    json_t *page = json_load_file(path, JSON_REJECT_DUPLICATES, NULL);
    assert_true(json_equal(page, json));
    json_decref(page);
    json_decref(json);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_turn_fits_the_schema),
        cmocka_unit_test(what_is_wrong_is_told_once),
        cmocka_unit_test(the_page_is_the_schema),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
