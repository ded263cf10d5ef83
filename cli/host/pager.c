#include "host/pager.h"

#include <assert.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <unistd.h>

#include "host/door.h"
#include "host/screen.h"

static const char *named_pager(void)
{
    const char *named = getenv("PAGER");
    return named != NULL && *named != 0 ? named : NULL;
}

pager pager_begin(bool wanted)
{
    pager p = {NULL, -1};
    if (!wanted || named_pager() == NULL || isatty(STDOUT_FILENO) != 1) return p;
    fflush(stdout);
    p.was = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    p.kept = p.was >= 0 ? door_scratch() : NULL;
    if (p.kept != NULL && dup2(fileno(p.kept), STDOUT_FILENO) < 0) {
        fclose(p.kept);
        p.kept = NULL;
    }
    if (p.kept != NULL) screen_behind(p.was);
    return p;
}

static void copy(FILE *from, FILE *to)
{
    char bytes[8192];
    size_t got;
    while ((got = fread(bytes, 1, sizeof bytes, from)) > 0)
        if (fwrite(bytes, 1, got, to) != got) return; /* the person has left it */
}

/* Whoever leaves the pager early, or types Ctrl-C in it, does not end this: the terminal is the
 * pager's until it has ended. */
static void show(FILE *kept)
{
    FILE *pipe = popen(named_pager(), "w"); /* by the shell: people put options there */
    struct sigaction ignored = {.sa_handler = SIG_IGN}, left, stopped;
    sigemptyset(&ignored.sa_mask);
    sigaction(SIGPIPE, &ignored, &left);
    sigaction(SIGINT, &ignored, &stopped);
    rewind(kept);
    copy(kept, pipe != NULL ? pipe : stdout);
    if (pipe != NULL) pclose(pipe);
    sigaction(SIGPIPE, &left, NULL);
    sigaction(SIGINT, &stopped, NULL);
}

void pager_end(pager *p)
{
    if (p->kept != NULL) {
        fflush(stdout);
        const int back = dup2(p->was, STDOUT_FILENO);
        assert(back == STDOUT_FILENO);
        screen_behind(-1);
        if (fseek(p->kept, 0, SEEK_END) == 0 && ftell(p->kept) > 0) show(p->kept);
        fclose(p->kept);
    }
    if (p->was >= 0) close(p->was);
    *p = (pager){NULL, -1};
}
