#include "files.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "plain_text.h"
#include "screen.h"

exit_status say_file_failure(const char *path, int error)
{
    complain("%s: %s", path, strerror(error));
    if (error == ENOENT || error == ENOTDIR) return EXIT_NO_FILE;
    return error == EACCES || error == EPERM ? EXIT_NOT_ALLOWED : EXIT_IO;
}

ssize_t read_descriptor(int fd, size_t most, char **bytes)
{
    size_t length = 0, room = 4096;
    char *buffer = take_memory(room);
    for (;;) {
        ssize_t got = read(fd, buffer + length, room - length);
        if (got < 0 && errno == EINTR) continue;
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

int sync_folder(const char *path)
{
    int fd = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return errno;
    int error = fsync(fd) == 0 || errno == EINVAL ? 0 : errno;
    close(fd);
    return error;
}

static int sync_above(const char *path)
{
    char *above = copy_text(path);
    char *slash = strrchr(above, '/');
    if (slash != NULL && slash != above) *slash = 0;
    int error = sync_folder(slash == NULL ? "." : slash == above ? "/" : above);
    free(above);
    return error;
}

static int make_one(const char *path)
{
    if (mkdir(path, 0700) == 0) return sync_above(path);
    if (errno != EEXIST) return errno;
    struct stat about;
    if (stat(path, &about) != 0) return errno;
    return S_ISDIR(about.st_mode) ? 0 : ENOTDIR;
}

int make_folders(const char *path)
{
    assert(*path != 0);
    char *part = copy_text(path);
    int error = 0;
    for (char *p = part + 1; error == 0 && *p != 0; p++) {
        if (*p != '/') continue;
        *p = 0;
        error = make_one(part);
        *p = '/';
    }
    if (error == 0) error = make_one(part);
    free(part);
    return error;
}
