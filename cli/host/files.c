/* Files read and written whole, folders made, and paths for people. */
#include "host/files.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/door.h"
#include "host/plain_text.h"
#include "host/signals.h"

char *short_path(const char *path)
{
    const char *home = getenv("HOME");
    size_t length = home != NULL && *home == '/' ? strlen(home) : 0;
    bool within = length > 1 && strncmp(path, home, length) == 0 && path[length] == '/';
    return within ? format_text("~%s", path + length) : copy_text(path);
}

bool begins_at_home(const char *path)
{
    return *path == '~' && (path[1] == 0 || strchr(path, '/') != NULL);
}

char *path_at_home(const char *path)
{
    const char *home = getenv("HOME");
    const bool own = *path == '~' && (path[1] == 0 || path[1] == '/');
    return own && home != NULL && *home == '/' ? format_text("%s%s", home, path + 1) : NULL;
}

char *real_path(const char *path)
{
    char *real = realpath(path, NULL);
    if (real == NULL && errno == ENOMEM)
        memory_ended(); /* else what is there would be told as missing */
    return real;
}

char *absolute_path(const char *path)
{
    char *real = real_path(path), *here = real == NULL && *path != '/' ? real_path(".") : NULL;
    if (real != NULL) return real;
    char *whole = here != NULL ? format_text("%s/%s", here, path) : copy_text(path);
    free(here);
    return whole;
}

ssize_t read_descriptor(int fd, size_t most, char **bytes)
{
    size_t length = 0, room = 4096;
    char *buffer = take_memory(room);
    for (;;) {
        ssize_t got = read(fd, buffer + length, room - length);
        if (got < 0 && errno == EINTR && signals_noted() == 0) continue;
        if (got > 0) length += (size_t)got;
        if (length > most) errno = EFBIG;
        if (got < 0 || length > most) {
            free(buffer);
            return -1;
        }
        if (got == 0) break;
        if (length == room) buffer = more_memory(buffer, room *= 2);
    }
    assert(length < room);
    *bytes = buffer;
    return (ssize_t)length;
}

/* ---- folders ---- */

int sync_folder(const char *path)
{
    door_fault fault;
    int fd = door_open_folder(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    if (fd < 0) return fault.error != 0 ? fault.error : ENOTDIR;
    int error = fsync(fd) == 0 || errno == EINVAL ? 0 : errno;
    close(fd);
    return error;
}

char *folder_above(const char *path)
{
    const char *slash = strrchr(path, '/');
    if (slash == NULL) return copy_text(".");
    return slash == path ? copy_text("/") : format_text("%.*s", (int)(slash - path), path);
}

static int sync_above(const char *path)
{
    char *above = folder_above(path);
    int error = sync_folder(above);
    free(above);
    return error;
}

/* A group that works in a folder together works in what is made there too. `marks`: bits that the
 * folder above must have. */
static bool is_shared(const char *path, const struct stat *made, mode_t marks)
{
    struct stat above;
    char *folder = folder_above(path);
    bool shared = stat(folder, &above) == 0 && (above.st_mode & marks) == marks &&
                  above.st_gid == made->st_gid;
    free(folder);
    return shared;
}

static int make_one(const char *path, mode_t marks)
{
    struct stat about;
    bool made = mkdir(path, 0700) == 0;
    if (!made && errno != EEXIST) return errno;
    if (stat(path, &about) != 0) return errno;
    if (!made) return S_ISDIR(about.st_mode) ? 0 : ENOTDIR;
    if (is_shared(path, &about, marks) && chmod(path, S_ISGID | 0770) != 0) return errno;
    return sync_above(path);
}

int make_folder_in(const char *path)
{
    return make_one(path, S_IWGRP);
}

/* A folder that hands its group down is meant to be shared; one that is not may be the group's by
 * accident. */
static int make_on_the_way(const char *path)
{
    return make_one(path, S_IWGRP | S_ISGID);
}

int make_folders(const char *path)
{
    assert(*path != 0);
    char *part = copy_text(path);
    int error = 0;
    for (char *p = part + 1; error == 0 && *p != 0; p++) {
        if (*p != '/') continue;
        *p = 0;
        error = make_on_the_way(part);
        *p = '/';
    }
    if (error == 0) error = make_on_the_way(part);
    free(part);
    return error;
}

/* ---- a file whole, or not at all ---- */

/* All of it, on the disk; as public as the file it may take the place of. 0, or errno. */
static int fill(int fd, const char *bytes, size_t length, const struct stat *before)
{
    size_t written;
    int error = door_write(fd, bytes, length, &written);
    if (error != 0) return error;
    if (before != NULL && fchmod(fd, before->st_mode & 0777) != 0) return errno;
    return fsync(fd) == 0 ? 0 : errno;
}

/* A link refuses to take a name that is taken, whoever took it since we looked; where there are no
 * links, looking has to do. */
static int give_name(const char *made, const char *path, bool over)
{
    if (over) return rename(made, path) == 0 ? 0 : errno;
    if (link(made, path) == 0) return unlink(made) == 0 ? 0 : errno;
    bool no_links = errno == EPERM || errno == ENOTSUP || errno == ENOSYS || errno == EMLINK;
    if (!no_links) return errno;
    struct stat about;
    if (lstat(path, &about) == 0) return EEXIST;
    return rename(made, path) == 0 ? 0 : errno;
}

/* Whoever began it was killed: nobody holds it any more. Another machine may have a process of the
 * same number. */
static bool is_left_behind(const char *made)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    door_fault fault;
    bool is_new;
    const int fd = door_open_to_add(AT_FDCWD, made, 0600, &is_new, &fault);
    const bool left = fd >= 0 && fcntl(fd, F_SETLK, &whole) == 0;
    if (fd >= 0) close(fd);
    return left;
}

