/* How files, folders and streams are opened, and how bytes go into them. */
#define _DEFAULT_SOURCE /* of an entry of a folder, what it is */
#include "host/door.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/files.h"
#include "host/screen.h"
#include "host/signals.h"

enum { FIRST_OF_OURS = STDERR_FILENO + 1 };

bool door_begin(void)
{
    static const int ways[FIRST_OF_OURS] = {
        [STDIN_FILENO] = O_RDONLY,  /* nothing comes in */
        [STDOUT_FILENO] = O_RDONLY, /* so that writing fails */
        [STDERR_FILENO] = O_WRONLY,
    };
    signal(SIGXFSZ, SIG_IGN);
    for (int fd = 0; fd < FIRST_OF_OURS; fd++) {
        if (fcntl(fd, F_GETFD) >= 0) continue;
        if (errno != EBADF) return false;
        int got = open("/dev/null", ways[fd]); /* takes the lowest that is free: this one */
        if (got < 0) return false;
        assert(got == fd);
    }
    return true;
}

const char *door_kind_words(mode_t mode)
{
    return S_ISREG(mode)    ? "a plain file"
           : S_ISDIR(mode)  ? "a folder"
           : S_ISLNK(mode)  ? "a link"
           : S_ISFIFO(mode) ? "a pipe"
           : S_ISSOCK(mode) ? "a socket"
                            : "a device";
}

exit_status say_door_fault(const char *path, const door_fault *fault)
{
    if (fault->error != 0) return say_file_failure(path, fault->error);
    if (fault->folder_wanted)
        complain("%s: this is %s, not a folder", path, fault->is);
    else if (strcmp(fault->is, door_kind_words(S_IFDIR)) == 0)
        complain("%s: this is a folder; name a file in it", path);
    else
        complain(
            "%s: this is %s, and only a plain file is read. Put what it gives into a file first",
            path, fault->is);
    return EXIT_NO_FILE;
}

static int refuse(door_fault *fault, int error)
{
    *fault = (door_fault){.error = error};
    return -1;
}

static int refuse_kind(door_fault *fault, mode_t mode, bool folder_wanted)
{
    *fault = (door_fault){.is = door_kind_words(mode), .folder_wanted = folder_wanted};
    return -1;
}

static bool is_wanted(mode_t mode, bool folder_wanted)
{
    return folder_wanted ? S_ISDIR(mode) : S_ISREG(mode);
}

