/* `learn` over cases made by `ask`: what it counts, what it proposes, and a patch that keeps every
 * comment. */
#include "run_telltale.h"

#include <jansson.h>

/* A copy of the well whose files have what a person leaves in them. */
static void fresh_book(void)
{
    assert_int_equal(
        sh("chmod -R u+w book 2>/dev/null; rm -rf book cases; cp -r $WELL book && chmod -R u+w "
           "book && "
           "sed -i -e 's/^    shown-by: {tank-waterlogged: almost.*/&   # asked the workshop/' "
           "-e 's/^    how-often: common/    how-often: common     # in spring/' "
           "book/parts/faults.yml"),
        0);
}

/* So many cases with these lines typed after "no" (no smoke) and the complaint. */
static void cases(int count, const char *lines)
{
    for (int i = 0; i < count; i++)
        assert_int_equal(sh("printf 'no\\n%s\\n' | $T ask --cases cases book >out 2>err", lines),
                         0);
}
/* Up to what was the cause. */
#define RECHARGED \
    "it goes on and " \
    "off\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\nd" \
    "one\\nunsure\\ngone"
#define SWITCHED_ON "silent\\n1\\nbegin\\ndone\\ngone"
static const char waterlogged[] = RECHARGED "\\n1", breaker[] = SWITCHED_ON "\\n1",
                  unsure[] = SWITCHED_ON "\\n3";

static void enough_cases(void)
{
    fresh_book();
    cases(9, waterlogged);
    cases(3, breaker);
}

static void too_few_cases_show_nothing(void **state)
{
    (void)state;
    fresh_book();
    cases(9, waterlogged);
    cases(2, breaker);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "11 cases looked at, 11 learned from.");
    assert_holds("out", "it takes about 4 confirmed cases for each on the mean, 12 in all");
    assert_false(holds("out", "->"));
    assert_int_equal(sh("$T learn book cases --patch >p 2>err"), 0);
    assert_int_equal(sh("test -s p"), 1);
}

/* common is 5 of 9: (50 × 5/9 + 9) / 62 = 59.3 %, and by weights 5 + 9 × 9/50 = 6.62. Shown: (20 ×
 * 95 % + 9) / 29 = 96.6 %, a little less since a slip in an answer is possible. */
static void numbers_and_what_would_change(void **state)
{
    (void)state;
    enough_cases();
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "The tank has lost its air cushion (parts/faults.yml:24)\n    common -> "
                        "6.62\n    9 of 12 cases\n");
    assert_holds("out", "share of calls 55.6 % -> 59.3 %");
    assert_holds("out", "The pump starts and stops: The tank has lost its air cushion "
                        "(parts/faults.yml:6)\n    almost always -> 96.5 %\n"
                        "    9 of 9 answers\n    95.0 % -> 96.5 %");
    assert_holds("out",
                 "What would change:\n  worked cases that come out as expected: 2 of 2 -> 2 of 2");
    assert_holds("out", "In 100 made-up calls");
    assert_holds("out", "Nothing has been changed.");
    assert_int_equal(sh("test -s err"), 1);
    assert_int_equal(sh("$T learn book cases >again 2>err"), 0);
    assert_same("out", "again");
}

static void the_patch_changes_numbers_and_nothing_else(void **state)
{
    (void)state;
    enough_cases();
    assert_int_equal(
        sh("rm -rf before && cp -r book before && $T learn book cases --patch >p 2>err"), 0);
    assert_int_equal(sh("diff -r book before"), 0);
    assert_int_equal(sh("patch -p1 -d book <p >out 2>&1"), 0);
    assert_holds("book/parts/faults.yml",
                 "    shown-by: {tank-waterlogged: 96.5 %, leak-after-tank: seldom, breaker-off: "
                 "never}   # asked the workshop\n");
    assert_holds("book/parts/faults.yml", "    how-often: 6.62     # in spring\n");
    assert_holds("book/book.yaml", "book:\n  title: House well\n  learned-until: 20");
    assert_int_equal(sh("$T check book >out 2>err"), 0);
    assert_holds("out", "No faults.");
    assert_int_equal(sh("patch -R -p1 -d book <p >out 2>&1 && diff -r book before; s=$?; rm -rf "
                        "before; exit $s"),
                     0);
}

static void once_accepted_nothing_more_is_proposed(void **state)
{
    (void)state;
    enough_cases();
    assert_int_equal(sh("$T learn book cases --patch >p 2>err && patch -p1 -d book <p >out 2>&1"),
                     0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "12 cases looked at, 0 learned from.");
    assert_holds("out", "12 in the numbers already");
    assert_int_equal(sh("$T learn book cases --patch >p2 2>err"), 0);
    assert_int_equal(sh("test -s p2"), 1);
    cases(12, waterlogged); /* what comes later counts, and moves the mark */
    assert_int_equal(sh("$T learn book cases --patch >p2 2>err && patch -p1 -d book <p2 >out 2>&1"),
                     0);
    assert_int_equal(sh("grep -c learned-until book/book.yaml >n; test $(cat n) = 1"), 0);
    assert_int_equal(sh("$T learn book cases --patch >p2 2>err; test -s p2"), 1);
}

