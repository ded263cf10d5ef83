/* What happened in a case, record by record, and what is in dispute: as a sheet tells it. */
#include "book_folder.h"
#include "journal_kit.h"
#include "test_sources.h"
#include "testing.h"

#define NO \
    "{\"question\":\"danger\",\"reply\":{\"kind\":\"answer\",\"option\":\"safe\"},\"typed\":" \
    "\"no\"}"

typedef struct seen {
    tt_book *b;
    tt_talk *talk;
    tt_history told;
} seen;

static void look(seen *s, const journal_kit *k)
{
    const tt_talk_options options = {
        .writer = "east", .look_only = true, .number = "", .how = "resume"};
    const tt_record *keep;
    uint32_t count;
    s->b = book_folder("rules/foam-line");
    assert_int_equal(tt_talk_new(s->b, &options, &s->talk), TT_OK);
    assert_int_equal(tt_talk_take(s->talk, k->records, k->count), TT_OK);
    assert_int_equal(tt_talk_begin(s->talk, k->records[k->count - 1].time, &keep, &count), TT_OK);
    assert_int_equal(count, 0); /* who only looks keeps nothing */
    assert_int_equal(tt_talk_history(s->talk, &s->told), TT_OK);
}

static void look_away(seen *s)
{
    tt_talk_free(s->talk);
    tt_book_free(s->b);
}

static journal_kit begun(arena *a)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin",
            "{\"title\":\"Foam line\",\"by\":\"east desk\",\"on\":\"desk-3\"}");
    return k;
}

static const tt_told *told_of(const seen *s, uint32_t index)
{
    assert_true(index < s->told.count);
    return &s->told.items[index];
}

static void each_record_is_told_in_words(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "complaint",
            "{\"symptom\":\"foam-too-dry\",\"said\":\"it is stiff\",\"text\":\"old words\"}");
    kit_add(&k, "east", "answer",
            "{\"question\":\"foam-air\",\"reply\":{\"kind\":\"number\",\"number\":55,\"unit\":"
            "\"psi\"},\"typed\":\"55\"}");
    kit_add(&k, "east", "hold", "{\"note\":\"the caller fetches a gauge\"}");
    kit_add(&k, "east", "measured",
            "{\"fix\":\"foam-air-to-mark\",\"question\":\"foam-air\",\"reply\":{\"kind\":"
            "\"number\",\"number\":30,\"unit\":"
            "\"psi\"},\"when\":\"after\",\"words\":\"30 psi\"}");
    look(&s, &k);
    assert_int_equal(s.told.count, 5);
    assert_string_equal(told_of(&s, 0)->text, "Began the case");
    assert_string_equal(told_of(&s, 0)->person, "east desk");
    assert_string_equal(told_of(&s, 1)->text, "What is wrong");
    assert_string_equal(told_of(&s, 1)->typed, "it is stiff");
    assert_string_not_equal(told_of(&s, 1)->result, "old words"); /* the rules say it best */
    assert_string_equal(told_of(&s, 2)->about, "foam-air");
    assert_string_equal(told_of(&s, 2)->result, "55 psi");
    assert_string_equal(told_of(&s, 3)->text, "Put the case on hold: the caller fetches a gauge");
    assert_string_equal(told_of(&s, 4)->text, told_of(&s, 2)->text);
    assert_string_equal(told_of(&s, 4)->result, "30 psi");
    look_away(&s);
    arena_free(a);
}

/* In the words of the rules; of rules that have it no more, in those that it was kept with. */
static void what_it_was_is_told_in_words(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "confirm",
            "{\"how\":\"yes\",\"cause\":\"foam-valve-sticks\",\"cause_text\":\"old words\"}");
    kit_add(&k, "east", "confirm",
            "{\"how\":\"yes\",\"cause\":\"no-such-cause\",\"cause_text\":\"old words\"}");
    look(&s, &k);
    assert_int_equal(s.told.count, 3);
    assert_string_equal(told_of(&s, 1)->result, "The foam valve clicks but stays shut");
    assert_string_equal(told_of(&s, 2)->result, "old words");
    look_away(&s);
    arena_free(a);
}

/* Of rules that have no such fix any more. */
static void a_step_of_a_fix_that_is_gone_is_left_out(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "step",
            "{\"fix\":\"no-such-fix\",\"index\":0,\"how\":\"done\",\"text\":\"Open it\"}");
    kit_add(&k, "east", "step", "{\"fix\":\"no-such-fix\",\"index\":0,\"how\":\"back\"}");
    look(&s, &k);
    assert_int_equal(s.told.count, 3);
    assert_true(told_of(&s, 1)->left_out && told_of(&s, 2)->left_out);
    look_away(&s);
    arena_free(a);
}

