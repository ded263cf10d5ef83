#include "kill_points.h"

#include "testing.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/prctl.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

enum { MOST_WORDS = 30, STOP_AT_CALL = SIGTRAP | 0x80 };

/* The calls that count; not every kind of machine has all of them. */
enum { NO_DESCRIPTOR = -1, OPENS = -2 }; /* counts if it may make the file */
static const struct counted_call {
    long number;
    const char *name;
    int descriptor; /* which argument is one, or one of the above */
} counted_calls[] = {
    {SYS_write, "write", 0},
    {SYS_writev, "writev", 0},
    {SYS_pwrite64, "pwrite64", 0},
    {SYS_pwritev, "pwritev", 0},
    {SYS_fsync, "fsync", 0},
    {SYS_fdatasync, "fdatasync", 0},
    {SYS_ftruncate, "ftruncate", 0},
    {SYS_sendfile, "sendfile", 0},
    {SYS_copy_file_range, "copy_file_range", 2},
    {SYS_renameat2, "renameat2", NO_DESCRIPTOR},
    {SYS_linkat, "linkat", NO_DESCRIPTOR},
    {SYS_symlinkat, "symlinkat", NO_DESCRIPTOR},
    {SYS_unlinkat, "unlinkat", NO_DESCRIPTOR},
    {SYS_mkdirat, "mkdirat", NO_DESCRIPTOR},
    {SYS_openat, "openat", OPENS},
#ifdef SYS_renameat
    {SYS_renameat, "renameat", NO_DESCRIPTOR},
#endif
#ifdef SYS_rename
    {SYS_rename, "rename", NO_DESCRIPTOR},
    {SYS_link, "link", NO_DESCRIPTOR},
    {SYS_symlink, "symlink", NO_DESCRIPTOR},
    {SYS_unlink, "unlink", NO_DESCRIPTOR},
    {SYS_mkdir, "mkdir", NO_DESCRIPTOR},
    {SYS_rmdir, "rmdir", NO_DESCRIPTOR},
#endif
};
enum { COUNTED_CALLS = sizeof counted_calls / sizeof *counted_calls };

/* ---- the child ---- */

static void take_file(const char *path, int how, int as)
{
    int fd = open(path, how | O_CLOEXEC, 0600);
    if (fd < 0 || dup2(fd, as) < 0) _exit(126);
}

static _Noreturn void be_the_program(const counted_run *run)
{
    char *arguments[MOST_WORDS + 2] = {(char *)(uintptr_t)TT_PROGRAM};
    for (unsigned i = 0; run->words[i] != NULL; i++) {
        if (i == MOST_WORDS) _exit(126);
        arguments[i + 1] = (char *)(uintptr_t)run->words[i];
    }
    take_file(run->typed != NULL ? run->typed : "/dev/null", O_RDONLY, STDIN_FILENO);
    take_file(run->shown, O_WRONLY | O_CREAT | O_TRUNC, STDOUT_FILENO);
    dup2(STDOUT_FILENO, STDERR_FILENO);
    setenv("ASAN_OPTIONS", "detect_leaks=0", 1); /* which traces too: one at a time */
    execv(TT_PROGRAM, arguments);
    _exit(127);
}

static _Noreturn void be_the_child(const counted_run *run)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL); /* a test that fails leaves nobody behind */
    if (ptrace(PTRACE_TRACEME, 0, NULL, NULL) != 0) _exit(125);
    raise(SIGSTOP);
    if (run->child == NULL) be_the_program(run);
    run->child(run->context);
    _exit(0);
}

/* ---- its calls ---- */

static const struct counted_call *counted_call(const struct __ptrace_syscall_info *info)
{
    for (unsigned i = 0; i < COUNTED_CALLS; i++) {
        const struct counted_call *call = &counted_calls[i];
        if (call->number != (long)info->entry.nr) continue;
        bool counts = call->descriptor != OPENS || (info->entry.args[2] & O_CREAT) != 0;
        return counts ? call : NULL;
    }
    return NULL;
}

static void find_path(pid_t pid, system_call *call)
{
    char link[64];
    snprintf(link, sizeof link, "/proc/%d/fd/%d", (int)pid, call->descriptor);
    ssize_t length = readlink(link, call->path, sizeof call->path - 1);
    call->path[length > 0 ? length : 0] = 0;
}

/* The call that the child is about to make, if it counts. */
static bool is_counted(pid_t pid, system_call *out)
{
    struct __ptrace_syscall_info info;
    void *size = (void *)sizeof info; /* NOLINT: this is how it is asked for */
    if (ptrace(PTRACE_GET_SYSCALL_INFO, pid, size, &info) <= 0) return false;
    const struct counted_call *call =
        info.op == PTRACE_SYSCALL_INFO_ENTRY ? counted_call(&info) : NULL;
    if (call == NULL) return false;
    *out = (system_call){call->name, -1, ""};
    if (call->descriptor >= 0) {
        out->descriptor = (int)info.entry.args[call->descriptor];
        find_path(pid, out);
    }
    return true;
}

/* ---- running it ---- */

/* Lets it go on, and waits until it stands still; false if it is gone. */
static bool go_on(pid_t pid, int signal_number, int *status)
{
    ptrace(PTRACE_SYSCALL, pid, NULL, (void *)(intptr_t)signal_number);
    assert_int_equal(waitpid(pid, status, 0), pid);
    return WIFSTOPPED(*status);
}

/* Begins a child that can be stopped at its calls, or gives -1. */
static pid_t begin(const counted_run *run)
{
    int status;
    void *options =
        (void *)(uintptr_t)(PTRACE_O_TRACESYSGOOD | PTRACE_O_TRACEEXEC | PTRACE_O_EXITKILL);
    fflush(NULL);
    pid_t pid = fork();
    if (pid == 0) be_the_child(run);
    if (pid < 0 || waitpid(pid, &status, 0) != pid || !WIFSTOPPED(status)) return -1;
    if (ptrace(PTRACE_SETOPTIONS, pid, NULL, options) == 0) return pid;
    kill(pid, SIGKILL);
    waitpid(pid, &status, 0);
    return -1;
}

static bool is_exec(int status)
{
    return status >> 8 == (SIGTRAP | PTRACE_EVENT_EXEC << 8);
}

int run_until_call(const counted_run *run, unsigned last)
{
    system_call call;
    unsigned made = 0;
    int status, deliver = 0;
    bool counting = run->child != NULL;
    pid_t pid = begin(run);
    assert_true(pid > 0);
    while (go_on(pid, deliver, &status)) {
        deliver = 0;
        if (is_exec(status)) {
            counting = true;
        } else if (WSTOPSIG(status) != STOP_AT_CALL) {
            deliver = WSTOPSIG(status);
        } else if (counting && is_counted(pid, &call)) {
            if (++made == last)
                kill(pid, SIGKILL);
            else if (run->note != NULL)
                run->note(&call, run->context);
        }
    }
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/* ---- whether all this is allowed ---- */

static void write_nothing(void *context)
{
    (void)context;
    (void)!write(-1, "", 0);
}

bool can_count_calls(void)
{
    static int can = -1;
    const counted_run trial = {.child = write_nothing};
    if (can < 0) {
        pid_t pid = begin(&trial);
        int status;
        can = pid > 0;
        if (can) kill(pid, SIGKILL);
        if (can) waitpid(pid, &status, 0);
    }
    if (can == 1) can = run_until_call(&trial, 1) == 128 + SIGKILL;
    return can == 1;
}
