/* Of a place named by a person: what it is, and so whether bytes are poured into it, replace it, or
 * leave it alone. */
#include "host/into.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/screen.h"

enum { LARGEST_OF_OURS = 16 << 20 };

static exit_status say_not_written(const char *path, int error)
{
    complain("%s could not be written: %s", path, strerror(error));
    return error == ENOENT || error == ENOTDIR ? EXIT_NO_FILE
           : error == EACCES || error == EPERM ? EXIT_NOT_ALLOWED
                                               : EXIT_IO;
}

/* ---- what is no file ---- */

/* The descriptor that a path names, or -1. It is open already: opened again by its name it would
 * begin anew. */
static int descriptor_named(const char *path)
{
    static const char *const folders[] = {"/dev/fd/", "/proc/self/fd/"};
    if (strcmp(path, "/dev/stdout") == 0) return STDOUT_FILENO;
    if (strcmp(path, "/dev/stderr") == 0) return STDERR_FILENO;
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        size_t length = strlen(folders[i]);
        const char *digits = path + length;
        if (strncmp(path, folders[i], length) != 0 || *digits == 0 || strlen(digits) > 6) continue;
        if (digits[strspn(digits, "0123456789")] == 0) return (int)strtol(digits, NULL, 10);
    }
    return -1;
}

static exit_status pour_into(const char *path, int fd, const char *bytes, size_t length)
{
    int error = door_pour(fd, bytes, length);
    return error == 0 ? EXIT_DONE : say_not_written(path, error);
}

static exit_status pour_by_name(const char *path, const char *bytes, size_t length)
{
    door_fault fault;
    int fd = door_open_stream(path, &fault);
    if (fd < 0) return say_not_written(path, fault.error);
    exit_status status = pour_into(path, fd, bytes, length);
    if (close(fd) != 0 && status == EXIT_DONE) status = say_not_written(path, errno);
    return status;
}

/* ---- a file ---- */

static bool is_one_of_ours(const char *path, is_ours *ours)
{
    door_fault fault;
    char *bytes = NULL;
    int fd = door_open_file(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    ssize_t length = fd >= 0 ? read_descriptor(fd, LARGEST_OF_OURS, &bytes) : -1;
    bool is = length >= 0 && ours(bytes, (size_t)length);
    if (length >= 0) free(bytes);
    if (fd >= 0) close(fd);
    return is;
}

static exit_status say_it_stays(const char *path, const char *is)
{
    complain("%s is %s that telltale did not make, so it stays as it is. Name another file, or add "
             "--overwrite",
             path, is);
    return EXIT_CANNOT_CREATE;
}

static exit_status write_file(const char *path, const char *bytes, size_t length, bool over)
{
    int error = write_whole(path, bytes, length, 0600, over);
    if (error == EEXIST) return say_it_stays(path, "a file");
    return error == 0 ? EXIT_DONE : say_not_written(path, error);
}

/* Nothing is there, but perhaps a link that leads nowhere. */
static exit_status write_new(const char *path, const char *bytes, size_t length)
{
    struct stat about;
    if (lstat(path, &about) != 0) return write_file(path, bytes, length, false);
    complain("%s is a link to a file that is not there. Name the file itself", path);
    return EXIT_NO_FILE;
}

exit_status put_into(const char *path, const char *bytes, size_t length, is_ours *ours,
                     bool overwrite)
{
    struct stat about;
    int fd = descriptor_named(path);
    if (fd >= 0) return pour_into(path, fd, bytes, length);
    if (stat(path, &about) != 0)
        return errno == ENOENT ? write_new(path, bytes, length) : say_not_written(path, errno);
    if (S_ISDIR(about.st_mode) || S_ISSOCK(about.st_mode)) {
        complain("%s is %s. Name a file", path, door_kind_words(about.st_mode));
        return EXIT_CANNOT_CREATE;
    }
    if (S_ISBLK(about.st_mode) && !overwrite) return say_it_stays(path, "a disk");
    if (!S_ISREG(about.st_mode)) return pour_by_name(path, bytes, length);
    if (about.st_size > 0 && !overwrite && !is_one_of_ours(path, ours))
        return say_it_stays(path, "a file");
    return write_file(path, bytes, length, true);
}
