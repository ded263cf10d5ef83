/* The writers' files of one case, read line by line; each from where it was read to before. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "depots/folder_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/screen.h"
#include "summary/case_lines.h"

/* Somebody who writes to it holds a lock on it. */
static bool is_locked(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(fd, F_GETLK, &whole) == 0 && whole.l_type != F_UNLCK;
}

static exit_status read_part(case_store *s, case_part *part, int fd, bool aloud)
{
    bool own = fd == s->fd;
    case_taking t = {.store = s, .part = part, .alive = !own && is_locked(fd), .aloud = aloud};
    int error = case_lines_read(fd, part->read, case_take_line, &t);
    case_taking_done(&t);
    return error == 0 ? EXIT_DONE : say_file_failure(part->path, error);
}

/* Our own file is not opened a second time: closing that would end its lock. */
static exit_status open_part(case_store *s, case_part *part, bool aloud)
{
    door_fault fault;
    if (case_is_own(s, part->name)) return read_part(s, part, s->fd, aloud);
    int fd = door_open_file(AT_FDCWD, part->path, LINKS_REFUSED, &fault);
    if (fd < 0 && fault.error != 0) return say_file_failure(part->path, fault.error);
    if (fd < 0) {
        if (aloud) complain("%s is left out: it is %s", part->path, fault.is);
        return EXIT_DONE;
    }
    exit_status status = read_part(s, part, fd, aloud);
    close(fd);
    return status;
}

/* The length of the writer's name, or 0: it is no writer's file. */
static size_t writer_length(const char *name)
{
    const char *end = strrchr(name, '.');
    return name[0] != '.' && end != NULL && strcmp(end, ".jsonl") == 0 ? (size_t)(end - name) : 0;
}

static bool has_grown(const case_part *part)
{
    struct stat about;
    return lstat(part->path, &about) == 0 && S_ISREG(about.st_mode) && about.st_size > part->read;
}

exit_status folder_read(case_store *s, bool takes_own, bool aloud)
{
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, s->name.folder, LINKS_REFUSED, &fault);
    if (folder == NULL) return say_door_fault(s->name.folder, &fault);
    exit_status status = EXIT_DONE;
    int error = 0;
    for (struct dirent *entry;
         status == EXIT_DONE && (entry = door_next(folder, &error)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        if (length == 0) continue;
        case_part *part = case_part_named(s, entry->d_name, length);
        bool is_new = part == NULL;
        if (is_new) part = case_part_add(s, entry->d_name, length);
        if (case_is_own(s, part->name) && !takes_own) continue;
        if (is_new || has_grown(part)) status = open_part(s, part, aloud);
    }
    closedir(folder);
    return error == 0 ? status : say_file_failure(s->name.folder, error);
}

bool folder_has_news(const case_store *s)
{
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, s->name.folder, LINKS_REFUSED, &fault);
    if (folder == NULL) return false;
    bool news = false;
    int error = 0;
    for (struct dirent *entry; !news && (entry = door_next(folder, &error)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        const case_part *part = case_part_named(s, entry->d_name, length);
        if (length == 0 || (part != NULL && case_is_own(s, part->name))) continue;
        news = part == NULL || has_grown(part);
    }
    closedir(folder);
    return news || error != 0; /* whoever then reads it says so */
}

bool folder_is_alive(const case_store *s, const char *writer)
{
    door_fault fault;
    const case_part *part = case_part_named(s, writer, strlen(writer));
    int fd = part != NULL ? door_open_file(AT_FDCWD, part->path, LINKS_REFUSED, &fault) : -1;
    bool open = fd >= 0 && is_locked(fd);
    if (fd >= 0) close(fd);
    return open;
}
