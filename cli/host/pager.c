#include "host/pager.h"

#include <assert.h>
#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>

pager pager_begin(bool wanted)
{
    const char *named = getenv("PAGER");
    pager p = {NULL, -1};
    if (!wanted || named == NULL || *named == 0 || isatty(STDOUT_FILENO) != 1) return p;
    fflush(stdout);
    p.was = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    p.pipe = p.was >= 0 ? popen(named, "w") : NULL; /* by the shell: people put options there */
    if (p.pipe != NULL && dup2(fileno(p.pipe), STDOUT_FILENO) < 0) pager_end(&p);
    return p;
}

/* It sees the end of its input once nobody holds the other end of the pipe. */
void pager_end(pager *p)
{
    if (p->pipe != NULL) {
        fflush(stdout);
        const int back = dup2(p->was, STDOUT_FILENO);
        assert(back == STDOUT_FILENO);
        pclose(p->pipe);
    }
    if (p->was >= 0) close(p->was);
    *p = (pager){NULL, -1};
}
