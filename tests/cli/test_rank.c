/* `rank`: its shape for programs, and that nothing but the rules and the answers counts. */
#include "run_telltale.h"

#include <jansson.h>
#include <math.h>

static json_t *ranked(const char *arguments)
{
    assert_int_equal(sh("$T rank %s --json >ranked 2>err", arguments), 0);
    json_t *all = json_load_file("ranked", JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(all);
    return all;
}

static void assert_keys(const json_t *object, const char *keys)
{
    char found[512] = "";
    size_t length = 0;
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)(uintptr_t)object, key, value)
    {
        length += (size_t)snprintf(found + length, sizeof found - length, "%s%s",
                                   length > 0 ? " " : "", key);
        assert_true(length < sizeof found);
    }
    assert_string_equal(found, keys);
}

static void shape_is_as_documented(void **state)
{
    (void)state;
    sh("printf 'pump-sound: rapid\\ntank-gauge: 45 psi\\n' >a.yaml");
    json_t *all = ranked("$WELL a.yaml");
    assert_keys(all, "version rulebook site focus facts causes likely probably_none nothing_wrong "
                     "pairs two_faults next fixes gate do_next cautions stop");
    assert_int_equal(json_integer_value(json_object_get(all, "version")), 1);
    assert_keys(json_object_get(all, "rulebook"), "name edition revision");
    assert_int_equal(
        json_string_length(json_object_get(json_object_get(all, "rulebook"), "revision")), 64);
    assert_keys(json_array_get(json_object_get(all, "facts"), 0),
                "name value unit from at ask text stale");
    assert_keys(json_array_get(json_object_get(all, "causes"), 0), "name text chance");
    assert_keys(json_array_get(json_object_get(all, "pairs"), 0), "names chance");
    assert_keys(json_object_get(all, "next"), "question ask bits minutes saves_minutes");
    assert_keys(json_array_get(json_object_get(all, "fixes"), 0),
                "name text risk chance minutes role standing held");
    assert_true(json_is_null(json_object_get(all, "stop")));
    json_decref(all);
}

static void chances_sum_to_one_and_fall(void **state)
{
    (void)state;
    sh("printf 'pump-sound: steady\\n' >a.yaml");
    json_t *all = ranked("$WELL a.yaml"), *causes = json_object_get(all, "causes");
    double sum = 0, last = 1;
    size_t unnamed = 0;
    assert_int_equal(json_array_size(causes), 4);
    for (size_t i = 0; i < json_array_size(causes); i++) {
        json_t *cause = json_array_get(causes, i);
        double chance = json_number_value(json_object_get(cause, "chance"));
        assert_true(chance <= last);
        last = chance;
        sum += chance;
        unnamed += json_is_null(json_object_get(cause, "name"));
    }
    assert_true(fabs(sum - 1) < 1e-9);
    assert_int_equal(unnamed, 1);
    json_decref(all);
}

static void answers_are_facts(void **state)
{
    (void)state;
    sh("printf 'tank-gauge: 12.5 psi\\ndrip: unsure\\nsmoke: no\\n' >a.yaml");
    json_t *all = ranked("$WELL a.yaml"), *facts = json_object_get(all, "facts");
    bool gauge = false, derived = false;
    for (size_t i = 0; i < json_array_size(facts); i++) {
        json_t *fact = json_array_get(facts, i);
        const char *name = json_string_value(json_object_get(fact, "name"));
        if (strcmp(name, "tank-gauge") == 0) {
            gauge = true;
            assert_true(json_number_value(json_object_get(fact, "value")) == 12.5);
            assert_string_equal(json_string_value(json_object_get(fact, "unit")), "psi");
            assert_string_equal(json_string_value(json_object_get(fact, "from")), "answer");
        }
        if (strcmp(name, "low-pressure") == 0) {
            derived = true;
            assert_string_equal(json_string_value(json_object_get(fact, "from")), "rule");
            assert_non_null(
                strstr(json_string_value(json_object_get(fact, "at")), "parts/faults.yml:"));
        }
    }
    assert_true(gauge);
    assert_true(derived);
    json_decref(all);
}

static void a_stop_says_whom_to_call(void **state)
{
    (void)state;
    sh("printf 'smoke: yes\\n' >a.yaml");
    json_t *all = ranked("$WELL a.yaml"), *stop = json_object_get(all, "stop");
    assert_keys(stop, "text call");
    assert_string_equal(json_string_value(json_object_get(stop, "call")), "technician");
    assert_string_equal(json_string_value(json_object_get(all, "do_next")), "call");
    json_t *caution = json_array_get(json_object_get(all, "cautions"), 0);
    assert_keys(caution, "signal text");
    assert_string_equal(json_string_value(json_object_get(caution, "signal")), "danger");
    json_decref(all);
}

static bool is_held(const json_t *all, bool held)
{
    size_t i;
    json_t *fix;
    json_array_foreach(json_object_get(all, "fixes"), i,
                       fix) if (json_is_true(json_object_get(fix, "held")) != held) return false;
    return json_array_size(json_object_get(all, "fixes")) > 0;
}

