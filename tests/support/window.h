/* A window in which somebody works with the program, over pipes or on a terminal of its own. What
 * is shown is waited for, never a time: a test that drives the program so passes on a machine of
 * any speed.
 *
 *     window *w = window_open(&(window_plan){.words = (const char *const[]){"ask", WELL, NULL}});
 *     window_await(w, "Is there smoke at the pump?");
 *     window_type(w, "no");
 *     window_await_prompt(w, 2);
 *     window_signal(w, SIGKILL);
 *     assert_int_equal(window_close(w), 128 + SIGKILL);
 *
 * Whoever waits for what can't come any more fails at once, with what is shown: the program has
 * ended, or it asks for a line that nobody has typed. What else may go wrong ends by the limits: a
 * loop by the processor's time, a program that sleeps by CTest's timeout.
 *
 * All open windows are read while one is waited for, so none stands still because its pipe is full.
 * To kill the program between two prompts, see kill_points.h. */
#ifndef TT_SUPPORT_WINDOW_H
#define TT_SUPPORT_WINDOW_H

#include <stdbool.h>
#include <stddef.h>

typedef struct window window;

typedef struct window_plan {
    const char *program;      /* null: telltale, as built */
    const char *const *words; /* what follows the program's name, up to a null */
    const char *const
        *environment;       /* up to a null: "NAME=value", or "NAME" to be without; null: as is */
    unsigned rows, columns; /* of a terminal; 0: pipes */
    const char *copy;       /* a file that takes what is shown, as it comes; null: none */
    const char *prompt;     /* what stands before each line to be typed; null: "\n> " */
    unsigned processor_seconds; /* more, and it is killed by SIGXCPU; 0: 60 */
} window_plan;

/* Standard error goes where standard output goes. */
window *window_open(const window_plan *plan);

/* One line; its end is added. */
void window_type(window *w, const char *line);
/* Several, parted by newlines; each when it is asked for, so all that came before is waited for
 * too. */
void window_type_lines(window *w, const char *lines);
/* Byte for byte, for control characters and for what is no whole line. */
void window_type_bytes(window *w, const char *bytes, size_t length);

/* Waits until it stands there, behind what was waited for before. */
void window_await(window *w, const char *text);
/* The same of what comes by itself, while it asks for a line that nobody types; then it asks anew.
 */
void window_await_unasked(window *w, const char *text);
/* Waits until so many prompts were shown since the window was opened. */
void window_await_prompt(window *w, unsigned number);
/* Waits until it asks for a line behind those that were typed. */
void window_await_next_prompt(window *w);
/* Waits until the program has ended by itself. */
void window_await_end(window *w);

/* SIGKILL, SIGSTOP, SIGCONT, ... */
void window_signal(window *w, int number);
/* Another size; the program gets SIGWINCH. */
void window_resize(window *w, unsigned rows, unsigned columns);

/* What was shown so far, without carriage returns and without what steers the terminal (colours,
 * the cursor). It is the window's, up to the next call. */
const char *window_text(const window *w);
/* The same from the line that was typed last, as it is echoed: what is on the screen now. */
const char *window_page(const window *w);
/* The bytes as they came. */
const char *window_raw(const window *w);
unsigned window_prompts(const window *w);
/* The rows that a text takes on a screen of this width; columns 0: without wrapping. */
unsigned rows_of_text(const char *text, unsigned columns);
/* The letters of its longest line. */
unsigned widest_line(const char *text);

/* No more lines (on a terminal: Ctrl-D). Waits for the end; the exit status, or 128 + the signal.
 * Frees the window. */
int window_close(window *w);

#endif
