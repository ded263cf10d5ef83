/* `ask --json --many`: many calls in one process. Each comes out as it would alone; lines that are
 * no call's change nothing; clients in two languages know nothing but the schema. */
#include "run_telltale.h"

#include <jansson.h>

#include "json_schema.h"
#include "skips.h"

#define MANY "$T ask $WELL --cases cases --json --many"
#define OF_CLIENTS \
    "$T ask " TT_SOURCE_DIR "/tests/cli/filtered-well --site farm.yaml --cases cases --json " \
    "--many"
#define CLIENTS TT_SOURCE_DIR "/tests/clients/"
#define SCHEMA  TT_SOURCE_DIR "/docs/turn.schema.json"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases alone-* one two out err lines turns farm.yaml && mkdir cases && "
              "cp '" TT_SOURCE_DIR "/tests/cli/filtered-well-sites/farm.yaml' . && "
              "chmod u+w farm.yaml");
}

/* Of each call the same lines come as alone; only the key stands before them. */
static void each_is_as_if_it_were_alone(void **state)
{
    (void)state;
    assert_int_equal(
        sh("begin() { printf "
           "'{\"version\":2,%%s\"begin\":{\"case\":\"019b1b48-9420-7e45-8172-00002235a41%%s\","
           "\"writer\":\"east\","
           "\"now\":\"2026-11-29T09:12:00Z\"}}\\n' \"$1\" \"$2\"; }\n"
           "for c in a b; do { begin '' $c; printf '%%s\\n' '{\"choice\":\"no\"}' "
           "'{\"answer\":\"short cycling\"}' "
           "'{\"choice\":1}' '{\"word\":\"back\"}' '{\"word\":\"stop\"}'; } | $T ask $WELL --cases "
           "alone-$c --json "
           ">alone-$c.out 2>err || test $? = 3 || exit 9; done\n"
           "{ for c in a b; do printf '{\"key\":\"%%s\",\"open\":{}}\\n' $c; done; for c in a b; "
           "do begin '\"key\":\"'$c'\",' $c; done; "
           "for l in '\"choice\":\"no\"' '\"answer\":\"short cycling\"' '\"choice\":1' "
           "'\"word\":\"back\"' '\"word\":\"stop\"'; do "
           "for c in b a; do printf '{\"key\":\"%%s\",%%s}\\n' $c $l; done; done; } | " MANY
           " >out 2>err && test ! -s err\n"
           "plain() { sed 's/\"key\":\"[ab]\",//; s/ --cases [^ \"\\\\]*//g' $1; }\n"
           "for c in a b; do grep \"\\\"key\\\":\\\"$c\\\"\" out >one; plain one >two; plain "
           "alone-$c.out >one; "
           "cmp one two || exit 8; (cd alone-$c && find . -name \\*.jsonl) >one; (cd cases && find "
           ". -path \\*a41$c/\\*) >two; "
           "cmp one two && cmp alone-$c/$(cat one) cases/$(cat two) || exit 7; done; "
           "test $(find cases -name \\*.jsonl | wc -l) = 2; rm -rf alone-*"),
        0);
}

static const char *kind_of(json_t *turn)
{
    return json_string_value(json_object_get(turn, "kind"));
}

/* Reads the next line of the file; the caller drops it. */
static json_t *next_turn(FILE *file, const json_t *schema)
{
    json_t *turn = json_loadf(file, JSON_DISABLE_EOF_CHECK, NULL);
    assert_non_null(turn);
    assert_true(fits_schema(schema, turn));
    return turn;
}

static void what_is_no_calls_changes_nothing(void **state)
{
    static const struct {
        const char *line, *code;
    } said[] = {
        {"{\"key\":\"a\",\"open\":{}}", NULL},
        {"{\"key\":\"a\",\"open\":{}}", "key-in-use"},
        {"{\"key\":\"b\",\"choice\":1}", "no-such-call"},
        {"{\"choice\":1}", "no-key"},
        {"hello", "no-key"},
        {"{\"key\":7,\"open\":{}}", "no-key"},
        {"{\"key\":\"b\",\"open\":{\"colour\":\"red\"}}", "wrong-type"},
        {"{\"key\":\"b\",\"open\":{\"telephone\":\"yes\"}}", "wrong-type"},
        {"{\"key\":\"b\",\"open\":[]}", "wrong-type"},
        {"{\"key\":\"b\",\"open\":7}", "wrong-type"},
        {"{\"key\":\"b\",\"open\":{\"site\":7}}", "wrong-type"},
        {"{\"key\":\"b\",\"open\":{\"as\":\"technician\",\"practice\":\"no\"}}", "wrong-type"},
        {"{\"key\":\"\",\"open\":{}}", "no-key"},
        {"{\"key\":\"a key of more letters than anybody needs to tell one call from all the "
         "others that are held at once by one and the same program, and then some\",\"open\":{}}",
         "no-key"},
        {"", "no-key"},
        {"{\"key\":\"a\",\"choice\":\"no\"}", NULL},
        {"{\"key\":\"a\",\"word\":\"stop\"}", NULL},
        {"{\"key\":\"a\",\"choice\":\"no\"}", "no-such-call"}};
    const size_t count = sizeof said / sizeof said[0];
    (void)state;
    json_t *schema = json_load_file(SCHEMA, 0, NULL);
    FILE *lines = fopen("lines", "w");
    for (size_t i = 0; i < count; i++) fprintf(lines, "%s\n", said[i].line);
    fclose(lines);
    assert_int_equal(sh(MANY " <lines >turns 2>err"), 0);
    FILE *turns = fopen("turns", "r");
    for (size_t i = 0; i < count; i++) {
        json_t *turn = next_turn(turns, schema);
        const json_t *wrong = json_object_get(turn, "wrong");
        assert_int_equal(strcmp(kind_of(turn), "refused") == 0 ? 1 : 0,
                         said[i].code != NULL ? 1 : 0);
        if (said[i].code != NULL)
            assert_string_equal(json_string_value(json_object_get(wrong, "code")), said[i].code);
        json_decref(turn);
    }
    fclose(turns);
    json_decref(schema);
    assert_int_equal(sh("test $(find cases -name \\*.jsonl | wc -l) = 1"), 0);
}

