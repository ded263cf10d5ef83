#include "host/held_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"

static char *beside(const char *path)
{
    char *real = real_path(path), *folder = folder_above(real != NULL ? real : path);
    const char *name = strrchr(real != NULL ? real : path, '/');
    char *made = format_text("%s/.%s.held", folder, name != NULL ? name + 1 : path);
    free(folder);
    free(real);
    return made;
}

static bool wait_for_lock(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    int got;
    do got = fcntl(fd, F_SETLKW, &whole);
    while (got != 0 && errno == EINTR);
    return got == 0;
}

/* Who held it before takes the hidden file away: then the lock is on nothing that others see. */
static bool is_still_there(int fd, const char *path)
{
    struct stat held, named;
    return fstat(fd, &held) == 0 && stat(path, &named) == 0 && held.st_ino == named.st_ino &&
           held.st_dev == named.st_dev;
}

held_file hold_file(const char *path)
{
    held_file held = {-1, beside(path)};
    for (;;) {
        door_fault fault;
        bool made;
        held.fd = door_open_to_add(AT_FDCWD, held.path, 0600, &made, &fault);
        if (held.fd < 0) return held;
        if (!wait_for_lock(held.fd) || is_still_there(held.fd, held.path)) return held;
        close(held.fd);
    }
}

void let_file_go(held_file *held)
{
    if (held->fd >= 0) {
        unlink(held->path);
        close(held->fd);
    }
    free(held->path);
}
