/* Replies of programs: what each means, and the code of each way to be wrong. */
#include "testing.h"

#include <math.h>

#include "show/json.h"
#include "show/reply_fields.h"
#include "test_sources.h"

static const tt_turn_choice choices[] = {{"thin", "Thin", NULL, NULL},
                                         {"stiff", "Stiff", NULL, NULL}},
                            words[] = {{"danger", "", NULL, NULL}, {"unsure", "", NULL, NULL}};

static tt_turn a_turn(void)
{
    tt_turn t = {.number = 7,
                 .kind = TT_TURN_QUESTION,
                 .choices = choices,
                 .choice_count = 2,
                 .words = words,
                 .word_count = 2,
                 .wrong = "",
                 .wrong_code = ""};
    t.takes.reading = true;
    t.takes.several = true;
    return t;
}

static tt_value value_from(arena *a, const char *json)
{
    tt_value v;
    json_fault fault;
    assert_true(json_read(a, str_of(json), 4096, &v, &fault));
    return v;
}

static void each_way_to_reply_is_what_it_is(void **state)
{
    (void)state;
    arena *a = test_arena();
    const tt_turn t = a_turn();
    reply_read_out out;
    reply_fault fault;
#define READ(json) \
    assert_true(reply_read_value(a, &t, 3, (const tt_value[]){value_from(a, json)}, &out, &fault))
    READ("{\"choice\": \"stiff\"}");
    assert_string_equal(out.heard.choice, "stiff");
    assert_null(out.heard.words);
    assert_int_equal(out.heard.turn, 7);
    READ("{\"choice\": 1, \"turn\": 3}");
    assert_string_equal(out.heard.choice, "thin");
    READ("{\"reading\": 3.5, \"unit\": null}");
    assert_true(*out.heard.number == 3.5 && out.heard.unit == NULL && out.heard.words == NULL);
    READ("{\"reading\": 3, \"unit\": \"bar\"}");
    assert_string_equal(out.heard.unit, "bar");
    READ("{\"options\": [\"thin\", \"stiff\"]}");
    assert_int_equal(out.heard.several_count, 2);
    READ("{\"word\": \"unsure\"}");
    assert_string_equal(out.heard.choice, "unsure");
    READ("{\"answer\": \"it is\\tthin\\u001b[2J\\nor so\", \"now\": \"2026-11-29T09:12:00Z\"}");
    assert_string_equal(out.heard.words, "it is thin or so");
    assert_string_equal(out.now, "2026-11-29T09:12:00Z");
    READ("{\"answers\": [{\"question\": \"foam\", \"choice\": \"thin\"}, {\"question\": \"air\", "
         "\"reading\": 45, \"unit\": \"psi\"}, "
         "{\"question\": \"hose\", \"not\": [\"full\"]}]}");
    assert_int_equal(out.heard.given_count, 3);
    assert_string_equal(out.heard.given[0].choice, "thin");
    assert_true(out.heard.given[1].choice == NULL && out.heard.given[1].number == 45);
    assert_string_equal(out.heard.given[2].not_these[0], "full");
    READ("{\"language\": \"de-CH\"}"); /* a book may speak it, though we don't */
    assert_string_equal(out.heard.language, "de-CH");
    assert_null(out.heard.choice);
#undef READ
    arena_free(a);
}

