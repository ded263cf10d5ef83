#define _GNU_SOURCE /* pipe2 */
#include "window.h"

#include "testing.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

enum { MOST_WINDOWS = 16, MOST_WORDS = 30, READ_AT_ONCE = 4096, SECONDS = 60 };

/* Bytes that grow, with a null behind them. */
typedef struct heap_text {
    char *bytes;
    size_t length, room;
} heap_text;

/* Where we are in what steers the terminal: ESC [ ... letter, ESC ] ... BEL, ESC and one more. */
typedef enum steering { NOT_STEERING, AFTER_ESCAPE, IN_SEQUENCE, IN_TITLE } steering;

struct window {
    pid_t pid;
    int in, out, copy;
    bool terminal, ended, signalled;
    const char *prompt;
    heap_text raw, text;
    steering state;
    size_t read;        /* so much of the text was waited for */
    size_t page;        /* there the page begins */
    unsigned typed;     /* lines */
    unsigned prompts;   /* shown */
    size_t prompts_end; /* so much of the text was looked through for them */
};

static window *open_windows[MOST_WINDOWS];

static void *or_stop(void *memory)
{
    assert_non_null(memory);
    return memory;
}

/* ---- what is shown ---- */

static void add_byte(heap_text *t, char byte)
{
    if (t->length + 1 >= t->room) {
        t->room = t->room == 0 ? READ_AT_ONCE : 2 * t->room;
        t->bytes = or_stop(realloc(t->bytes, t->room));
    }
    t->bytes[t->length++] = byte;
    t->bytes[t->length] = 0;
}

static steering steering_after(steering state, char byte)
{
    switch (state) {
    case NOT_STEERING:
        return byte == '\033' ? AFTER_ESCAPE : NOT_STEERING;
    case AFTER_ESCAPE:
        return byte == '[' ? IN_SEQUENCE : byte == ']' ? IN_TITLE : NOT_STEERING;
    case IN_SEQUENCE:
        return byte >= '@' && byte <= '~' ? NOT_STEERING : IN_SEQUENCE;
    case IN_TITLE:
        return byte == '\a' ? NOT_STEERING : IN_TITLE;
    }
    return NOT_STEERING;
}

static void show_byte(window *w, char byte)
{
    steering before = w->state;
    w->state = steering_after(before, byte);
    add_byte(&w->raw, byte);
    if (before == NOT_STEERING && w->state == NOT_STEERING && byte != '\r')
        add_byte(&w->text, byte);
}

static void count_prompts(window *w)
{
    const char *found;
    while ((found = strstr(w->text.bytes + w->prompts_end, w->prompt)) != NULL) {
        w->prompts++;
        w->prompts_end = (size_t)(found - w->text.bytes) + strlen(w->prompt);
    }
}

static void read_window(window *w)
{
    char bytes[READ_AT_ONCE];
    ssize_t got = read(w->out, bytes, sizeof bytes);
    if (got < 0 && errno == EINTR) return;
    w->ended = got <= 0; /* a terminal that nobody has open any more gives EIO */
    for (ssize_t i = 0; i < got; i++) show_byte(w, bytes[i]);
    if (w->copy >= 0 && got > 0) assert_int_equal(write(w->copy, bytes, (size_t)got), got);
    count_prompts(w);
}

/* Waits until something comes in any window. */
static void read_windows(void)
{
    struct pollfd waiting[MOST_WINDOWS];
    window *of[MOST_WINDOWS];
    nfds_t count = 0;
    for (unsigned i = 0; i < MOST_WINDOWS; i++) {
        if (open_windows[i] == NULL || open_windows[i]->ended) continue;
        of[count] = open_windows[i];
        waiting[count++] = (struct pollfd){.fd = open_windows[i]->out, .events = POLLIN};
    }
    assert_true(count > 0);
    if (poll(waiting, count, -1) < 0) return;
    for (nfds_t i = 0; i < count; i++)
        if (waiting[i].revents != 0) read_window(of[i]);
}

/* ---- opening ---- */

static void change_environment(const char *const *environment)
{
    for (; environment != NULL && *environment != NULL; environment++) {
        const char *equals = strchr(*environment, '=');
        if (equals == NULL)
            unsetenv(*environment);
        else
            putenv((char *)(uintptr_t)*environment);
    }
}

static void limit_processor(unsigned seconds)
{
    const struct rlimit no_core = {0, 0};
    struct rlimit limit;
    if (getrlimit(RLIMIT_CPU, &limit) != 0) _exit(126);
    limit.rlim_cur = seconds == 0 ? SECONDS : seconds;
    if (limit.rlim_max < limit.rlim_cur) limit.rlim_cur = limit.rlim_max;
    if (setrlimit(RLIMIT_CPU, &limit) != 0 || setrlimit(RLIMIT_CORE, &no_core) != 0) _exit(126);
}

