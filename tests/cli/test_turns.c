/* `ask --json`: a case driven by a program that knows only docs/turn.schema.json; the same case at
 * a terminal; and what a program may get wrong. */
#include "run_telltale.h"

#include <jansson.h>
#include <signal.h>

#include "turn_client.h"

#define GAUGES "'" TT_SOURCE_DIR "/tests/cli/regulator'" /* a path may hold spaces */

static json_t *one(const char *key, const char *value)
{
    return json_pack("{s:s}", key, value);
}

static const json_t *part(const turn_client *c, const char *key)
{
    return json_object_get(c->turn, key);
}

static const char *text_in(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    return text != NULL ? text : "";
}

/* ---- a whole case ---- */

/* What this house is like; the rest nobody knows. */
static json_t *answer_to(const turn_client *c)
{
    const char *name = text_in(part(c, "question"), "name");
    if (strcmp(name, "smoke") == 0) return one("option", "no");
    if (strcmp(name, "pump-sound") == 0) return one("option", "rapid");
    if (strcmp(name, "tank-gauge") == 0)
        return json_pack("{s:f, s:s}", "reading", 3.0, "unit", "bar");
    return one("word", "unsure");
}

static void answer_as_known(turn_client *c)
{
    if (client_is(c, "complaint"))
        client_answer(c, one("answer", "it goes on and off"));
    else if (client_is(c, "confirm"))
        client_answer(c, one("option", "short-cycling"));
    else if (client_is(c, "question"))
        client_answer(c, answer_to(c));
    else if (client_is(c, "fix"))
        client_answer(c, one("option", "gone"));
    else
        client_answer(c, json_pack("{s:i}", "choice", 1));
}

static void a_program_drives_a_whole_case(void **state)
{
    (void)state;
    turn_client c;
    bool complained = false, fixed = false;
    client_begin(&c, "$WELL --cases cases");
    assert_string_equal(text_in(part(&c, "rulebook"), "name"), "House well");
    assert_int_equal(json_array_size(json_object_get(part(&c, "rulebook"), "cautions")), 1);
    assert_true(json_is_true(json_object_get(part(&c, "question"), "danger_first")));
    while (!client_is(&c, "end")) {
        complained = complained || client_is(&c, "complaint");
        fixed = fixed || client_is(&c, "fix");
        answer_as_known(&c);
        assert_string_equal(client_text(&c, "wrong"), "");
    }
    assert_true(complained && fixed);
    assert_string_equal(client_text(&c, "how"), "gone");
    assert_string_equal(text_in(json_array_get(part(&c, "tried"), 0), "name"), "recharge-tank");
    assert_int_equal(strlen(client_text(&c, "case")), 7);
    assert_int_equal(client_end(&c), 0);
    assert_int_equal(sh("test -s client-err"), 1);
}

static void a_fix_says_all_that_keeps_people_safe(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    while (!client_is(&c, "fix")) answer_as_known(&c);
    const json_t *fix = part(&c, "fix"), *safety = json_object_get(fix, "safety");
    assert_string_equal(text_in(safety, "unprotected_risk"), "serious");
    assert_string_equal(text_in(safety, "risk"), "medium");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "isolate"), 0)),
                        "Switch the pump off at its breaker and lock it.");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "wear"), 0)),
                        "Safety glasses");
    assert_int_equal(json_array_size(json_object_get(fix, "steps")), 2);
    assert_string_equal(text_in(json_array_get(part(&c, "causes"), 0), "name"), "tank-waterlogged");
    client_answer(&c, one("option", "no-change"));
    assert_string_equal(json_string_value(json_array_get(part(&c, "notes"), 0)),
                        "Charge the tank with air: it did not help. Before anything else is tried, put it back: "
                        "Let the air out again.");
    assert_true(client_is(&c, "put-back"));
    assert_int_equal(client_end(&c), 3);
}

static void a_danger_is_a_caution_and_a_stop(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, one("option", "yes"));
    assert_true(client_is(&c, "stop"));
    const json_t *caution = json_array_get(part(&c, "cautions"), 0);
    assert_string_equal(text_in(caution, "signal"), "danger");
    assert_true(json_is_true(json_object_get(caution, "new")));
    assert_string_equal(text_in(part(&c, "call"), "role"), "technician");
    assert_string_equal(text_in(part(&c, "call"), "text"), "Leave the room and close the door.");
    client_answer(&c, one("word", "known"));
    assert_true(json_is_false(json_object_get(json_array_get(part(&c, "cautions"), 0), "new")));
    client_answer(&c, one("option", "close"));
    assert_string_equal(client_text(&c, "how"), "stop");
    assert_int_equal(client_end(&c), 1);
}

