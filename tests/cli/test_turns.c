/* `ask --json`: a case driven by a program that knows only docs/turn.schema.json; the same case at
 * a terminal; a conversation played again byte for byte; and what a program may get wrong. */
#include "run_telltale.h"

#include <jansson.h>
#include <signal.h>

#include "turn_client.h"

#define GAUGES "'" TT_SOURCE_DIR "/tests/cli/regulator'" /* a path may hold spaces */

static json_t *choose(const char *name)
{
    return json_pack("{s:s}", "choice", name);
}

static json_t *word(const char *name)
{
    return json_pack("{s:s}", "word", name);
}

static json_t *say(const char *words)
{
    return json_pack("{s:s}", "answer", words);
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

static bool offers(const turn_client *c, const char *name)
{
    size_t i;
    const json_t *choice;
    json_array_foreach(part(c, "choices"), i,
                       choice) if (strcmp(text_in(choice, "name"), name) == 0) return true;
    return false;
}

/* ---- a whole case ---- */

/* What this house is like; the rest nobody knows. */
static json_t *reply_as_known(const turn_client *c)
{
    const char *name = text_in(part(c, "question"), "name");
    if (client_is(c, "complaint")) return say("it goes on and off");
    if (strcmp(name, "smoke") == 0) return choose("no");
    if (strcmp(name, "pump-sound") == 0) return choose("rapid");
    if (strcmp(name, "tank-gauge") == 0)
        return json_pack("{s:f, s:s}", "reading", 3.0, "unit", "bar");
    if (*name != 0) return word("unsure");
    if (client_is(c, "fix")) return choose("gone");
    return json_pack("{s:i}", "choice", 1);
}

static void a_program_drives_a_whole_case(void **state)
{
    (void)state;
    turn_client c;
    bool complained = false, stepped = false;
    client_begin(&c, "$WELL --cases cases");
    assert_string_equal(text_in(part(&c, "book"), "name"), "House well");
    assert_int_equal(json_array_size(json_object_get(part(&c, "book"), "cautions")), 1);
    assert_true(json_is_null(part(&c, "case"))); /* nothing was said yet */
    assert_true(client_is(&c, "danger"));
    assert_true(json_is_true(json_object_get(part(&c, "question"), "danger_first")));
    assert_true(json_is_false(json_object_get(part(&c, "gate"), "open")));
    while (!client_is(&c, "end")) {
        complained = complained || client_is(&c, "complaint");
        stepped = stepped || client_is(&c, "fix-step");
        client_answer(&c, reply_as_known(&c));
        assert_string_equal(client_wrong(&c), "");
        assert_int_equal(strlen(client_text(&c, "case")), 7);
    }
    assert_true(complained && stepped);
    assert_string_equal(client_text(&c, "how"), "gone");
    assert_string_equal(text_in(json_array_get(part(&c, "tried"), 0), "name"), "recharge-tank");
    assert_int_equal(client_end(&c), 0);
    assert_int_equal(sh("test -s client-err"), 1);
}

static void a_fix_says_all_that_keeps_people_safe(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    while (!client_is(&c, "before-fix")) client_answer(&c, reply_as_known(&c));
    const json_t *fix = part(&c, "fix"), *safety = json_object_get(fix, "safety");
    assert_string_equal(text_in(safety, "unprotected_risk"), "serious");
    assert_string_equal(text_in(safety, "risk"), "medium");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "isolate"), 0)),
                        "Switch the pump off at its breaker and lock it.");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "wear"), 0)),
                        "Safety glasses");
    assert_string_equal(text_in(safety, "while"), "isolated");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "procedures"), 0)),
                        "lock-the-pump");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "tell"), 0)),
                        "Tell everybody in the house that the water goes off.");
    assert_string_equal(json_string_value(json_array_get(json_object_get(safety, "prove"), 0)),
                        "Try to start the pump. It must stay still.");
    assert_int_equal(json_array_size(json_object_get(safety, "release")), 1);
    assert_int_equal(json_array_size(json_object_get(safety, "restore")), 3);
    assert_int_equal(json_array_size(json_object_get(fix, "steps")), 2);
    assert_string_equal(text_in(json_array_get(part(&c, "causes"), 0), "name"), "tank-waterlogged");
    client_answer(&c, choose("begin"));
    for (json_int_t step = 1; client_is(&c, "fix-step"); step++) {
        assert_int_equal(json_integer_value(part(&c, "step")), step);
        assert_int_equal(json_integer_value(part(&c, "steps")),
                         9); /* 4 before the work, 2 of it, 3 after */
        client_answer(&c, choose("done"));
    }
    assert_true(client_is(&c, "look-again"));
    client_answer(&c, json_pack("{s:f}", "reading", 45.0));
    client_answer(&c, choose("no-change"));
    assert_true(client_is(&c, "put-back")); /* it was given back, so it is made safe first */
    client_answer(&c, choose("begin"));
    for (json_int_t step = 1; client_is(&c, "fix-step"); step++) {
        assert_int_equal(json_integer_value(part(&c, "step")), step);
        assert_int_equal(json_integer_value(part(&c, "steps")), 8);
        client_answer(&c, choose("done"));
    }
    assert_true(client_is(&c, "put-back"));
    client_answer(&c, choose("put-back"));
    assert_false(client_is(&c, "put-back"));
    assert_int_equal(client_end(&c), 3);
}