/* A new file beside the path, held until it is closed, with a name that is freed by the caller; -1
 * with *fault. */
static int make_beside(const char *path, mode_t mode, char **made, door_fault *fault)
{
    enum { NAMES = 9 };
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    for (int i = 1; i <= NAMES; i++) {
        *made = i == 1 ? format_text("%s.%ld.new", path, (long)getpid())
                       : format_text("%s.%ld-%d.new", path, (long)getpid(), i);
        int fd = door_make_file(AT_FDCWD, *made, mode, fault);
        if (fd < 0 && fault->error == EEXIST && is_left_behind(*made) && unlink(*made) == 0)
            fd = door_make_file(AT_FDCWD, *made, mode, fault);
        if (fd >= 0) (void)fcntl(fd, F_SETLK, &whole); /* where nothing locks, numbers differ */
        if (fd >= 0 || fault->error != EEXIST) return fd;
        free(*made);
    }
    *made = NULL;
    return -1;
}

static int write_beside(const char *path, const char *bytes, size_t length, mode_t mode, bool over)
{
    struct stat about;
    door_fault fault = {.error = 0};
    bool there = stat(path, &about) == 0;
    if (there && !over) return EEXIST;
    if (there && !S_ISREG(about.st_mode))
        return EPERM; /* a device or a pipe is nobody's to replace */
    char *made;
    const int fd = make_beside(path, mode, &made, &fault);
    int error = fd < 0 ? fault.error : fill(fd, bytes, length, there ? &about : NULL);
    if (error == 0) error = give_name(made, path, over);
    if (fd >= 0 && close(fd) != 0 && error == 0) error = errno;
    if (error != 0 && fd >= 0) unlink(made);
    free(made);
    return error != 0 ? error : sync_above(path);
}

int write_whole(const char *path, const char *bytes, size_t length, mode_t mode, bool over)
{
    sigset_t before;
    char *real = over ? real_path(path) : NULL; /* a link goes on pointing where it did */
    signals_hold(&before);
    int error = write_beside(real != NULL ? real : path, bytes, length, mode, over);
    signals_let_go(&before);
    free(real);
    return error;
}