/* Whoever calls it answers the question about danger in the file. */
static void nothing_is_to_be_tried_before_danger_is_ruled_out(void **state)
{
    (void)state;
    static const struct {
        const char *smoke, *question, *do_next, *words;
        bool open, stops;
    } cases[] = {
        {"", "smoke", "ask", "Ask next: Is there smoke at the pump?", false, false},
        {"smoke: unsure\\n", "smoke", "call", "STOP: Stop here and touch nothing more.", false,
         true},
        {"smoke: {likely: {no: 1}}\\n", "smoke", "call", "Call: technician.", false, true},
        {"smoke: {not: yes}\\n", "smoke", "call", "STOP: ", false, true},
        {"smoke: yes\\n", "smoke", "call", "STOP: Leave the room and close the door.", false, true},
        {"smoke: no\\n", NULL, "fix", "Do next: Charge the tank with air", true, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        sh("printf 'pump-sound: rapid\\n%s' >a.yaml", cases[i].smoke);
        json_t *all = ranked("$WELL a.yaml"), *gate = json_object_get(all, "gate"),
               *question = json_object_get(gate, "question");
        assert_keys(gate, "open question");
        assert_int_equal(json_is_true(json_object_get(gate, "open")), cases[i].open);
        if (cases[i].question == NULL)
            assert_true(json_is_null(question));
        else
            assert_string_equal(json_string_value(question), cases[i].question);
        assert_string_equal(json_string_value(json_object_get(all, "do_next")), cases[i].do_next);
        assert_int_equal(!json_is_null(json_object_get(all, "stop")), cases[i].stops);
        assert_true(is_held(all, !cases[i].open));
        assert_int_equal(sh("$T rank $WELL a.yaml >out"), 0);
        assert_holds("out", cases[i].words);
        assert_int_equal(holds("out", "Nothing is to be tried until danger is ruled out."),
                         !cases[i].open);
        json_decref(all);
    }
}

static void roles_open_fixes(void **state)
{
    (void)state;
    sh("printf 'drip: yes\\nsmoke: no\\n' >a.yaml");
    assert_int_equal(sh("$T rank $WELL a.yaml >one && $T rank $WELL a.yaml --as technician >two"),
                     0);
    assert_holds("one", "For somebody else to do:");
    assert_false(holds("two", "For somebody else to do:"));
}

/* All but the revision and the line numbers, which are about the files and not about what they say.
 */
static void assert_same_meaning(const char *one, const char *two)
{
    assert_int_equal(sh("for f in %s %s; do sed -E 's/\"revision\": \"[0-9a-f]*\"//; s/\"at\": "
                        "\"[^\"]*\"//' $f >$f.plain; done",
                        one, two),
                     0);
    char a[64], b[64];
    snprintf(a, sizeof a, "%s.plain", one);
    snprintf(b, sizeof b, "%s.plain", two);
    assert_same(a, b);
}

static void order_and_place_change_nothing(void **state)
{
    (void)state;
    sh("printf 'pump-sound: rapid\\ntank-gauge: 45 psi\\ndrip: no\\n' >a.yaml");
    sh("printf 'drip: no\\ntank-gauge: 45 psi\\npump-sound: rapid\\n' >b.yaml");
    sh("printf '{\"drip\": \"no\", \"pump-sound\": \"rapid\", \"tank-gauge\": \"45 psi\"}' "
       ">c.json");
    sh("printf '\\357\\273\\277drip: no\\r\\ntank-gauge: 45 psi\\r\\npump-sound: rapid\\r\\n' "
       ">d.yaml");
    assert_int_equal(sh("$T rank $WELL a.yaml --json >one"), 0);
    assert_int_equal(sh("$T rank $WELL b.yaml --json >two"), 0);
    assert_int_equal(sh("$T rank $WELL c.json --json >three"), 0);
    assert_int_equal(sh("$T rank $WELL d.yaml --json >four"), 0);
    assert_same("one", "two");
    assert_same("one", "three");
    assert_same("one", "four");
    assert_int_equal(sh("rm -rf moved && mkdir -p moved/z && cat $WELL/parts/faults.yml "
                        "$WELL/book.yaml >moved/z/a.yaml"
                        " && cp $WELL/parts/cases.yaml moved/q.yml && cp "
                        "$WELL/parts/questions.yaml moved/0.yaml"),
                     0);
    assert_int_equal(sh("$T rank moved a.yaml --json >five"), 0);
    assert_same_meaning("one", "five");
    assert_int_equal(sh("LC_ALL=de_DE.UTF-8 LANG=tr_TR.UTF-8 $T rank $WELL a.yaml --json >six"), 0);
    assert_same("one", "six");
}

static void wrong_answers_are_shown_in_their_place(void **state)
{
    (void)state;
    sh("printf 'pump-sound: rapid\\ntank-gage: 45 psi\\n' >a.yaml");
    assert_int_equal(sh("$T rank $WELL a.yaml --json >out 2>err"), 65);
    assert_holds("err", "a.yaml:2");
    assert_holds("err", "tank-gauge");
    assert_int_equal(sh("test -s out"), 1);
    sh("printf 'tank-gauge: 900 psi\\n' >a.yaml");
    assert_int_equal(sh("$T rank $WELL a.yaml >out 2>err"), 65);
}

static void words_say_the_same(void **state)
{
    (void)state;
    sh("printf 'pump-sound: rapid\\nsmoke: no\\n' >a.yaml");
    assert_int_equal(sh("$T rank $WELL a.yaml >out"), 0);
    assert_holds("out", "  1. The tank has lost its air cushion (");
    assert_holds("out", "very likely");
    assert_holds("out", "Do next: Charge the tank with air");
    assert_false(holds("out", "posterior"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shape_is_as_documented),
        cmocka_unit_test(chances_sum_to_one_and_fall),
        cmocka_unit_test(answers_are_facts),
        cmocka_unit_test(a_stop_says_whom_to_call),
        cmocka_unit_test(nothing_is_to_be_tried_before_danger_is_ruled_out),
        cmocka_unit_test(roles_open_fixes),
        cmocka_unit_test(order_and_place_change_nothing),
        cmocka_unit_test(wrong_answers_are_shown_in_their_place),
        cmocka_unit_test(words_say_the_same),
    };
    return cmocka_run_group_tests_name("rank", tests, NULL, NULL);
}