/* Its size is what it says, not what the test's own terminal would say. */
static void name_terminal(void)
{
    setenv("TERM", "xterm", 1);
    unsetenv("COLUMNS");
    unsetenv("LINES");
}

static _Noreturn void be_the_program(const window_plan *plan, int in, int out, bool terminal)
{
    const char *program = plan->program != NULL ? plan->program : TT_PROGRAM;
    char *arguments[MOST_WORDS + 2] = {(char *)(uintptr_t)program};
    prctl(PR_SET_PDEATHSIG, SIGKILL); /* a test that fails leaves nobody behind */
    for (unsigned i = 0; plan->words != NULL && plan->words[i] != NULL; i++) {
        if (i == MOST_WORDS) _exit(126);
        arguments[i + 1] = (char *)(uintptr_t)plan->words[i];
    }
    if (terminal && (setsid() < 0 || ioctl(in, TIOCSCTTY, 0) != 0)) _exit(126);
    if (dup2(in, 0) < 0 || dup2(out, 1) < 0 || dup2(out, 2) < 0) _exit(126);
    limit_processor(plan->processor_seconds);
    if (terminal) name_terminal();
    change_environment(plan->environment);
    execvp(program, arguments);
    _exit(127);
}

static int open_copy(const char *path)
{
    if (path == NULL) return -1;
    unlink(path);
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    assert_true(fd >= 0);
    return fd;
}

static void set_size(int fd, unsigned rows, unsigned columns)
{
    const struct winsize size = {.ws_row = (unsigned short)rows, .ws_col = (unsigned short)columns};
    assert_int_equal(ioctl(fd, TIOCSWINSZ, &size), 0);
}

/* Our ends in w->in and w->out, the program's in its[0] and its[1]. */
static void open_pipes(window *w, int *its)
{
    int in[2], out[2];
    assert_int_equal(pipe2(in, O_CLOEXEC), 0);
    assert_int_equal(pipe2(out, O_CLOEXEC), 0);
    w->in = in[1];
    w->out = out[0];
    its[0] = in[0];
    its[1] = out[1];
}

static void open_terminal(window *w, int *its, unsigned rows, unsigned columns)
{
    w->terminal = true;
    w->in = w->out = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
    assert_true(w->in >= 0);
    assert_int_equal(grantpt(w->in), 0);
    assert_int_equal(unlockpt(w->in), 0);
    its[0] = its[1] = open(ptsname(w->in), O_RDWR | O_NOCTTY | O_CLOEXEC);
    assert_true(its[0] >= 0);
    set_size(w->in, rows, columns);
}

static void remember(window *w)
{
    unsigned i = 0;
    while (i < MOST_WINDOWS && open_windows[i] != NULL) i++;
    if (i == MOST_WINDOWS) fail_msg("more than %d windows are open", MOST_WINDOWS);
    open_windows[i] = w;
}

window *window_open(const window_plan *plan)
{
    int its[2];
    window *w = or_stop(calloc(1, sizeof *w));
    w->prompt = plan->prompt != NULL ? plan->prompt : "\n> ";
    add_byte(&w->text, '\n'); /* so that a prompt may be the first line */
    if (plan->columns > 0)
        open_terminal(w, its, plan->rows, plan->columns);
    else
        open_pipes(w, its);
    w->copy = open_copy(plan->copy);
    fflush(NULL);
    w->pid = fork();
    assert_true(w->pid >= 0);
    if (w->pid == 0) be_the_program(plan, its[0], its[1], w->terminal);
    close(its[0]);
    if (its[1] != its[0]) close(its[1]);
    remember(w);
    return w;
}

/* ---- typing ---- */

/* A program that is gone is no reason for us to go. */
static ssize_t write_without_signal(int fd, const char *bytes, size_t length)
{
    struct sigaction before;
    sigaction(SIGPIPE, &(struct sigaction){.sa_handler = SIG_IGN}, &before);
    ssize_t written = write(fd, bytes, length);
    sigaction(SIGPIPE, &before, NULL);
    return written;
}

void window_type_bytes(window *w, const char *bytes, size_t length)
{
    if (write_without_signal(w->in, bytes, length) != (ssize_t)length)
        fail_msg("\"%.*s\" could not be typed: the program has ended", (int)length, bytes);
    for (size_t i = 0; i < length; i++) w->typed += bytes[i] == '\n' || bytes[i] == '\r';
    w->page = w->text.length;
}

