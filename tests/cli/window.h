/* A window in which somebody works on a case: lines go in one at a time, and what is shown is waited
 * for. Include it after run_telltale.h. */
#ifndef TT_TESTS_CLI_WINDOW_H
#define TT_TESTS_CLI_WINDOW_H

#include <fcntl.h>
#include <signal.h>
#include <sys/prctl.h>
#include <time.h>
#include <unistd.h>

enum { MOST_WORDS = 12, MOST_WAITS = 3000 };

typedef struct window {
    pid_t pid;
    int in;
    const char *out; /* the file that takes what is shown */
    size_t read;     /* so much of it was waited for */
} window;

/* `words`: what follows the program's name, up to a null. */
static inline window open_window(const char *out, const char *const *words)
{
    int feed[2];
    char *arguments[MOST_WORDS + 2] = {(char *)(uintptr_t)TT_PROGRAM};
    for (int i = 0; words[i] != NULL && i < MOST_WORDS; i++) arguments[i + 1] = (char *)(uintptr_t)words[i];
    assert_int_equal(pipe(feed), 0);
    fcntl(feed[1], F_SETFD, FD_CLOEXEC);
    unlink(out);
    int file = open(out, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    pid_t pid = fork();
    assert_true(pid >= 0);
    if (pid == 0) {
        prctl(PR_SET_PDEATHSIG, SIGKILL); /* a test that fails leaves nobody behind */
        if (file < 0 || dup2(feed[0], 0) < 0 || dup2(file, 1) < 0 || dup2(file, 2) < 0) _exit(126);
        close(feed[0]);
        execv(TT_PROGRAM, arguments);
        _exit(127);
    }
    close(feed[0]);
    close(file);
    return (window){pid, feed[1], out, 0};
}

static inline void type_line(const window *w, const char *line)
{
    char whole[256];
    int length = snprintf(whole, sizeof whole, "%s\n", line);
    assert_int_equal(write(w->in, whole, (size_t)length), length);
}

static inline void wait_a_moment(void)
{
    nanosleep(&(struct timespec){.tv_nsec = 5000000}, NULL);
}

/* Until it stands there, after what was waited for before. */
static inline void await_text(window *w, const char *text)
{
    for (int i = 0; i < MOST_WAITS; i++) {
        if (access(w->out, R_OK) == 0) {
            char *all = contents(w->out);
            const char *found = strlen(all) >= w->read ? strstr(all + w->read, text) : NULL;
            size_t place = found != NULL ? (size_t)(found - all) + strlen(text) : 0;
            free(all);
            if (place > 0) {
                w->read = place;
                return;
            }
        }
        wait_a_moment();
    }
    char *all = contents(w->out);
    print_error("\"%s\" never came:\n%s\n", text, all + w->read);
    fail();
}

/* No more lines; its exit status, or 128 + the signal. */
static inline int close_window(window *w)
{
    int status;
    close(w->in);
    assert_int_equal(waitpid(w->pid, &status, 0), w->pid);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

#endif
