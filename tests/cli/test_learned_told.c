/* What was learned, told from what is in it: each kind of number by its name and place, what it
 * becomes, how much it rests on, and what a change would do. */
#include "face/learned.h"
#include "shown_text.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const cases_seen none = {.all = 0};

static shown_text *told(const tt_lesson *lesson, const what_changes *changes)
{
    shown_text *s = show_at(0);
    print_learned_words(
        s->on.out,
        &(learned){
            .title = "Drier", .since = "", .seen = &none, .lesson = lesson, .changes = changes});
    shown(s);
    return s;
}

static tt_learned number(tt_learned n)
{
    const char **texts[] = {&n.cause,   &n.cause_text, &n.symptom,    &n.symptom_text,
                            &n.fix,     &n.fix_text,   &n.instrument, &n.instrument_text,
                            &n.written, &n.proposed};
    for (size_t i = 0; i < COUNT(texts); i++)
        if (*texts[i] == NULL) *texts[i] = "";
    n.at = "book.yaml:4";
    n.before = .5;
    n.after = .6;
    n.low = .25;
    n.high = .75;
    n.cases = 3;
    n.of = 7;
    return n;
}

#define NUMBER(...) number((tt_learned){__VA_ARGS__})

static void each_number_by_its_name(void **state)
{
    (void)state;
    const struct {
        tt_learned n;
        const char *lines;
    } rows[] = {
        {NUMBER(.kind = TT_HOW_OFTEN, .cause_text = "Worn", .written = "often",
                .proposed = "very common", .outside = true),
         "  Worn (book.yaml:4)\n    often -> very common\n    3 of 7 cases\n    share of calls "
         "50.0 "
         "% -> 60.0 %, 95 % sure between 25.0 and 75.0 %; the cases"},
        {NUMBER(.kind = TT_HOW_OFTEN, .cause_text = "Worn"),
         "  Worn (book.yaml:4)\n    stays as it is\n    3 of 7 cases\n    share of calls 50.0 % -> "
         "60.0 %, 95 % sure between 25.0 and 75.0 %\n"},
        {NUMBER(.kind = TT_SHOWN_BY, .cause_text = "Worn", .symptom_text = "It is weak",
                .written = "usually"),
         "  It is weak: Worn (book.yaml:4)\n    stays usually\n    3 of 7 answers\n    50.0 % -> "
         "60.0 "
         "%, 95 % sure between 25.0 and 75.0 %\n"},
        {NUMBER(.kind = TT_OTHERWISE, .symptom_text = "It is weak", .proposed = "10 %",
                .outside = true),
         "  It is weak: otherwise (book.yaml:4)\n    left out -> 10 %\n    3 of 7 answers\n    "
         "50.0 % "
         "-> 60.0 %, 95 % sure between 25.0 and 75.0 %; the cases"},
        {NUMBER(.kind = TT_DONE_WRONGLY, .fix_text = "Swap it"),
         "  Swap it: done wrongly (book.yaml:4)\n    stays as it is\n    3 of 7 tries\n"},
        {NUMBER(.kind = TT_DONE_WRONGLY),
         "  all fixes that don't say it themselves: done wrongly (book.yaml:4)\n"},
        {NUMBER(.kind = TT_COMES_BACK, .cause_text = "Worn"),
         "  Worn: comes back (book.yaml:4)\n    stays as it is\n    3 of 7 cures\n"},
        {NUMBER(.kind = TT_COMES_BACK),
         "  all causes that don't say it themselves: comes back (book.yaml:4)\n"},
        {NUMBER(.kind = TT_MISLEADS, .instrument_text = "The gauge"),
         "  The gauge: wrong (book.yaml:4)\n    stays as it is\n    3 of 7 times that it was "
         "used\n"},
        {NUMBER(.kind = TT_COMES_AND_GOES, .cause_text = "Worn", .symptom_text = "It is weak"),
         "  It is weak: Worn (book.yaml:4)\n    stays as it is\n    3 of 7 looks while it was "
         "there\n"},
        {NUMBER(.kind = TT_ANSWERS_COUNT),
         "  answers-count (book.yaml:4)\n    stays as it is\n    7 cases\n"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        shown_text *s = told(&(tt_lesson){.cases = 9, .items = &rows[i].n, .count = 1}, NULL);
        assert_shows(s->kept.bytes, rows[i].lines);
        assert_shows_not(s->kept.bytes, "What would change");
        shown_free(s);
    }
}

/* Cases that were handed over count for more than one, since few of them are confirmed. */
static void what_was_handed_over_is_told(void **state)
{
    (void)state;
    static const struct {
        uint32_t all, confirmed;
        double counts;
        bool held, said;
    } rows[] = {{0, 0, 0, false, false},
                {5, 0, 0, false, true},
                {5, 2, 1, false, false},
                {5, 2, 2.5, false, true},
                {5, 2, 2.5, true, true}};
    char *before = NULL;
    for (size_t i = 0; i < COUNT(rows); i++) {
        shown_text *s = told(&(tt_lesson){.cases = 9,
                                          .handed_over = rows[i].all,
                                          .handed_over_confirmed = rows[i].confirmed,
                                          .handed_over_counts = rows[i].counts,
                                          .handed_over_held = rows[i].held},
                             NULL);
        const char *line = strstr(s->kept.bytes, "learned from.\n") + strlen("learned from.\n");
        assert_int_equal(*line != 0, rows[i].said);
        if (rows[i].said) {
            assert_true(before == NULL || strcmp(before, line) != 0); /* each in words of its own */
            free(before);
            before = strdup(line);
        }
        shown_free(s);
    }
    free(before);
}

static void too_few_cases_change_nothing(void **state)
{
    (void)state;
    const tt_learned n = NUMBER(.kind = TT_HOW_OFTEN, .cause_text = "Worn");
    shown_text *s = told(
        &(tt_lesson){.cases = 3, .causes = 2, .cases_wanted = 8, .items = &n, .count = 1}, NULL);
    assert_shows(s->kept.bytes, "8");
    assert_shows_not(s->kept.bytes, "Worn");
    shown_free(s);
}

static void what_a_change_would_do(void **state)
{
    (void)state;
    static const tt_trial broken[] = {{.name = "weak", .at = "book.yaml:9", .why = "Loose leads"}};
    const what_changes changes = {.trials = 4,
                                  .passed = {4, 3},
                                  .broken = broken,
                                  .broken_count = 1,
                                  .calls = 100,
                                  .leads = {{50, 100, .5, .4, .6}, {60, 100, .6, .5, .7}}};
    shown_text *s = told(&(tt_lesson){.cases = 9, .cases_wanted = 8, .new_warnings = 2}, &changes);
    assert_shows(s->kept.bytes, "  worked cases that come out as expected: 4 of 4 -> 3 of 4\n"
                                "    weak (book.yaml:9): Loose leads\n");
    assert_shows(s->kept.bytes, "would warn of 2 more things than it does now.");
    assert_shows(s->kept.bytes, "on the mean, 24 in all.");
    shown_free(s);
    s = told(&(tt_lesson){.cases = 24, .cases_wanted = 8}, &changes);
    assert_shows_not(s->kept.bytes, "would warn of");
    assert_shows_not(s->kept.bytes, "on the mean");
    assert_shows(s->kept.bytes, "Nothing has been changed.");
    shown_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_number_by_its_name),
        cmocka_unit_test(what_was_handed_over_is_told),
        cmocka_unit_test(too_few_cases_change_nothing),
        cmocka_unit_test(what_a_change_would_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
