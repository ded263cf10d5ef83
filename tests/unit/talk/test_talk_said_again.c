/* The complaint of a case, said once more in the middle of it: known already. It is no answer to
 * what is asked, and none to anything else. */
#include "one_desk.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/value.h"

typedef one_desk scene;

static uint32_t records_of(const record_folder *f, const char *kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < f->count; i++) count += strcmp(f->records[i].kind, kind) == 0;
    return count;
}

static uint32_t steps_of(const record_folder *f)
{
    return records_of(f, "answer") + records_of(f, "complaint") + records_of(f, "again") +
           records_of(f, "tried");
}

static bool news_say(const tt_turn *turn, const char *words)
{
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count; k++)
            if (strstr(turn->news[i].items[k], words) != NULL) return true;
    return false;
}

/* Another kind of question each time: what is heard, a number, what is seen. */
static void it_answers_nothing(void **state)
{
    static const char *const said[] = {
        "it is still too dry",    "foam still dry",    "still dry",
        "the foam is dry",        "same dry foam",     "sigue muy seca",
        "la espuma sigue seca",   "todavia sale seca", "the foam is too dry",
        "la espuma esta muy seca"};
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "the foam is too dry");
    const tt_turn *turn = type(&s->east, "yes");
    for (unsigned questions = 0; questions < 4 && turn->kind == TT_TURN_QUESTION; questions++) {
        for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
            char subject[80];
            snprintf(subject, sizeof subject, "%s", turn->subject);
            const uint32_t steps = steps_of(s->f), words = records_of(s->f, "said");
            turn = type(&s->east, said[i]);
            if (steps_of(s->f) != steps)
                fail_msg("%s at %s: taken for an answer", said[i], subject);
            assert_int_equal(records_of(s->f, "said"), words + 1);
            assert_string_equal(turn->subject, subject);
            assert_true(news_say(turn, "The foam is too dry"));
            assert_string_equal(turn->wrong, "");
        }
        turn = choose(&s->east, "unsure");
    }
}

/* What comes along with it is taken. */
static void what_else_is_said_counts(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "the foam is too dry");
    type(&s->east, "yes");
    const tt_turn *turn = type(&s->east, "foam still dry, foam air 55 psi");
    assert_true(news_say(turn, "Known already: The foam is too dry."));
    assert_true(news_say(turn, "55 psi"));
    assert_int_equal(records_of(s->f, "complaint"), 1);
    turn = type(&s->east, "the roof gets no foam");
    assert_turn(turn, TT_TURN_CONFIRM); /* another one is none of this */
    assert_string_equal(turn->subject, "bare-roof");
}

/* What was not told is no repetition; what denies it, none either. */
static void only_what_was_told_is_known(void **state)
{
    static const char *const said[] = {"the foam is not dry any more", "foam still too wet",
                                       "la espuma ya no sale seca"};
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "the foam is too dry");
    type(&s->east, "yes");
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        assert_false(news_say(type(&s->east, said[i]), "Known already"));
}

/* Asked what came of a fix, it means that it did not help. */
static void after_a_fix_it_did_not_help(void **state)
{
    static const char *const said[] = {"foam still dry", "it is still too dry", "still dry",
                                       "la espuma sigue seca", "the foam is dry"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        reach_foam_fix(&s->east);
        const tt_turn *turn = choose(&s->east, "begin");
        while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&s->east, "done");
        assert_turn(turn, TT_TURN_LOOK_AGAIN); /* the gauge, of which it says nothing */
        const uint32_t steps = steps_of(s->f);
        assert_turn(type(&s->east, said[i]), TT_TURN_LOOK_AGAIN);
        assert_int_equal(steps_of(s->f), steps);
        turn = read_off(&s->east, 30, "psi");
        assert_turn(turn, TT_TURN_OUTCOME);
        type(&s->east, said[i]);
        const tt_record *tried = last_record(s->f, "tried");
        if (tried == NULL) fail_msg("%s: no outcome", said[i]);
        assert_string_equal(value_text(tried->data, "outcome"), "no-change");
        one_desk_end(state);
        foam_desk(state);
        s = *state;
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, foam_desk, one_desk_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(it_answers_nothing),
        TEST(what_else_is_said_counts),
        TEST(only_what_was_told_is_known),
        TEST(after_a_fix_it_did_not_help),
    };
    return cmocka_run_group_tests_name("said_again", tests, NULL, NULL);
}