static void each_way_to_be_wrong_has_its_code(void **state)
{
    static const struct {
        const char *said, *code;
    } wrong[] = {
        {"[1]", "no-object"},
        {"{}", "no-answer"},
        {"{\"turn\": 3}", "no-answer"},
        {"{\"choice\": 1, \"word\": \"danger\"}", "several-answers"},
        {"{\"choise\": 1}", "unknown-key"},
        {"{\"choice\": 1, \"turn\": 2}", "stale-turn"},
        {"{\"choice\": 1, \"turn\": \"3\"}", "wrong-type"},
        {"{\"choice\": 1, \"now\": \"noon\"}", "wrong-type"},
        {"{\"choice\": 3}", "no-such-choice"},
        {"{\"choice\": 1.5}", "no-such-choice"},
        {"{\"choice\": \"Thin\"}", "no-such-choice"},
        {"{\"choice\": true}", "wrong-type"},
        {"{\"options\": []}", "wrong-type"},
        {"{\"options\": [\"dry\"]}", "no-such-choice"},
        {"{\"options\": [1]}", "wrong-type"},
        {"{\"reading\": \"3\"}", "wrong-type"},
        {"{\"reading\": 3, \"unit\": 4}", "wrong-type"},
        {"{\"choice\": 1, \"unit\": \"psi\"}", "wrong-type"},
        {"{\"word\": \"back\"}", "no-such-word"},
        {"{\"word\": 1}", "wrong-type"},
        {"{\"answer\": 1}", "wrong-type"},
        {"{\"answers\": {}}", "wrong-type"},
        {"{\"answers\": [{\"choice\": \"thin\"}]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\"}]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"choice\": \"thin\", \"reading\": 1}]}",
         "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"choice\": \"thin\", \"why\": 1}]}",
         "unknown-key"},
        {"{\"answers\": []}", "wrong-type"},
        {"{\"answers\": [1]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"reading\": \"45\"}]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"choice\": \"thin\", \"unit\": \"psi\"}]}",
         "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"not\": []}]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"not\": \"thin\"}]}", "wrong-type"},
        {"{\"answers\": [{\"question\": \"foam\", \"not\": [1]}]}", "wrong-type"},
        {"{\"options\": \"thin\"}", "wrong-type"},
        {"{\"language\": 1}", "wrong-type"},
        {"{\"language\": \"\"}", "wrong-type"},
        {"{\"language\": \"d\"}", "wrong-type"},
        {"{\"language\": \"de_CH\"}", "wrong-type"},
        {"{\"language\": \"de-a234567890123456789012345678901234\"}", "wrong-type"},
        {"{\"begin\": {}}", "begin-too-late"},
    };
    (void)state;
    arena *a = test_arena();
    const tt_turn t = a_turn();
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const tt_value said = value_from(a, wrong[i].said);
        reply_read_out out;
        reply_fault fault;
        assert_false(reply_read_value(a, &t, 3, &said, &out, &fault));
        assert_string_equal(fault.code, wrong[i].code);
        assert_true(*fault.text != 0);
    }
    arena_free(a);
}

static void what_does_not_answer_here_is_said(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_turn t = a_turn();
    t.takes.reading = t.takes.several = false;
    t.kind = TT_TURN_SITE_NAME;
    static const char *const none_here[] = {
        "{\"reading\": 1}", "{\"options\": [\"thin\"]}",
        "{\"answers\": [{\"question\": \"foam\", \"choice\": \"thin\"}]}"};
    for (size_t i = 0; i < 3; i++) {
        const tt_value said = value_from(a, none_here[i]);
        reply_read_out out;
        reply_fault fault;
        assert_false(reply_read_value(a, &t, 3, &said, &out, &fault));
        assert_string_equal(fault.code, "not-here");
    }
    arena_free(a);
}

static void a_beginning_is_read_or_refused(void **state)
{
    static const char *const wrong[] = {"{\"begin\": 1}",
                                        "{\"begin\": {\"case\": 1}}",
                                        "{\"begin\": {\"who\": \"x\"}}",
                                        "{\"begin\": {}, \"choice\": 1}",
                                        "{\"begin\": {\"case\": \"x\"}}",
                                        "{\"begin\": {\"now\": \"x\"}}",
                                        "{\"begin\": {\"writer\": \"../x\"}}",
                                        "{\"begin\": {\"writer\": \"\"}}"};
    (void)state;
    arena *a = test_arena();
    beginning b;
    reply_fault fault;
    const tt_value said = value_from(
        a, "{\"version\": 2, \"begin\": {\"case\": \"019b1b48-9420-7e45-8172-00002235a41d\", "
           "\"writer\": \"desk-3\", \"now\": \"2026-11-29T09:12:00Z\"}}");
    assert_true(is_beginning(&said) && beginning_read(&said, &b, &fault));
    assert_string_equal(b.writer, "desk-3");
    assert_string_equal(b.now, "2026-11-29T09:12:00Z");
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const tt_value bad = value_from(a, wrong[i]);
        assert_false(beginning_read(&bad, &b, &fault));
        assert_true(*fault.code != 0 && *fault.text != 0);
    }
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_way_to_reply_is_what_it_is),
        cmocka_unit_test(each_way_to_be_wrong_has_its_code),
        cmocka_unit_test(what_does_not_answer_here_is_said),
        cmocka_unit_test(a_beginning_is_read_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
