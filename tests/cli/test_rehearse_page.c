/* rehearse --into: the figures as a page with pictures; the same figures as --json. */
#include "run_telltale.h"

#define SAMPLE TT_SOURCE_DIR "/cli/sample"

static unsigned times(const char *path, const char *part)
{
    char *text = contents(path);
    unsigned count = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at += strlen(part)) count++;
    free(text);
    return count;
}

static void each_figure_has_its_picture(void **state)
{
    (void)state;
    assert_int_equal(
        sh("$T rehearse '" SAMPLE "' --calls 300 --into page.html --overwrite >out 2>err"), 0);
    assert_int_equal(sh("test -s out"), 1);
    assert_holds("page.html", "<h1>Rehearsal: Proving cabinet</h1>");
    assert_int_equal(times("page.html", "<svg "), 10);
    assert_int_equal(times("page.html", "<title>"), 11);
    assert_holds("page.html", "How far the chances can be believed");
    assert_holds("page.html", "by luck alone");
    assert_holds("page.html", "Against what could be done at best");
    assert_holds("page.html", "The fewest causes that hold 90 %");
    assert_holds("page.html", "What is taken for what");
    assert_holds("page.html", "Minutes of a call");
    assert_holds("page.html", "What safety costs");
}

/* The share that leads, in both. */
static void it_says_what_json_says(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rehearse '" SAMPLE "' --calls 300 --json >all.json && "
                        "$T rehearse '" SAMPLE "' --calls 300 --into - >page.html"),
                     0);
    char *json = contents("all.json");
    const char *leads = strstr(strstr(json, "\"leads\""), "\"share\": ");
    const char *floor = strstr(strstr(json, "\"floor\": "), "\"mean\": ");
    assert_true(leads != NULL && floor != NULL);
    char percent[32], points[64];
    snprintf(percent, sizeof percent, "%.1f %%", 100 * strtod(leads + strlen("\"share\": "), NULL));
    snprintf(points, sizeof points, "would show %.1f points by luck",
             100 * strtod(floor + strlen("\"mean\": "), NULL));
    free(json);
    assert_holds("page.html", percent);
    assert_holds("page.html", points);
}

static void numbers_that_matter_have_their_table(void **state)
{
    (void)state;
    assert_int_equal(
        sh("$T rehearse '" SAMPLE "' --calls 400 --sensitivity --into page.html --overwrite"), 0);
    assert_holds("page.html", "Which numbers matter");
    assert_holds("page.html", "Numbers that move the minutes of a call most");
    assert_holds("page.html", "30 % above");
    assert_int_equal(sh("$T rehearse '" SAMPLE "' --calls 40 --into page.html --overwrite && "
                        "grep -q 'Which numbers matter' page.html"),
                     1);
}

static void a_page_and_json_are_two_things(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rehearse '" SAMPLE "' --calls 10 --json --into page.html 2>err"), 2);
    assert_holds("err", "give one of them");
    assert_int_equal(sh("$T rehearse '" SAMPLE "' --calls 10 --overwrite 2>err"), 2);
    assert_int_equal(
        sh("echo mine >mine.html; $T rehearse '" SAMPLE "' --calls 10 --into mine.html 2>err"), 73);
    assert_holds("mine.html", "mine");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_figure_has_its_picture),
        cmocka_unit_test(it_says_what_json_says),
        cmocka_unit_test(numbers_that_matter_have_their_table),
        cmocka_unit_test(a_page_and_json_are_two_things),
    };
    return cmocka_run_group_tests_name("rehearse page", tests, NULL, NULL);
}