static void only_what_was_confirmed_counts(void **state)
{
    (void)state;
    fresh_book();
    cases(1, waterlogged);
    cases(1, unsure);
    cases(1, SWITCHED_ON);            /* nobody said anything */
    cases(1, SWITCHED_ON "\\n2\\n3"); /* something that is not listed */
    assert_int_equal(sh("printf 'no\\nsilent\\n' | $T ask --cases cases book >out 2>err"),
                     3); /* open */
    assert_int_equal(sh("printf 'no\\nsilent\\n1\\n2\\n2\\nunsure\\n2\\n' | $T ask --cases cases "
                        "book >out 2>err"),
                     1); /* called, and closed */
    sh("cp -r book other && sed -i 's/House well/Another well/' other/book.yaml && printf "
       "'no\\n' | $T ask --cases cases other "
       ">out 2>err; rm -rf other");
    assert_int_equal(sh("$T learn book cases --json >out 2>err"), 0);
    json_t *all = json_load_file("out", 0, NULL), *seen = json_object_get(all, "cases");
    assert_int_equal(json_integer_value(json_object_get(seen, "counted")), 1);
    assert_int_equal(json_integer_value(json_object_get(seen, "unconfirmed")), 2);
    assert_int_equal(json_integer_value(json_object_get(seen, "not_listed")), 1);
    assert_true(json_is_false(json_object_get(all, "enough")));
    assert_int_equal(json_integer_value(json_object_get(seen, "open")), 1);
    assert_int_equal(json_integer_value(json_object_get(seen, "not_gone")), 1);
    assert_int_equal(json_integer_value(json_object_get(seen, "other_rulebooks")), 1);
    assert_int_equal(json_integer_value(json_object_get(seen, "all")), 7);
    assert_int_equal(json_integer_value(json_object_get(seen, "unreadable")), 0);
    json_decref(all);
}

/* Called, and closed so; and then whoever came says what it was. */
#define CALLED "silent\\n1\\n2\\n2\\nunsure\\n2"
static void whoever_was_called_may_say_what_it_was(void **state)
{
    (void)state;
    enough_cases();
    for (int i = 0; i < 8; i++)
        assert_int_equal(
            sh("printf 'no\\n" CALLED "\\n' | $T ask --cases cases book >out 2>err; test $? = 1"),
            0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "12 learned from");
    assert_holds("out", "of 8 handed over nobody said what it was");
    assert_int_equal(
        sh("for c in $(grep -l '\"how\":\"call\"' cases/*/*/*/*.jsonl | head -n 2); do printf "
           "'say-cause\\n2\\n' | "
           "$T ask --cases cases --case $(dirname $c) >out 2>err; test $? = 1 || exit 2; done"),
        0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "20 cases looked at, 14 learned from.");
    assert_holds("out", "Of 8 cases handed over the cause of 2 is known. Each counts 4.0 times as "
                        "much as a cured one, so");
    assert_holds("out", "11 of 14 cases");
    assert_int_equal(sh("$T learn book cases --json >out 2>err"), 0);
    json_t *all = json_load_file("out", 0, NULL);
    assert_int_equal(json_integer_value(json_object_get(all, "handed_over")), 8);
    assert_int_equal(json_integer_value(json_object_get(all, "handed_over_confirmed")), 2);
    assert_true(json_number_value(json_object_get(all, "handed_over_counts")) == 4);
    json_decref(all);
}

/* Cases of one site, one behind the other, are told together; one of another site has none behind
 * it. All come within minutes here, so it is left open whether they came back or anew. */