/* What was said is kept before it is confirmed: told once all the same. */
static void words_of_a_complaint_are_told_with_it(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "said", "{\"words\":\"it is stiff\"}");
    kit_add(&k, "east", "said", "{\"words\":\"the radio is loud\"}");
    kit_add(&k, "east", "complaint", "{\"symptom\":\"foam-too-dry\",\"said\":\"it is stiff\"}");
    look(&s, &k);
    assert_int_equal(s.told.count, 3);
    assert_string_equal(told_of(&s, 1)->text, "Said: \xE2\x80\x9Cthe radio is loud\xE2\x80\x9D");
    assert_string_equal(told_of(&s, 2)->typed, "it is stiff");
    look_away(&s);
    arena_free(a);
}

static void what_no_longer_counts_is_marked(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "answer",
            "{\"question\":\"foam-air\",\"reply\":{\"kind\":\"number\",\"number\":55,\"unit\":"
            "\"psi\"},\"typed\":\"55\"}");
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":2}}");
    kit_add(&k, "east", "answer",
            "{\"question\":\"no-such-question\",\"asked\":\"Is it "
            "blue?\",\"words\":\"Yes\",\"reply\":{}}");
    look(&s, &k);
    assert_int_equal(s.told.count, 3); /* `back` is told by what it took */
    assert_true(told_of(&s, 1)->taken_back && !told_of(&s, 1)->left_out);
    assert_string_equal(told_of(&s, 1)->result, "55 psi");
    assert_true(told_of(&s, 2)->left_out && !told_of(&s, 2)->taken_back);
    assert_string_equal(told_of(&s, 2)->text,
                        "Is it blue?"); /* in the words that it was kept with */
    assert_string_equal(told_of(&s, 2)->result, "Yes");
    look_away(&s);
    arena_free(a);
}

static void cautions_are_told_once_with_their_first_moment(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    kit_add(&k, "east", "answer", NO);
    look(&s, &k);
    const tt_book_info info = tt_book_describe(s.b);
    assert_true(info.caution_count > 0 && s.told.caution_count >= info.caution_count);
    for (uint32_t i = 0; i < info.caution_count; i++) {
        assert_string_equal(s.told.cautions[i].text, info.cautions[i]);
        assert_string_equal(s.told.cautions[i].signal, "");
        assert_string_equal(s.told.cautions[i].time, k.records[0].time);
    }
    look_away(&s);
    arena_free(a);
}

static void what_two_said_differently_is_told(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    const char *const *unsettled;
    uint32_t count;
    kit_aware(&k, "west", "resume", "{\"by\":\"west desk\"}");
    kit_add(&k, "east", "answer",
            "{\"question\":\"foam-air\",\"reply\":{\"kind\":\"number\",\"number\":55,\"unit\":"
            "\"psi\"}}");
    kit_add(&k, "west", "answer",
            "{\"question\":\"foam-air\",\"reply\":{\"kind\":\"number\",\"number\":40,\"unit\":"
            "\"psi\"}}");
    look(&s, &k);
    assert_int_equal(tt_talk_unsettled(s.talk, &unsettled, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_non_null(strstr(unsettled[0], "55 psi (east desk, "));
    assert_non_null(strstr(unsettled[0], "; but: "));
    assert_non_null(strstr(unsettled[0], "40 psi (west desk, "));
    look_away(&s);
    arena_free(a);
}

/* It plays the records anew, and leaves the case as it was. */
static void telling_changes_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    seen s;
    const tt_view *view;
    kit_add(&k, "east", "answer", NO);
    kit_add(&k, "east", "complaint", "{\"symptom\":\"foam-too-dry\"}");
    look(&s, &k);
    assert_int_equal(tt_look(tt_talk_case(s.talk), &view), TT_OK);
    const tt_step step = view->step;
    const uint32_t question = view->next.question;
    assert_int_equal(tt_talk_history(s.talk, &s.told), TT_OK);
    assert_int_equal(s.told.count, 3);
    assert_int_equal(tt_look(tt_talk_case(s.talk), &view), TT_OK);
    assert_int_equal(view->step, step);
    assert_int_equal(view->next.question, question);
    look_away(&s);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_record_is_told_in_words),
        cmocka_unit_test(what_it_was_is_told_in_words),
        cmocka_unit_test(a_step_of_a_fix_that_is_gone_is_left_out),
        cmocka_unit_test(words_of_a_complaint_are_told_with_it),
        cmocka_unit_test(what_no_longer_counts_is_marked),
        cmocka_unit_test(cautions_are_told_once_with_their_first_moment),
        cmocka_unit_test(what_two_said_differently_is_told),
        cmocka_unit_test(telling_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