static void type_whole_line(window *w, const char *line, size_t length)
{
    char *whole = or_stop(malloc(length + 1));
    memcpy(whole, line, length);
    whole[length] = w->terminal ? '\r' : '\n'; /* the key Enter sends a carriage return */
    window_type_bytes(w, whole, length + 1);
    free(whole);
}

void window_type(window *w, const char *line)
{
    type_whole_line(w, line, strlen(line));
}

void window_type_lines(window *w, const char *lines)
{
    for (bool more = true; more; lines++) {
        size_t length = strcspn(lines, "\n");
        window_await_next_prompt(w);
        type_whole_line(w, lines, length);
        lines += length;
        more = *lines != 0;
    }
}

/* ---- waiting ---- */

/* Nothing more comes by itself. */
static bool stands_still(const window *w)
{
    return w->ended || (!w->signalled && w->prompts > w->typed);
}

static void never_came(const window *w, const char *what)
{
    print_error("%s never came: the program %s. Since it was waited for last, or typed, it has "
                "shown:\n%s\n",
                what, w->ended ? "has ended" : "asks for a line", w->text.bytes + w->read);
    fail();
}

void window_await(window *w, const char *text)
{
    const char *found;
    while ((found = strstr(w->text.bytes + w->read, text)) == NULL) {
        if (stands_still(w)) never_came(w, text);
        read_windows();
    }
    w->read = (size_t)(found - w->text.bytes) + strlen(text);
}

void window_await_unasked(window *w, const char *text)
{
    const char *found;
    while ((found = strstr(w->text.bytes + w->read, text)) == NULL ||
           w->prompts_end < (size_t)(found - w->text.bytes)) {
        if (w->ended) never_came(w, text);
        read_windows();
    }
    w->read = (size_t)(found - w->text.bytes) + strlen(text);
    w->typed = w->prompts - 1;
}

void window_await_prompt(window *w, unsigned number)
{
    while (w->prompts < number) {
        if (stands_still(w)) never_came(w, "the prompt");
        read_windows();
    }
    w->read = w->prompts_end;
}

void window_await_next_prompt(window *w)
{
    window_await_prompt(w, w->typed + 1);
}

void window_await_end(window *w)
{
    while (!w->ended) {
        if (stands_still(w)) never_came(w, "the end");
        read_windows();
    }
}

/* ---- the rest ---- */

void window_signal(window *w, int number)
{
    /* Stopped and continued it shows nothing of itself; of others it may say good-bye. */
    w->signalled = w->signalled || (number != SIGSTOP && number != SIGCONT);
    assert_int_equal(kill(w->pid, number), 0);
}

void window_resize(window *w, unsigned rows, unsigned columns)
{
    assert_true(w->terminal);
    set_size(w->in, rows, columns);
}

const char *window_text(const window *w)
{
    return w->text.bytes + 1;
}

const char *window_page(const window *w)
{
    return w->text.bytes + w->page;
}

const char *window_raw(const window *w)
{
    return w->raw.bytes != NULL ? w->raw.bytes : "";
}

unsigned window_prompts(const window *w)
{
    return w->prompts;
}

static bool begins_a_letter(char byte)
{
    return ((unsigned char)byte & 0xC0U) != 0x80U;
}

unsigned rows_of_text(const char *text, unsigned columns)
{
    unsigned rows = 0, column = 0;
    for (; *text != 0; text++) {
        if (*text == '\n') {
            rows++;
            column = 0;
        } else if (begins_a_letter(*text)) {
            if (columns > 0 && column == columns) {
                rows++;
                column = 0;
            }
            column++;
        }
    }
    return rows + (column > 0);
}

unsigned widest_line(const char *text)
{
    unsigned widest = 0, column = 0;
    for (; *text != 0; text++) {
        column = *text == '\n' ? 0 : column + begins_a_letter(*text);
        if (column > widest) widest = column;
    }
    return widest;
}

static void forget(const window *w)
{
    for (unsigned i = 0; i < MOST_WINDOWS; i++)
        if (open_windows[i] == w) open_windows[i] = NULL;
}

static void end_input(window *w)
{
    if (w->terminal)
        (void)write_without_signal(w->in, "\004", 1);
    else
        close(w->in);
}

int window_close(window *w)
{
    int status;
    end_input(w);
    while (!w->ended) read_windows();
    assert_int_equal(waitpid(w->pid, &status, 0), w->pid);
    forget(w);
    close(w->out);
    if (w->copy >= 0) close(w->copy);
    free(w->raw.bytes);
    free(w->text.bytes);
    free(w);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}