/* ---- a setting, step by step ---- */

static void a_setting_goes_step_by_step_and_back(void **state)
{
    (void)state;
    turn_client c;
    bool put_back = false;
    unsigned steps = 0;
    client_begin(&c, GAUGES " --unsaved");
    for (unsigned i = 0; i < 60 && !client_is(&c, "end"); i++) {
        const json_t *adjust = json_object_get(part(&c, "fix"), "adjust");
        if (client_is(&c, "fix") && json_is_object(adjust)) {
            assert_int_equal(json_integer_value(json_object_get(adjust, "step")), ++steps);
            client_answer(&c, one("option", steps == 1 ? "better" : "no-change"));
        } else if (client_is(&c, "put-back")) {
            put_back = true;
            assert_true(json_number_value(json_object_get(adjust, "found")) !=
                        json_number_value(json_object_get(adjust, "from")));
            client_answer(&c, one("option", "put-back"));
        } else if (client_is(&c, "fix")) {
            client_answer(&c, one("option", "could-not"));
        } else if (client_is(&c, "question") && client_takes(&c, "reading")) {
            client_answer(&c, json_pack("{s:f}", "reading", steps == 0 ? 52.0 : 47.0));
        } else if (strcmp(text_in(part(&c, "question"), "name"), "hose") == 0) {
            client_answer(&c, one("option", "no"));
        } else {
            client_answer(&c, json_pack("{s:i}", "choice", 1));
        }
    }
    assert_true(put_back && steps == 2);
    client_end(&c);
}

/* ---- the words ---- */

static void words_answer_beside_the_question(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, one("word", "why"));
    assert_true(json_array_size(part(&c, "why")) > 0);
    assert_true(client_is(&c, "question"));
    client_answer(&c, one("word", "back"));
    assert_string_equal(client_text(&c, "wrong"), "There is no step to take back.");
    client_answer(&c, one("option", "no"));
    client_answer(&c, one("word", "known"));
    const json_t *facts = json_object_get(part(&c, "known"), "facts");
    assert_string_equal(text_in(json_array_get(facts, 0), "name"), "smoke");
    client_answer(&c, one("word", "back"));
    assert_true(client_is(&c, "question"));
    client_answer(&c, one("option", "no"));
    client_answer(&c, one("word", "change"));
    assert_true(client_is(&c, "change"));
    client_answer(&c, one("option", "smoke"));
    assert_true(json_is_true(json_object_get(part(&c, "question"), "once_more")));
    client_answer(&c, one("option", "yes"));
    assert_true(client_is(&c, "stop"));
    client_answer(&c, one("word", "stop"));
    assert_string_equal(client_text(&c, "how"), "stopped");
    assert_int_equal(client_end(&c), 3);
}

static void a_case_is_handed_over(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --cases cases");
    client_answer(&c, one("option", "no"));
    client_answer(&c, one("word", "hand over"));
    assert_true(client_is(&c, "to"));
    client_answer(&c, one("answer", "the night shift"));
    assert_true(client_is(&c, "note"));
    client_answer(&c, one("answer", "The caller rings back at six."));
    assert_string_equal(client_text(&c, "how"), "stopped");
    char number[16];
    snprintf(number, sizeof number, "%s", client_text(&c, "case"));
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(sh("$T ask --cases cases --case %s --no-input >out 2>err", number), 3);
    assert_holds("out", "The caller rings back at six.");
}

/* ---- what a program may get wrong ---- */