static void a_danger_is_a_caution_and_a_stop(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, choose("yes"));
    assert_true(client_is(&c, "stop"));
    assert_true(json_is_true(part(&c, "dangerous")));
    const json_t *caution = json_array_get(part(&c, "cautions"), 0);
    assert_string_equal(text_in(caution, "signal"), "danger");
    assert_true(json_is_true(json_object_get(caution, "new")));
    assert_false(offers(&c, "close"));
    client_answer(&c, word("known"));
    assert_true(json_is_false(json_object_get(json_array_get(part(&c, "cautions"), 0), "new")));
    for (size_t i = 0; i < json_array_size(json_object_get(part(&c, "known"), "fixes")); i++)
        assert_true(json_is_true(json_object_get(
            json_array_get(json_object_get(part(&c, "known"), "fixes"), i), "held")));
    client_answer(&c, choose("go-on"));
    assert_true(client_is(&c, "stop"));
    assert_int_equal(client_end(&c), 3);
}

/* ---- a setting, step by step ---- */

static void a_setting_goes_step_by_step_and_back(void **state)
{
    (void)state;
    turn_client c;
    bool put_back = false;
    json_int_t steps = 0;
    client_begin(&c, GAUGES " --unsaved");
    for (unsigned i = 0; i < 80 && !client_is(&c, "end") && !put_back; i++) {
        const json_t *adjust = json_object_get(part(&c, "fix"), "adjust");
        if (json_is_object(adjust) && client_is(&c, "before-fix"))
            steps = json_integer_value(json_object_get(adjust, "step"));
        if (client_is(&c, "put-back")) {
            put_back = true;
            assert_true(json_number_value(json_object_get(adjust, "found")) !=
                        json_number_value(json_object_get(adjust, "from")));
            client_answer(&c, choose("put-back"));
        } else if (client_is(&c, "fix")) {
            client_answer(&c, choose(!json_is_object(adjust) ? "could-not"
                                     : steps == 1            ? "better"
                                                             : "no-change"));
        } else if (client_takes(&c, "reading")) {
            client_answer(&c, json_pack("{s:f}", "reading", steps == 0 ? 52.0 : 47.0));
        } else if (strcmp(text_in(part(&c, "question"), "name"), "hose") == 0) {
            client_answer(&c, choose("no"));
        } else {
            client_answer(&c, json_pack("{s:i}", "choice", 1));
        }
    }
    assert_true(put_back && steps == 2);
    client_end(&c);
}

/* ---- replies as what they are ---- */

static void several_answers_come_in_one_message(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_say(&c, "{\"answers\": [{\"question\": \"smoke\", \"choice\": \"no\"}, {\"question\": "
                   "\"tank-gauge\", \"reading\": 3, \"unit\": \"bar\"}, "
                   "{\"question\": \"drip\", \"choice\": \"unsure\"}]}");
    assert_string_equal(client_wrong(&c), "");
    client_answer(&c, word("known"));
    const json_t *facts = json_object_get(part(&c, "known"), "facts");
    assert_int_equal(json_array_size(facts), 3);
    client_answer(&c, choose("go-on"));
    client_say(&c, "{\"answers\": [{\"question\": \"pump-sound\", \"choice\": \"rapid\"}, "
                   "{\"question\": \"no-such\", \"choice\": \"x\"}]}");
    assert_string_equal(client_wrong(&c), "no-such-question");
    client_answer(&c, word("known"));
    assert_int_equal(json_array_size(json_object_get(part(&c, "known"), "facts")),
                     3); /* all of them, or none */
    client_end(&c);
}

