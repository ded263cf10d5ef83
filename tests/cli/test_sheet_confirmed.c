/* What it was, on the sheet of a case that is closed: as somebody who knows has said, and nothing
 * of it where nobody is sure. */
#include "run_telltale.h"

#define MIXING "'" TT_SOURCE_DIR "/tests/cli/mixing'"

/* The knob leads, and turning it back helps; then `said` of what it was. */
static void close_case(const char *said)
{
    assert_int_equal(sh("rm -rf kept && printf 'mix: 1:180\\ntip: 1:50\\n' >told.yaml && printf "
                        "'no\\nbegin\\ndone\\n1\\n%s\\n' | $T ask " MIXING
                        " --cases kept --answers told.yaml --plain >out 2>err",
                        said),
                     0);
    assert_int_equal(sh("$T sheet $(ls -d kept/*/*/*) --plain >sheet"), 0);
    assert_holds("sheet", "State: Closed: the trouble is gone\n");
    assert_holds("sheet", "What helped: ");
}

static void what_was_confirmed_stands_at_the_top(void **state)
{
    (void)state;
    close_case("1");
    assert_holds("sheet", "\nIt was: The ");
    close_case("2\\n1");
    assert_holds("sheet", "\nIt was: The ");
    close_case("2\\n2");
    assert_holds("sheet", "\nIt was: Something that these rules don't list\n");
}

static void what_nobody_is_sure_of_is_not_told(void **state)
{
    (void)state;
    static const char *const said[] = {"3", "2\\n3", ""};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        close_case(said[i]);
        if (holds("sheet", "It was:")) fail_msg("\"%s\" is told", said[i]);
    }
}

/* The book was changed since: a cause that it no longer has is called by its name. */
static void a_cause_that_is_gone_is_called_by_its_name(void **state)
{
    (void)state;
    close_case("1");
    assert_int_equal(
        sh("grep -o '\"cause\":\"[a-z]*\"' kept/*/*/*/*.jsonl | tail -n 1 >cause; sed -i "
           "'s/.*\"\\([a-z]*\\)\"$/\\1/' cause; test -s cause"),
        0);
    assert_int_equal(sh("rm -rf other && cp -r " MIXING " other && chmod -R u+w other && sed -i "
                        "\"s/\\b$(cat cause)\\b/renamed/\" other/book.yaml && $T sheet $(ls -d "
                        "kept/*/*/*) other --plain >sheet 2>err"),
                     0);
    assert_int_equal(sh("grep -q \"^It was: $(cat cause)\\$\" sheet"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_confirmed_stands_at_the_top),
        cmocka_unit_test(what_nobody_is_sure_of_is_not_told),
        cmocka_unit_test(a_cause_that_is_gone_is_called_by_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
