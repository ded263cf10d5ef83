/* The window that tests drive the program in keeps its word: what is waited for, how prompts are
 * counted, how a program ends, what a terminal shows. The programs here are shell scripts. */
#include "testing.h"

#include <signal.h>

#include "window.h"

static window *open_script(const char *script, unsigned columns)
{
    const char *const words[] = {"-c", script, NULL};
    return window_open(&(window_plan){
        .program = "/bin/sh", .words = words, .rows = 24, .columns = columns, .copy = "shown"});
}

#define ASK_TWICE "printf 'one\\n> '; read a; echo $a; printf 'two\\n> '; read b; echo $b; exit 5"

static void prompts_are_counted(void **state)
{
    (void)state;
    window *w = open_script(ASK_TWICE, 0);
    window_await_prompt(w, 1);
    assert_string_equal(window_text(w), "one\n> ");
    window_type(w, "first");
    window_await_next_prompt(w);
    assert_int_equal(window_prompts(w), 2);
    assert_string_equal(window_page(w), "first\ntwo\n> ");
    window_type(w, "second");
    window_await_end(w);
    assert_string_equal(window_text(w), "one\n> first\ntwo\n> second\n");
    assert_int_equal(window_close(w), 5);
}

static void what_was_waited_for_is_behind_us(void **state)
{
    (void)state;
    window *w = open_script("printf 'again, again\\n> '; read a; echo again", 0);
    window_await(w, "again");
    window_await(w, "again");
    window_await_next_prompt(w);
    window_type(w, "");
    window_await(w, "again");
    assert_int_equal(window_close(w), 0);
}

static void killed_at_a_prompt_it_has_shown_no_more(void **state)
{
    (void)state;
    window *w = open_script(ASK_TWICE, 0);
    window_type(w, "first");
    window_await_prompt(w, 2);
    window_signal(w, SIGKILL);
    window_await_end(w);
    assert_string_equal(window_text(w), "one\n> first\ntwo\n> ");
    assert_int_equal(window_close(w), 128 + SIGKILL);
}

static void no_more_lines_is_the_end(void **state)
{
    (void)state;
    assert_int_equal(window_close(open_script("cat; exit 7", 0)), 7);
    assert_int_equal(window_close(open_script("cat; exit 7", 80)), 7);
}

static void a_terminal_has_its_size(void **state)
{
    (void)state;
    window *w =
        open_script("test -t 0 && test -t 2 && stty size; printf '> '; read a; stty size", 40);
    window_await(w, "24 40\n> ");
    window_resize(w, 30, 80);
    window_type(w, "go on");
    window_await(w, "go on\n30 80\n");
    assert_int_equal(window_close(w), 0);
}

static void what_steers_the_terminal_is_no_text(void **state)
{
    (void)state;
    window *w = open_script("printf '\\033[1;31mred\\033[0m "
                            "\\033]0;title\\007\\033Mup\\r\\n\\033[1m> \\033[0m'; read a",
                            40);
    window_await_prompt(w, 1);
    assert_string_equal(window_text(w), "red up\n> ");
    assert_non_null(strstr(window_raw(w), "\033[1;31mred"));
    assert_int_equal(window_close(w), 1);
}

/* More than a pipe holds, from two at once. */
static void a_full_pipe_stops_nobody(void **state)
{
    (void)state;
    window *one = open_script("head -c 300000 /dev/zero | tr '\\0' x; printf '\\n> '; read a", 0);
    window *other =
        open_script("head -c 300000 /dev/zero | tr '\\0' y; printf '\\n> '; read a", 40);
    window_await_prompt(one, 1);
    window_await_prompt(other, 1);
    assert_int_equal(rows_of_text(window_text(one), 0), 2);
    assert_int_equal(window_close(other), 1);
    assert_int_equal(window_close(one), 1);
}

static void the_processor_is_limited(void **state)
{
    (void)state;
    const char *const words[] = {"-c", "while :; do :; done", NULL};
    window *w =
        window_open(&(window_plan){.program = "/bin/sh", .words = words, .processor_seconds = 1});
    assert_int_equal(window_close(w), 128 + SIGXCPU);
}

static void the_environment_is_as_asked_for(void **state)
{
    (void)state;
    const char *const words[] = {"-c", "echo \"${HOME-none} $HELLO\"", NULL},
                      *const environment[] = {"HOME", "HELLO=there", NULL};
    window *w = window_open(
        &(window_plan){.program = "/bin/sh", .words = words, .environment = environment});
    window_await(w, "none there\n");
    assert_int_equal(window_close(w), 0);
}

static void rows_are_those_of_a_screen(void **state)
{
    (void)state;
    assert_int_equal(rows_of_text("", 40), 0);
    assert_int_equal(rows_of_text("one\ntwo\n> ", 40), 3);
    assert_int_equal(rows_of_text("12345\n", 5), 1);
    assert_int_equal(rows_of_text("123456", 5), 2);
    assert_int_equal(rows_of_text("\303\244\303\266\303\274\303\237\303\241\n", 5), 1);
    assert_int_equal(rows_of_text("123456\n", 0), 1);
    assert_int_equal(widest_line("12\n\303\244\303\266\303\274\n1"), 3);
    assert_int_equal(widest_line(""), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prompts_are_counted),
        cmocka_unit_test(what_was_waited_for_is_behind_us),
        cmocka_unit_test(killed_at_a_prompt_it_has_shown_no_more),
        cmocka_unit_test(no_more_lines_is_the_end),
        cmocka_unit_test(a_terminal_has_its_size),
        cmocka_unit_test(what_steers_the_terminal_is_no_text),
        cmocka_unit_test(a_full_pipe_stops_nobody),
        cmocka_unit_test(the_processor_is_limited),
        cmocka_unit_test(the_environment_is_as_asked_for),
        cmocka_unit_test(rows_are_those_of_a_screen),
    };
    return cmocka_run_group_tests_name("window", tests, NULL, NULL);
}