static void words_answer_beside_the_question(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, word("why"));
    assert_true(client_is(&c, "why"));
    client_answer(&c, choose("go-on"));
    client_answer(&c, word("back"));
    assert_string_equal(client_wrong(&c), "nothing-back");
    client_answer(&c, choose("no"));
    client_answer(&c, word("known"));
    assert_string_equal(
        text_in(json_array_get(json_object_get(part(&c, "known"), "facts"), 0), "name"), "smoke");
    client_answer(&c, choose("go-on"));
    client_answer(&c, word("back"));
    assert_true(client_is(&c, "danger"));
    client_answer(&c, choose("no"));
    client_answer(&c, word("change"));
    assert_true(client_is(&c, "change"));
    client_answer(&c, choose("smoke"));
    assert_true(json_is_true(json_object_get(part(&c, "question"), "once_more")));
    client_answer(&c, choose("yes"));
    assert_true(client_is(&c, "stop"));
    client_answer(&c, word("stop"));
    assert_string_equal(client_text(&c, "how"), "stopped");
    assert_int_equal(client_end(&c), 3);
}

static void a_case_is_handed_over(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --cases cases");
    client_answer(&c, choose("no"));
    client_answer(&c, word("hand over"));
    assert_true(client_is(&c, "to"));
    client_answer(&c, say("the night shift"));
    assert_true(client_is(&c, "note"));
    client_answer(&c, say("The caller rings back at six."));
    assert_string_equal(client_text(&c, "how"), "stopped");
    char number[16];
    snprintf(number, sizeof number, "%s", client_text(&c, "case"));
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(sh("$T ask --cases cases --case %s --no-input >out 2>err", number), 3);
    assert_holds("out", "The caller rings back at six.");
}

/* A digit of a menu at a gauge is a reading all the same, if it comes as one. */
static void a_reading_is_no_menu_digit(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_answer(&c, choose("no"));
    client_answer(&c, choose("low-pressure"));
    assert_string_equal(text_in(part(&c, "question"), "name"), "tank-gauge");
    assert_string_equal(text_in(part(&c, "question"), "unit"), "psi");
    client_say(&c, "{\"reading\": 3, \"unit\": \"gallons\"}");
    assert_string_not_equal(client_wrong(&c), "");
    client_say(&c, "{\"reading\": 900}");
    assert_string_not_equal(client_wrong(&c), "");
    client_say(&c, "{\"reading\": 3, \"unit\": null}");
    assert_string_equal(client_wrong(&c), "");
    assert_string_not_equal(text_in(part(&c, "question"), "name"), "tank-gauge");
    client_end(&c);
}

/* ---- what a program may get wrong ---- */

static void what_is_wrong_is_told_and_asked_again(void **state)
{
    static const struct {
        const char *line, *code;
    } bad[] = {
        {"", "no-json"},
        {"no", "no-json"},
        {"[1]", "no-object"},
        {"{\"answer\": \"no\"", "no-json"},
        {"{\"answer\": \"no\", \"answer\": \"yes\"}", "no-json"},
        {"{}", "no-answer"},
        {"{\"turn\": 0, \"choice\": 2}", "stale-turn"},
        {"{\"answr\": \"no\"}", "unknown-key"},
        {"{\"choice\": 3}", "no-such-choice"},
        {"{\"choice\": \"maybe\"}", "no-such-choice"},
        {"{\"options\": [\"yes\"]}", "not-here"},
        {"{\"reading\": 2}", "not-here"},
        {"{\"word\": \"hello\"}", "no-such-word"},
        {"{\"begin\": {}, \"choice\": 1}", "begin-too-late"},
    };
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        client_say(&c, bad[i].line);
        if (strcmp(client_wrong(&c), bad[i].code) != 0)
            fail_msg("'%s' got '%s'", bad[i].line, client_wrong(&c));
        assert_string_equal(text_in(part(&c, "question"), "name"), "smoke");
        assert_int_equal(c.turns, 1);
    }
    client_answer(&c, choose("no"));
    assert_true(client_is(&c, "complaint"));
    assert_string_equal(client_wrong(&c), "");
    assert_int_equal(client_end(&c), 3);
}