/* Each call has a site, a role, a caller of its own; one that is there is taken up. */
static void each_call_says_its_own(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf '%%s\\n' '{\"key\":\"a\",\"open\":{\"caller\":\"north "
           "gate\",\"name\":\"east\"}}' "
           "'{\"key\":\"b\",\"open\":{\"name\":\"west\"}}' '{\"key\":\"a\",\"choice\":\"no\"}' "
           "'{\"key\":\"b\",\"choice\":\"no\"}' | " MANY " >out 2>err"),
        0);
    assert_int_equal(sh("$T cases cases --contact >list && grep -q 'north gate' list && test "
                        "$(grep -c 'by west' list) = 1"),
                     0);
    assert_int_equal(
        sh("n=$($T cases cases --json | sed -n '1s/.*\"case\":\"\\([^\"]*\\).*/\\1/p'); "
           "printf '{\"key\":\"a\",\"open\":{\"case\":\"%%s\"}}\\n' $n | " MANY " >out 2>err; "
           "head -1 out | grep -q \"\\\"case\\\":\\\"$n\\\"\""),
        0);
    assert_int_equal(sh("$T ask $WELL --many 2>err"), 2);
    assert_holds("err", "add --json");
    assert_int_equal(sh("$T ask $WELL --many --json --no-input 2>err"), 2);
}

/* What the program was begun with may be told otherwise of one call, and be taken back for it. */
static void a_switch_is_turned_either_way(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '%%s\n' '{\"key\":\"a\",\"open\":{\"telephone\":false}}' "
                        "'{\"key\":\"b\",\"open\":{}}' '{\"key\":\"a\",\"choice\":\"no\"}' "
                        "'{\"key\":\"b\",\"choice\":\"no\"}' | " OF_CLIENTS
                        " --telephone >out 2>err"),
                     0);
    assert_int_equal(
        sh("grep '\"key\":\"b\"' out | grep -q 'Say: ' && ! grep '\"key\":\"a\"' out | "
           "grep -q 'Say: '"),
        0);
    assert_int_equal(sh("printf '%%s\n' '{\"key\":\"a\",\"open\":{\"practice\":true}}' "
                        "'{\"key\":\"b\",\"open\":{\"practice\":false}}' | " OF_CLIENTS
                        " >out 2>err"),
                     0);
    assert_int_equal(sh("grep '\"key\":\"a\"' out | grep -q '\"practice\":true' && grep "
                        "'\"key\":\"b\"' out | grep -q '\"practice\":false'"),
                     0);
}

/* Whoever ends the program, or reads no more, ends each call as if its own input had ended: what
 * was said is kept. */
static void what_was_said_is_kept_when_all_ends(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -f in && mkfifo in && { " MANY " <in >out 2>err & }; many=$!; exec 3>in\n"
           "printf '%%s\n' '{\"key\":\"a\",\"open\":{}}' '{\"key\":\"a\",\"choice\":\"no\"}' >&3\n"
           "until grep -q '\"turn\":2' out; do :; done; kill -TERM $many; wait $many; s=$?; rm in; "
           "exit $s"),
        143);
    assert_int_equal(sh("grep -c '\"kind\":\"answer\"' $(find cases -name \\*.jsonl) >count; "
                        "test $(cat count) = 1"),
                     0);
    assert_int_equal(sh("printf '{\"key\":\"b\",\"open\":{}}\n' | " MANY " >&- 2>err"), 74);
}

static void leads_them_all(const char *client)
{
    assert_int_equal(sh("%s " SCHEMA " 12 lines " OF_CLIENTS " >out 2>err", client), 0);
    assert_int_equal(sh("test $(grep -c '^call [0-9]* gone 0$' out) = 12"), 0);
    assert_int_equal(sh("test $($T cases cases --state closed --json | wc -l) = 12"), 0);
    json_t *schema = json_load_file(SCHEMA, 0, NULL);
    FILE *lines = fopen("lines", "r");
    unsigned count = 0;
    for (int c; (c = fgetc(lines)) != EOF; count++) {
        ungetc(c, lines);
        json_decref(next_turn(lines, schema));
        while ((c = fgetc(lines)) != EOF && c != '\n') continue;
    }
    fclose(lines);
    json_decref(schema);
    assert_true(count > 12 * 4);
}

static void a_client_in_python(void **state)
{
    (void)state;
    need_program("python3", "python3");
    leads_them_all("python3 " CLIENTS "many_client.py");
}

static void a_client_in_javascript(void **state)
{
    (void)state;
    need_program("node", "nodejs");
    leads_them_all("node " CLIENTS "many_client.mjs");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(each_is_as_if_it_were_alone, fresh),
        cmocka_unit_test_setup(what_is_no_calls_changes_nothing, fresh),
        cmocka_unit_test_setup(each_call_says_its_own, fresh),
        cmocka_unit_test_setup(a_switch_is_turned_either_way, fresh),
        cmocka_unit_test_setup(what_was_said_is_kept_when_all_ends, fresh),
        cmocka_unit_test_setup(a_client_in_python, fresh),
        cmocka_unit_test_setup(a_client_in_javascript, fresh),
    };
    return cmocka_run_group_tests_name("many calls", tests, NULL, NULL);
}