/* What was looked at before may be another by now. */
static int open_seen(int folder, const char *name, int how, bool folder_wanted, struct stat *about,
                     door_fault *fault)
{
    int fd = openat(folder, name, how | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (fd < 0) return refuse(fault, errno);
    assert(fd >= FIRST_OF_OURS);
    int error = fstat(fd, about) != 0 ? errno : 0;
    if (error == 0 && is_wanted(about->st_mode, folder_wanted)) return fd;
    close(fd);
    return error != 0 ? refuse(fault, error) : refuse_kind(fault, about->st_mode, folder_wanted);
}

/* Looked at before, since opening alone can do something to a device, and again after, since
 * another may stand there by then. */
static int open_kind(int folder, const char *name, int how, bool folder_wanted, door_fault *fault)
{
    struct stat about;
    bool follows = (how & O_NOFOLLOW) == 0;
    if (fstatat(folder, name, &about, follows ? 0 : AT_SYMLINK_NOFOLLOW) != 0)
        return refuse(fault, errno);
    if (!is_wanted(about.st_mode, folder_wanted))
        return refuse_kind(fault, about.st_mode, folder_wanted);
    return open_seen(folder, name, how, folder_wanted, &about, fault);
}

static int link_flag(door_links links)
{
    return links == LINKS_REFUSED ? O_NOFOLLOW : 0;
}

int door_open_file(int folder, const char *name, door_links links, door_fault *fault)
{
    return open_kind(folder, name, O_RDONLY | link_flag(links), false, fault);
}

/* O_DIRECTORY opens nothing else, so nothing has to be looked at before. */
int door_open_folder(int folder, const char *name, door_links links, door_fault *fault)
{
    const int how = O_RDONLY | O_DIRECTORY | link_flag(links);
    const int fd = openat(folder, name, how | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    assert(fd < 0 || fd >= FIRST_OF_OURS);
    return fd >= 0 ? fd : open_kind(folder, name, how, true, fault);
}

/* Most file systems say with a name what it is. */
int door_open_entry(DIR *list, const struct dirent *entry, struct stat *about, door_fault *fault)
{
    const int how = O_RDONLY | O_NOFOLLOW, folder = dirfd(list);
    *about = (struct stat){.st_size = 0};
    if (entry->d_type != DT_REG && fstatat(folder, entry->d_name, about, AT_SYMLINK_NOFOLLOW) != 0)
        return refuse(fault, errno);
    if (entry->d_type != DT_REG && !S_ISREG(about->st_mode))
        return refuse_kind(fault, about->st_mode, false);
    return open_seen(folder, entry->d_name, how, false, about, fault);
}

bool door_is_link(DIR *list, const struct dirent *entry)
{
    struct stat about;
    if (entry->d_type != DT_UNKNOWN) return entry->d_type == DT_LNK;
    return fstatat(dirfd(list), entry->d_name, &about, AT_SYMLINK_NOFOLLOW) == 0 &&
           S_ISLNK(about.st_mode);
}

DIR *door_list(int folder, const char *name, door_links links, door_fault *fault)
{
    int fd = door_open_folder(folder, name, links, fault);
    if (fd < 0) return NULL;
    DIR *list = fdopendir(fd);
    if (list != NULL) return list;
    refuse(fault, errno);
    close(fd);
    return NULL;
}

struct dirent *door_next(DIR *list, int *error)
{
    errno = 0;
    struct dirent *entry = readdir(list);
    *error = entry == NULL ? errno : 0;
    return entry;
}

static int make(int folder, const char *name, int how, mode_t mode, door_fault *fault)
{
    int fd = openat(folder, name, how | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
    if (fd < 0) return refuse(fault, errno);
    assert(fd >= FIRST_OF_OURS);
    return fd;
}

int door_open_to_add(int folder, const char *name, mode_t mode, bool *made, door_fault *fault)
{
    const int how = O_RDWR | O_APPEND;
    int fd = make(folder, name, how, mode, fault);
    *made = fd >= 0;
    if (fd >= 0 || fault->error != EEXIST) return fd;
    return open_kind(folder, name, how | O_NOFOLLOW, false, fault);
}

int door_make_file(int folder, const char *name, mode_t mode, door_fault *fault)
{
    return make(folder, name, O_WRONLY, mode, fault);
}

int door_open_stream(const char *name, door_fault *fault)
{
    int fd = open(name, O_WRONLY | O_NOCTTY | O_CLOEXEC);
    if (fd < 0) return refuse(fault, errno);
    assert(fd >= FIRST_OF_OURS);
    return fd;
}

FILE *door_scratch(void)
{
    return tmpfile();
}

FILE *door_nowhere(void)
{
    return fopen("/dev/null", "we");
}

/* The bytes that are left, from *done on. 0, or errno. */
static int write_rest(int fd, const char *bytes, size_t length, size_t *done)
{
    while (*done < length) {
        ssize_t got = write(fd, bytes + *done, length - *done);
        if (got >= 0)
            *done += (size_t)got;
        else if (errno != EINTR || signals_noted() != 0)
            return errno;
    }
    return 0;
}

int door_write(int fd, const char *bytes, size_t length, size_t *written)
{
    sigset_t before;
    *written = 0;
    signals_hold(&before);
    int error = write_rest(fd, bytes, length, written);
    signals_let_go(&before);
    return error;
}

int door_pour(int fd, const char *bytes, size_t length)
{
    size_t done = 0;
    return write_rest(fd, bytes, length, &done);
}