static void what_came_back_to_a_site_is_learned(void **state)
{
    (void)state;
    fresh_book();
    for (int site = 1; site <= 2; site++) {
        const char *new_trouble = "";
        assert_int_equal(sh("printf 'site:\n  title: Mill Lane %d\n' >site%d.yaml", site, site), 0);
        for (int i = 0; i < 6; i++) {
            assert_int_equal(
                sh("printf 'no\nit goes on and "
                   "off\n1\n%sunsure\nright\nbegin\ndone\ndone\ndone\ndone\ndone\ndone\ndone\n"
                   "done\ndone\nunsure\ngone\n1\n' | $T ask --cases cases --site site%d.yaml book "
                   ">out 2>err",
                   new_trouble, site),
                0);
            new_trouble = "no\n";
        }
    }
    assert_int_equal(sh("printf 'site:\n  title: Far Field\n' >site3.yaml"), 0);
    assert_int_equal(sh("printf 'no\n" SWITCHED_ON
                        "\n1\n' | $T ask --cases cases --site site3.yaml book >out 2>err"),
                     0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "How often a cause comes back to where it was cured:");
    assert_holds("out", "  all causes that don't say it themselves: comes back (book.yaml:");
    assert_holds("out", " of 12 cures\n");
    assert_int_equal(sh("$T learn book cases --json >out 2>err"), 0);
    json_t *all = json_load_file("out", 0, NULL), *numbers = json_object_get(all, "numbers");
    uint32_t found = 0;
    for (size_t i = 0; i < json_array_size(numbers); i++) {
        const json_t *n = json_array_get(numbers, i);
        if (strcmp(json_string_value(json_object_get(n, "number")), "comes-back") != 0) continue;
        assert_true(json_is_null(json_object_get(n, "cause")));
        assert_true(json_number_value(json_object_get(n, "before")) == 0.1);
        assert_true(json_number_value(json_object_get(n, "of")) == 12);
        found++;
    }
    assert_int_equal(found, 1);
    json_decref(all);
}

/* The first fix made it better, the second ended it: there may have been two faults. */
static void better_on_the_way_does_not_count(void **state)
{
    (void)state;
    fresh_book();
    assert_int_equal(sh("printf "
                        "'no\\nsilent\\n1\\nbegin\\ndone\\nbetter\\n1\\nunsure\\nbegin\\ndone\\ngon"
                        "e\\nyes\\n' | "
                        "$T ask --cases cases --as technician book >out 2>err"),
                     0);
    assert_int_equal(sh("grep -l '\"confirm\"' cases/*/*/*/*.jsonl >f"), 0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "1 cases looked at, 0 learned from.");
    assert_holds("out", "  - 1 better, but not gone on the way");
}

/* A second writer, at the same time, who knew nothing of the first. */
static void disagree(const char *cause)
{
    assert_int_equal(
        sh("grep -h '\"kind\":\"confirm\"' $(ls cases/*/*/*/*.jsonl | grep -v bbbbbbbbbbbb) | tail "
           "-n 1 | sed -e 's/\"writer\":\"[0-9a-f]*\"/\"writer\":\"bbbbbbbbbbbb\"/' -e "
           "'s/\"seq\":[0-9]*/\"seq\":1/' -e 's/\"before\":\"[0-9a-f]*\"/\"before\":\"\"/' -e "
           "'s/\"cause\":\"[a-z-]*\"/\"cause\":\"%s\"/' >other && mv other $(echo "
           "cases/*/*/*)/bbbbbbbbbbbb.jsonl",
           cause),
        0);
}

static void two_who_name_different_causes_confirm_none(void **state)
{
    (void)state;
    fresh_book();
    cases(1, waterlogged);
    disagree("tank-waterlogged");
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "1 cases looked at, 1 learned from.");
    disagree("leak-after-tank");
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "1 cases looked at, 0 learned from.");
    assert_holds("out", "  - 1 nobody confirmed the cause");
    /* Somebody who has seen both says it once more. */
    assert_int_equal(sh("printf '4\\n1\\n' | $T ask --cases cases --case cases/*/*/* >out 2>err"),
                     0);
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "1 cases looked at, 1 learned from.");
}

static void wrong_calls_say_what_to_write(void **state)
{
    (void)state;
    fresh_book();
    assert_int_equal(sh("$T learn book nowhere >out 2>err"), 66);
    assert_holds("err", "nowhere");
    assert_int_equal(sh("mkdir cases && $T learn book cases --json --patch >out 2>err"), 2);
    assert_holds("err", "--patch and --json don't go together");
    assert_int_equal(sh("$T learn book cases >out 2>err"), 0);
    assert_holds("out", "0 cases looked at, 0 learned from.");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(too_few_cases_show_nothing),
        cmocka_unit_test(numbers_and_what_would_change),
        cmocka_unit_test(the_patch_changes_numbers_and_nothing_else),
        cmocka_unit_test(once_accepted_nothing_more_is_proposed),
        cmocka_unit_test(only_what_was_confirmed_counts),
        cmocka_unit_test(whoever_was_called_may_say_what_it_was),
        cmocka_unit_test(what_came_back_to_a_site_is_learned),
        cmocka_unit_test(better_on_the_way_does_not_count),
        cmocka_unit_test(two_who_name_different_causes_confirm_none),
        cmocka_unit_test(wrong_calls_say_what_to_write),
    };
    return cmocka_run_group_tests_name("learn", tests, NULL, NULL);
}