static void what_is_wrong_is_told_and_asked_again(void **state)
{
    static const struct {
        const char *line, *wrong;
    } bad[] = {
        {"", "An answer is a JSON object"},
        {"no", "An answer is a JSON object"},
        {"[1]", "An answer is a JSON object"},
        {"{\"answer\": \"no\"", "An answer is a JSON object"},
        {"{\"answer\": \"no\", \"answer\": \"yes\"}", "An answer is a JSON object"},
        {"{}", "There is no answer in it. Write one of these: \"choice\", \"option\""},
        {"{\"turn\": 1}", "answers turn 1, and was not counted"},
        {"{\"turn\": \"x\", \"choice\": 2}", "\"turn\" is the number of the turn"},
        {"{\"answr\": \"no\"}", "\"answr\" is no key of an answer"},
        {"{\"answer\": \"no\", \"choice\": 2}", "more than one answer"},
        {"{\"answer\": 2}", "\"answer\" is a text"},
        {"{\"choice\": 3}", "from 1 to 2"},
        {"{\"choice\": 0}", "from 1 to 2"},
        {"{\"choice\": 1.5}", "from 1 to 2"},
        {"{\"choice\": \"2\"}", "from 1 to 2"},
        {"{\"option\": \"maybe\"}", "\"maybe\" is none of the choices. They are: \"yes\", \"no\"."},
        {"{\"option\": null}", "takes the name or the text of a choice"},
        {"{\"options\": [\"yes\"]}", "\"options\" does not answer this"},
        {"{\"reading\": 2}", "\"reading\" does not answer this"},
        {"{\"word\": \"hello\"}", "\"word\" is one of these here: unsure"},
        {"{\"choice\": 2, \"unit\": \"psi\"}", "\"unit\" goes with \"reading\" alone"},
        {"{\"answer\": \"purple\"}", "Type "},
    };
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        client_say(&c, bad[i].line);
        const char *wrong = client_text(&c, "wrong");
        if (strstr(wrong, bad[i].wrong) == NULL) fail_msg("'%s' got '%s'", bad[i].line, wrong);
        assert_non_null(strstr(client_text(&c, "text"), wrong));
        assert_string_equal(text_in(part(&c, "question"), "name"), "smoke");
    }
    client_answer(&c, one("option", "no"));
    assert_true(client_is(&c, "complaint"));
    assert_string_equal(client_text(&c, "wrong"), "");
    assert_int_equal(client_end(&c), 3);
}

/* A page that is sent twice. */
static void an_answer_to_an_older_turn_does_not_count(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_say(&c, "{\"turn\": 1, \"choice\": 2}");
    assert_true(client_is(&c, "complaint"));
    client_say(&c, "{\"turn\": 1, \"choice\": 2}");
    assert_true(client_is(&c, "complaint"));
    assert_string_equal(client_text(&c, "wrong"), "That answers turn 1, and was not counted.");
    client_say(&c, "{\"turn\": 3, \"choice\": 2}");
    assert_true(client_is(&c, "fix"));
    client_end(&c);
}

static void a_line_that_is_too_long_is_one_wrong_answer(void **state)
{
    enum { LONG = 100000 };
    (void)state;
    turn_client c;
    char *line = malloc(LONG + 1);
    assert_non_null(line);
    memset(line, 'x', LONG);
    line[LONG] = 0;
    client_begin(&c, "$WELL --unsaved");
    client_say(&c, line);
    assert_non_null(strstr(client_text(&c, "wrong"), "too long"));
    line[4096] = 0;
    client_say(&c, line);
    assert_int_equal(c.turns, 3);
    client_answer(&c, one("option", "no"));
    assert_true(client_is(&c, "complaint"));
    free(line);
    client_end(&c);
}

static void a_reading_may_have_any_unit_that_fits(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, one("option", "no"));
    client_answer(&c, one("option", "low-pressure"));
    assert_string_equal(text_in(part(&c, "question"), "name"), "tank-gauge");
    assert_string_equal(text_in(part(&c, "question"), "unit"), "psi");
    client_say(&c, "{\"reading\": 3, \"unit\": \"gallons\"}");
    assert_true(strlen(client_text(&c, "wrong")) > 0);
    client_say(&c, "{\"reading\": 900}");
    assert_true(strlen(client_text(&c, "wrong")) > 0);
    client_say(&c, "{\"reading\": \"3\"}");
    assert_true(strlen(client_text(&c, "wrong")) > 0);
    client_say(&c, "{\"reading\": 3, \"unit\": \"bar\"}");
    assert_non_null(strstr(json_string_value(json_array_get(part(&c, "notes"), 0)), "43.5"));
    client_end(&c);
}

/* ---- begun by one, taken up by the other ---- */

static char number[16];

static void note_number(const turn_client *c)
{
    snprintf(number, sizeof number, "%s", client_text(c, "case"));
}

static void a_program_begins_and_a_person_goes_on(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --cases cases");
    note_number(&c);
    client_answer(&c, one("option", "no"));
    client_answer(&c, one("option", "short-cycling"));
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(sh("printf '1\\n1\\n' | $T ask --cases cases --case %s >out 2>err", number),
                     0);
    assert_holds("out", "is taken up again.");
    assert_holds("out", "Is there smoke at the pump? No");
    assert_holds("out", "The trouble is gone. What helped: Charge the tank with air");
}