/* A page that is sent twice. */
static void a_reply_to_an_older_turn_does_not_count(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --unsaved");
    client_say(&c, "{\"turn\": 1, \"choice\": 2}");
    assert_true(client_is(&c, "complaint"));
    client_say(&c, "{\"turn\": 1, \"choice\": 2}");
    assert_true(client_is(&c, "complaint"));
    assert_string_equal(client_wrong(&c), "stale-turn");
    client_say(&c, "{\"turn\": 2, \"choice\": 2}");
    assert_false(client_is(&c, "complaint"));
    client_end(&c);
}

static void a_line_that_is_too_long_is_one_wrong_reply(void **state)
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
    assert_string_equal(client_wrong(&c), "too-long");
    line[4096] = 0;
    client_say(&c, line);
    assert_int_equal(c.lines, 3);
    client_answer(&c, choose("no"));
    assert_true(client_is(&c, "complaint"));
    free(line);
    client_end(&c);
}

/* ---- begun by one, taken up by the other ---- */

static char number[16];

static void a_program_begins_and_a_person_goes_on(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --cases cases");
    client_answer(&c, choose("no"));
    client_answer(&c, choose("short-cycling"));
    snprintf(number, sizeof number, "%s", client_text(&c, "case"));
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(
        sh("printf 'no\\n40\\n1\\n1\\n1\\n1\\n1\\n1\\n1\\n1\\n1\\n1\\n1\\n45\\n1\\n1\\n' | $T ask "
           "--cases "
           "cases --case %s >out 2>err",
           number),
        0);
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
    assert_true(client_is(&c, "danger")); /* a sitting of its own */
    while (!client_is(&c, "end")) client_answer(&c, reply_as_known(&c));
    assert_string_equal(client_text(&c, "how"), "gone");
    assert_int_equal(client_end(&c), 0);
    client_begin(&c, arguments);
    assert_true(client_is(&c, "closed"));
    client_answer(&c, choose("reopen"));
    assert_true(client_is(&c, "danger"));
    assert_int_equal(client_end(&c), 3);
}

/* ---- ends ---- */

static void nothing_is_asked_without_input(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, "$WELL --no-input --cases cases");
    assert_true(client_is(&c, "known"));
    assert_true(json_is_object(part(&c, "known")));
    client_wait(&c);
    assert_string_equal(text_in(part(&c, "question"), "name"), "smoke");
    client_wait(&c);
    assert_true(client_is(&c, "end"));
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
        cmocka_unit_test_setup(a_program_drives_a_whole_case, without_old_cases),
        cmocka_unit_test_setup(a_fix_says_all_that_keeps_people_safe, without_old_cases),
        cmocka_unit_test_setup(a_danger_is_a_caution_and_a_stop, without_old_cases),
        cmocka_unit_test_setup(a_setting_goes_step_by_step_and_back, without_old_cases),
        cmocka_unit_test_setup(several_answers_come_in_one_message, without_old_cases),
        cmocka_unit_test_setup(words_answer_beside_the_question, without_old_cases),
        cmocka_unit_test_setup(a_case_is_handed_over, without_old_cases),
        cmocka_unit_test_setup(a_reading_is_no_menu_digit, without_old_cases),
        cmocka_unit_test_setup(what_is_wrong_is_told_and_asked_again, without_old_cases),
        cmocka_unit_test_setup(a_reply_to_an_older_turn_does_not_count, without_old_cases),
        cmocka_unit_test_setup(a_line_that_is_too_long_is_one_wrong_reply, without_old_cases),
        cmocka_unit_test_setup(a_program_begins_and_a_person_goes_on, without_old_cases),
        cmocka_unit_test_setup(a_person_begins_and_a_program_goes_on, without_old_cases),
        cmocka_unit_test_setup(nothing_is_asked_without_input, without_old_cases),
        cmocka_unit_test_setup(a_signal_ends_with_a_turn, without_old_cases),
        cmocka_unit_test_setup(what_can_not_begin_ends_at_once, without_old_cases),
    };
    return cmocka_run_group_tests_name("cli turns", tests, NULL, NULL);
}
