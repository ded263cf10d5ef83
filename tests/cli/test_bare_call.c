/* Who types `ask` alone on a terminal is offered the cases that are open, the latest first. Whoever
 * has said anything of what they want, or is a program, is not asked. */
#include "run_telltale.h"

#include "window.h"

static const char offer[] = "Is it about one of these cases?";

static int keep_cases(void **state)
{
    (void)state;
    return sh("rm -rf .local && echo 'smoke: no' >told.yaml && for i in 1 2 3 4 5 6 7 8; do "
              "printf 'no\\nit keeps short cycling\\nstop\\n' | $T ask $WELL --plain >out 2>err; "
              "test "
              "$? = 3 || exit 9; done") != 0;
}

static window *ask(const char *const *more)
{
    const char *words[8] = {"ask"};
    for (size_t i = 0; more != NULL && more[i] != NULL; i++) words[i + 1] = more[i];
    return window_open(&(window_plan){.words = words, .rows = 60, .columns = 100, .copy = "shown"});
}

static void the_latest_are_offered(void **state)
{
    (void)state;
    window *w = ask(NULL);
    window_await(w, offer);
    window_await_prompt(w, 1);
    assert_non_null(strstr(window_text(w), "2 more"));
    assert_non_null(strstr(window_text(w), "1  No, a new case"));
    window_type(w, "2");
    window_await(w, "Is there smoke at the pump?"); /* it goes on, and danger is asked anew */
    window_await_next_prompt(w);
    window_type(w, "stop");
    window_await_end(w);
    assert_int_equal(window_close(w), 3);
}

static void a_new_case_is_one_choice(void **state)
{
    (void)state;
    window *w = ask(NULL);
    window_await(w, offer);
    window_await_prompt(w, 1);
    window_type(w, "1");
    window_await(w, "What is it about?");
    window_await_next_prompt(w);
    window_type(w, "stop");
    window_await_end(w);
    window_close(w);
}

static void who_has_said_something_is_not_asked(void **state)
{
    (void)state;
    static const char *const said[][3] = {
        {WELL},         {"--site", "north.yaml"}, {"--unsaved"}, {"--answers", "told.yaml"},
        {"--practice"}, {"--no-input"},           {"--json"},
    };
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        window *w = ask(said[i]);
        window_close(w); /* nobody goes on */
        if (holds("shown", offer)) fail_msg("%s: it is asked", said[i][0]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_latest_are_offered),
        cmocka_unit_test(a_new_case_is_one_choice),
        cmocka_unit_test(who_has_said_something_is_not_asked),
    };
    return cmocka_run_group_tests(tests, keep_cases, NULL);
}