static void a_person_begins_and_a_program_goes_on(void **state)
{
    (void)state;
    turn_client c;
    char arguments[64];
    assert_int_equal(
        sh("printf 'no\\nshort cycling\\n1\\n' | $T ask $WELL --cases cases >out 2>err"), 3);
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >number"), 0);
    char *said = contents("number");
    snprintf(arguments, sizeof arguments, "--cases cases --case %.7s", said);
    free(said);
    client_begin(&c, arguments);
    assert_true(client_is(&c, "fix"));
    assert_int_equal(json_array_size(json_object_get(part(&c, "known"), "facts")), 3);
    client_answer(&c, one("option", "gone"));
    while (!client_is(&c, "end")) answer_as_known(&c);
    assert_int_equal(client_end(&c), 0);
    client_begin(&c, arguments);
    assert_true(client_is(&c, "closed"));
    client_answer(&c, one("option", "reopen"));
    assert_true(client_is(&c, "fix"));
    assert_int_equal(client_end(&c), 3);
}

/* All records, without what differs from case to case. */
#define RECORDS \
    "cat %s/*/*/*/*.jsonl | sed -E 's/.*\"kind\"/\"kind\"/; s/\"number\":\"[^\"]*\"//g; " \
    "s/\"(hash|previous|before|time)\":\"[^\"]*\"//g; s/\"lamport\":[0-9]+//g' >%s"

static void both_leave_the_same_records(void **state)
{
    static const char *const typed[] = {
        "no", "it goes on and off", "1", "why", "back", "2", "2", "45 psi", "unsure", "stop"};
    (void)state;
    turn_client c;
    sh("rm -rf by-hand by-program");
    FILE *lines = fopen("lines", "w");
    assert_non_null(lines);
    client_begin(&c, "$WELL --cases by-program");
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        fprintf(lines, "%s\n", typed[i]);
        client_answer(&c, one("answer", typed[i]));
    }
    fclose(lines);
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(sh("$T ask $WELL --cases by-hand <lines >out 2>err"), 3);
    sh(RECORDS, "by-hand", "a");
    sh(RECORDS, "by-program", "b");
    assert_holds("a", "\"stop\"");
    assert_same("a", "b");
}

/* ---- ends ---- */

static void nothing_is_asked_without_input(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --no-input --cases cases");
    assert_true(client_is(&c, "end"));
    assert_string_equal(text_in(part(&c, "question"), "name"), "smoke");
    assert_true(json_is_object(part(&c, "known")));
    assert_int_equal(client_end(&c), 3);
}

static void a_signal_ends_with_a_turn(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --cases cases");
    kill(c.pid, SIGTERM);
    client_wait(&c);
    assert_string_equal(client_text(&c, "how"), "signal");
    assert_int_equal(client_end(&c), 128 + SIGTERM);
    assert_int_equal(sh("test -s client-err"), 1);
}

static void what_can_not_begin_ends_at_once(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "no-such-book --unsaved");
    assert_string_equal(client_text(&c, "how"), "failed");
    assert_int_equal(client_end(&c), 66);
    assert_holds("client-err", "no-such-book");
    assert_int_equal(sh("echo '{\"choice\":1}' | $T ask $WELL --unsaved --json >/dev/full 2>err"),
                     74);
}

/* Numbers of cases are few enough to meet. */
static int without_old_cases(void **state)
{
    (void)state;
    return sh("rm -rf cases");
}

int main(void)
{
    setenv("WELL", WELL, 1);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_program_drives_a_whole_case),
        cmocka_unit_test(a_fix_says_all_that_keeps_people_safe),
        cmocka_unit_test(a_danger_is_a_caution_and_a_stop),
        cmocka_unit_test(a_setting_goes_step_by_step_and_back),
        cmocka_unit_test(words_answer_beside_the_question),
        cmocka_unit_test(a_case_is_handed_over),
        cmocka_unit_test(what_is_wrong_is_told_and_asked_again),
        cmocka_unit_test(an_answer_to_an_older_turn_does_not_count),
        cmocka_unit_test(a_line_that_is_too_long_is_one_wrong_answer),
        cmocka_unit_test(a_reading_may_have_any_unit_that_fits),
        cmocka_unit_test(a_program_begins_and_a_person_goes_on),
        cmocka_unit_test(a_person_begins_and_a_program_goes_on),
        cmocka_unit_test(both_leave_the_same_records),
        cmocka_unit_test(nothing_is_asked_without_input),
        cmocka_unit_test(a_signal_ends_with_a_turn),
        cmocka_unit_test(what_can_not_begin_ends_at_once),
    };
    return cmocka_run_group_tests_name("cli turns", tests, without_old_cases, NULL);
}
