/* A case whole: all that its writers' files hold, and lines added to them. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/grow.h"
#include "depots/folder_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/screen.h"

enum { LARGEST_PART = 64 << 20 };

/* Where one lies that began when its id says so: years have four digits. */
static bool month_of(const char *id, char month[16])
{
    char digits[13];
    struct tm utc;
    memcpy(digits, id, 8);
    memcpy(digits + 8, id + 9, 4);
    digits[12] = 0;
    const time_t seconds = (time_t)(strtoull(digits, NULL, 16) / 1000);
    return gmtime_r(&seconds, &utc) != NULL && utc.tm_year + 1900 <= 9999 &&
           strftime(month, 16, "%Y/%m", &utc) > 0;
}

exit_status folder_make(arena *keep, const char *root, const char *id, const char **place)
{
    char month[16];
    *place = arena_text(keep, "%s/%s/%s", root, month_of(id, month) ? month : "9999/12", id);
    const char *why = folder_make_case(keep, root, *place);
    if (why != NULL) complain("the case can't be kept. %s", why);
    return why == NULL ? EXIT_DONE : EXIT_CANNOT_CREATE;
}

static exit_status read_part(arena *keep, DIR *folder, const char *path, const char *name,
                             size_t length, writers_lines *out)
{
    door_fault fault;
    char *bytes = NULL;
    const int fd = door_open_file(dirfd(folder), name, LINKS_REFUSED, &fault);
    if (fd < 0) return say_door_fault(path, &fault);
    const ssize_t got = read_descriptor(fd, LARGEST_PART, &bytes);
    const exit_status status = got >= 0 ? EXIT_DONE : say_file_failure(path, errno);
    close(fd);
    if (got >= 0) {
        GROW(keep, out->items, out->count, out->room);
        out->items[out->count++] = (writer_lines){arena_text(keep, "%.*s", (int)length, name),
                                                  str_copy(keep, (str){bytes, (size_t)got})};
    }
    free(bytes);
    return status;
}

exit_status folder_lines(arena *keep, const char *folder, writers_lines *out)
{
    door_fault fault;
    exit_status status = EXIT_DONE;
    *out = (writers_lines){.count = 0};
    DIR *entries = door_list(AT_FDCWD, folder, LINKS_REFUSED, &fault);
    if (entries == NULL) return say_door_fault(folder, &fault);
    int error = 0;
    for (struct dirent *e; status == EXIT_DONE && (e = door_next(entries, &error)) != NULL;) {
        const char *end = strrchr(e->d_name, '.');
        if (*e->d_name == '.' || end == NULL || strcmp(end, ".jsonl") != 0) continue;
        status = read_part(keep, entries, arena_text(keep, "%s/%s", folder, e->d_name), e->d_name,
                           (size_t)(end - e->d_name), out);
    }
    closedir(entries);
    return error == 0 ? status : say_file_failure(folder, error);
}

exit_status folder_add(arena *keep, const char *folder, const char *writer, str bytes)
{
    door_fault fault;
    bool made;
    size_t written;
    const char *path = arena_text(keep, "%s/%s.jsonl", folder, writer);
    const int fd = door_open_to_add(AT_FDCWD, path, 0600, &made, &fault);
    if (fd < 0) return say_door_fault(path, &fault);
    int error = door_write(fd, bytes.p, bytes.n, &written);
    if (error == 0 && fdatasync(fd) != 0) error = errno;
    close(fd);
    if (error == 0 && made) error = sync_folder(folder);
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}
