/* schema from the command line: a JSON Schema with this book's names in it. */
#include "run_telltale.h"

#include <jansson.h>

static const json_t *under(const json_t *map, const char *key)
{
    const json_t *found = json_object_get(map, key);
    if (found == NULL) fail_msg("no '%s'", key);
    return found;
}

/* The description of a name among those of its kind; null: it is none of them. */
static const char *told(const json_t *schema, const char *kind, const char *name)
{
    const json_t *all = under(under(under(schema, "definitions"), kind), "anyOf");
    for (size_t i = 0; i < json_array_size(all); i++) {
        const json_t *one = json_array_get(all, i);
        if (strcmp(json_string_value(under(one, "const")), name) == 0)
            return json_string_value(json_object_get(one, "description"));
    }
    return NULL;
}

static void names_stand_where_they_belong(void **state)
{
    (void)state;
    assert_int_equal(sh("$T schema $WELL >own.json"), 0);
    json_t *schema = json_load_file("own.json", 0, NULL);
    assert_non_null(schema);
    assert_string_equal(json_string_value(under(schema, "title")), "House well");
    assert_string_equal(told(schema, "cause-name", "breaker-off"),
                        "The breaker is off. How often: occasional.");
    assert_null(told(schema, "cause-name", "silence"));
    const json_t *condition = under(under(under(schema, "definitions"), "condition"), "properties");
    under(condition, "pump-sound");
    under(condition, "any");
    under(condition, "silence");
    assert_null(json_object_get(condition, "breaker-off"));
    assert_null(
        json_object_get(under(under(schema, "definitions"), "condition"), "patternProperties"));
    json_decref(schema);
}

static void pieces_come_behind_names(void **state)
{
    (void)state;
    assert_int_equal(sh("$T schema '%s/tests/cli/filtered-well' >own.json", TT_SOURCE_DIR), 0);
    assert_int_equal(
        sh("grep -q ' of any filter\"' own.json && grep -q ' of every filter\"' own.json"), 0);
    assert_int_equal(sh("grep -q 'filter-1' own.json"), 1); /* no stand-in is anybody's */
}

/* What is there 60 times for each of so many pieces: with one more it would be too long to be of
 * use to an editor. */
static void names_of_very_many_pieces_are_a_pattern(void **state)
{
    (void)state;
    assert_int_equal(
        sh("for n in 100 101; do mkdir -p many-$n && awk -v n=$n 'BEGIN {"
           "print \"book: {title: Many, roles: [op]}\\nkinds: {k: {one: k, ask: Which}}\";"
           "print \"questions:\\n  q: {for-each: k, ask: Low}\\nsymptoms:\";"
           "print \"  s: {for-each: k, text: Low, when: {q: yes}, shown-by: {c1: "
           "often}}\\ncauses:\";"
           "for (i = 1; i <= 58; i++) print \"  c\" i \": {for-each: k, text: C}\";"
           "print \"site:\\n  units:\\n    k:\";"
           "for (i = 1; i <= n; i++) print \"      p\" i \": {}\" }' >many-$n/book.yaml &&"
           "$T schema many-$n >schema-$n.json || exit 1; done"),
        0);
    assert_int_equal(sh("grep -q '\"c5 of p77\"' schema-100.json"), 0);
    assert_int_equal(sh("grep -q '\"pattern\": \" of \"' schema-100.json"), 1);
    assert_int_equal(sh("grep -q '\"c5 of p77\"' schema-101.json"), 1);
    json_t *schema = json_load_file("schema-101.json", 0, NULL);
    const json_t *definitions = under(schema, "definitions"),
                 *causes = under(under(definitions, "cause-name"), "anyOf");
    const json_t *last = json_array_get(causes, json_array_size(causes) - 1);
    assert_string_equal(json_string_value(under(last, "pattern")), " of ");
    assert_non_null(strstr(json_string_value(under(last, "description")), "too many of them"));
    under(under(definitions, "condition"), "patternProperties");
    assert_int_equal(sh("grep -q '\"c5 of any k\"' schema-101.json && grep -q '\"c5\"' "
                        "schema-101.json && test $(wc -c <schema-101.json) -lt 400000"),
                     0);
    json_decref(schema);
}

/* What is written once and named in fixes: what to wear, and how bad a harm is. */
static void what_is_worn_and_what_harms_have_names(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf shared && cp -r $WELL shared && cat >shared/shared.yaml <<'END'\n"
                        "protection:\n  wet-work: [rubber boots, gloves]\n"
                        "harms:\n  wet-floor: {from: [slips], unprotected: {worst: marginal, "
                        "chance: occasional}, "
                        "protected: {worst: marginal, chance: remote}}\nEND\n"
                        "$T schema shared >own.json"),
                     0);
    json_t *schema = json_load_file("own.json", 0, NULL);
    assert_non_null(schema);
    assert_string_equal(told(schema, "protection-name", "wet-work"), "rubber boots, gloves");
    assert_string_equal(told(schema, "harm-name", "wet-floor"), "From slips");
    json_decref(schema);
}

static void a_book_with_faults_has_none(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf bad && mkdir bad && echo 'causes: 1' >bad/a.yaml && $T schema bad >out 2>err"),
        65);
    assert_holds("err", "can't be used before this is mended");
    assert_int_equal(sh("! test -s out"), 0);
    assert_int_equal(sh("$T schema ./nowhere 2>err"), 66);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_stand_where_they_belong),
        cmocka_unit_test(pieces_come_behind_names),
        cmocka_unit_test(names_of_very_many_pieces_are_a_pattern),
        cmocka_unit_test(what_is_worn_and_what_harms_have_names),
        cmocka_unit_test(a_book_with_faults_has_none),
    };
    return cmocka_run_group_tests_name("own schema", tests, NULL, NULL);
}
