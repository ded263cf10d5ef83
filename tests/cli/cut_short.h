/* A case that a signal ends while a line is awaited: everything that was typed has had its answer
 * by then, nothing more. Include it after run_telltale.h. */
#ifndef TT_TESTS_CLI_CUT_SHORT_H
#define TT_TESTS_CLI_CUT_SHORT_H

#include <signal.h>

#include "window.h"

/* Begins a case of the book, types these lines, waits until `shown` stands there and a line is
 * awaited, and sends the signal. What was shown is in "out", the records as they were before the
 * signal are in "before". */
static inline void cut_case_short(const char *book, const char *lines, const char *shown,
                                  int number)
{
    const char *const words[] = {"ask", book, "--cases", "cases", NULL};
    window *w = window_open(&(window_plan){.words = words, .copy = "out"});
    window_type_lines(w, lines);
    window_await(w, shown);
    window_await_next_prompt(w);
    assert_int_equal(sh("cat cases/*/*/*/*.jsonl >before"), 0);
    window_signal(w, number);
    window_await_end(w);
    assert_int_equal(window_close(w), 128 + number);
}

#endif
