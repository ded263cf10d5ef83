/* A standing for programs through the public face: what it says is what the engine says, and it
 * fits its own schema. */
#include "testing.h"

#include <math.h>
#include <stdlib.h>

#include "json_schema.h"
#include "open_gate.h"
#include "show/json.h"
#include "show/rank_fields.h"
#include "test_sources.h"
#include "told_case.h"

static const char book[] =
    "book: {title: Line, edition: 4, roles: [helper], not-listed: 1 %}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  sound: {ask: Sound, usual: no}\n"
    "  gauge: {ask: Gauge, reading: pressure, unit: psi, plausible: 0 to 100 psi, usual: 20 to 40 "
    "psi}\n"
    "symptoms:\n"
    "  loud: {text: Loud, when: {sound: yes}, heard: [loud], shown-by: {worn: always}}\n"
    "  weak: {text: Weak, when: {gauge: below 20 psi}, heard: [weak], shown-by: {low: almost "
    "always}}\n"
    "causes:\n"
    "  low: {text: Low, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  swap: {text: Swap, role: helper, cures: {worn: usually}, takes: 2 min, harm: none, "
    "put-back: Unswap}\n";

static const char digest[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

static json_t *standing_of(const told_case *t)
{
    char *text;
    const tt_origin origin = {t->book, digest, ""};
    assert_int_equal(tt_standing_json(&origin, t->c, &text), TT_OK);
    json_t *json = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    free(text);
    assert_non_null(json);
    return json;
}

static void assert_fits(const json_t *standing)
{
    arena *a = test_arena();
    const tt_value made = standing_schema(a);
    json_t *schema = json_loads(json_write(a, &made, JSON_DIGITS_SHOWN).p, 0, NULL);
    assert_non_null(schema);
    assert_true(fits_schema(schema, standing));
    json_decref(schema);
    arena_free(a);
}

static const char *text_at(const json_t *map, const char *key)
{
    const char *text = json_string_value(json_object_get(map, key));
    assert_non_null(text);
    return text;
}

static const json_t *fact_named(const json_t *standing, const char *name)
{
    size_t i;
    json_t *fact;
    json_array_foreach(json_object_get(standing, "facts"), i,
                       fact) if (strcmp(text_at(fact, "name"), name) == 0) return fact;
    fail_msg("there is no fact %s", name);
    return NULL;
}

static void it_says_what_the_engine_says(void **state)
{
    (void)state;
    told_case t = told_new(book, NULL);
    open_gate(t.c);
    told_answer(&t, "gauge", "12");
    const tt_view *view = told_look(&t);
    json_t *all = standing_of(&t);
    assert_fits(all);
    assert_string_equal(text_at(json_object_get(all, "rulebook"), "revision"), digest);
    assert_true(json_is_null(json_object_get(all, "site")));
    assert_true(
        json_is_real(json_object_get(fact_named(all, "gauge"), "value"))); /* though it is whole */
    assert_string_equal(text_at(fact_named(all, "gauge"), "unit"), "psi");
    const json_t *causes = json_object_get(all, "causes"), *first = json_array_get(causes, 0);
    assert_int_equal(json_array_size(causes), view->cause_count);
    assert_string_equal(text_at(first, "name"), view->causes[0].name);
    assert_true(fabs(json_real_value(json_object_get(first, "chance")) - view->causes[0].chance) <
                1e-9);
    assert_true(json_is_true(json_object_get(json_object_get(all, "gate"), "open")));
    json_decref(all);
    told_free(&t);
}

static void a_shut_gate_holds_every_fix(void **state)
{
    (void)state;
    told_case t = told_new(book, NULL);
    told_answer(&t, "danger", "yes");
    json_t *all = standing_of(&t);
    assert_fits(all);
    assert_string_equal(text_at(all, "do_next"), "call");
    assert_string_equal(text_at(json_object_get(all, "gate"), "question"), "danger");
    size_t i;
    json_t *fix;
    json_array_foreach(json_object_get(all, "fixes"), i, fix)
        assert_true(json_is_true(json_object_get(fix, "held")));
    assert_int_equal(i, 1);
    json_decref(all);
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(it_says_what_the_engine_says),
                                       cmocka_unit_test(a_shut_gate_holds_every_fix)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
