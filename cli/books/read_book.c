#include "books/read_book.h"

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/installed.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum {
    DEEPEST = 16,
    MOST_FILES = 10000,
    LARGEST_FILE = 64 << 20,
    LARGEST_ALL = 256 << 20,
    LARGEST_ANSWERS = 1 << 20,
    LARGEST_TABLE = 64 << 20,
};

static bool ends_with_one(const char *name, const char *const *ends)
{
    const char *end = strrchr(name, '.');
    while (*ends != NULL && (end == NULL || end == name || strcmp(end, *ends) != 0)) ends++;
    return *ends != NULL;
}

bool is_rule_file(const char *name)
{
    return ends_with_one(name, (const char *const[]){".yaml", ".yml", NULL});
}

bool is_book_file(const char *name)
{
    return is_rule_file(name) || ends_with_one(name, (const char *const[]){".svg", NULL});
}

static exit_status add_file(sources *all, int folder, const char *entry, const char *path)
{
    door_fault fault;
    int fd = door_open_file(folder, entry, LINKS_REFUSED, &fault);
    if (fd < 0) return say_door_fault(path, &fault);
    char *bytes = NULL;
    ssize_t length = read_descriptor(fd, LARGEST_FILE, &bytes);
    int error = errno;
    close(fd);
    if (length < 0) return say_file_failure(path, error);
    all->bytes += (size_t)length;
    all->items = room_for_one(all->items, all->count, sizeof *all->items);
    all->items[all->count++] =
        (tt_source){.name = copy_text(path), .bytes = bytes, .length = (size_t)length};
    if (all->count <= MOST_FILES && all->bytes <= LARGEST_ALL) return EXIT_DONE;
    complain("%s: more files, or larger ones, than a book may have (%d files, %d MiB)", path,
             MOST_FILES, LARGEST_ALL >> 20);
    return EXIT_BAD_DATA;
}

static exit_status add_folder(sources *all, DIR *folder, const char *path, unsigned depth);

static exit_status add_subfolder(sources *all, int folder, const char *entry, const char *path,
                                 unsigned depth)
{
    if (depth == DEEPEST) {
        complain("%s: folders lie more than %d deep", path, DEEPEST);
        return EXIT_BAD_DATA;
    }
    door_fault fault;
    DIR *within = door_list(folder, entry, LINKS_REFUSED, &fault);
    return within != NULL ? add_folder(all, within, path, depth + 1) : say_door_fault(path, &fault);
}

static exit_status add_entry(sources *all, int folder, const char *entry, const char *path,
                             unsigned depth)
{
    struct stat about;
    if (fstatat(folder, entry, &about, AT_SYMLINK_NOFOLLOW) != 0)
        return say_file_failure(path, errno);
    bool folder_within = S_ISDIR(about.st_mode);
    if (!folder_within && !is_book_file(entry) && !S_ISLNK(about.st_mode)) return EXIT_DONE;
    if (!is_clean_name(entry)) {
        complain("%s: the name holds characters that can't be shown; rename it", path);
        return EXIT_BAD_DATA;
    }
    if (folder_within) return add_subfolder(all, folder, entry, path, depth);
    if (S_ISREG(about.st_mode)) return add_file(all, folder, entry, path);
    complain("%s: left out, it is %s", path, S_ISLNK(about.st_mode) ? "a link" : "no plain file");
    return EXIT_DONE;
}

/* Closes the folder. Names that begin with a dot are none of ours. */
static exit_status add_folder(sources *all, DIR *folder, const char *path, unsigned depth)
{
    exit_status status = EXIT_DONE;
    int error = 0;
    for (struct dirent *entry;
         status == EXIT_DONE && (entry = door_next(folder, &error)) != NULL;) {
        if (entry->d_name[0] == '.') continue;
        char *within = format_text("%s%s%s", path, *path != 0 ? "/" : "", entry->d_name);
        status = add_entry(all, dirfd(folder), entry->d_name, within, depth);
        free(within);
    }
    closedir(folder);
    return error == 0 ? status
                      : say_file_failure(*path != 0 ? path : "the folder of the book", error);
}

static int by_name(const void *a, const void *b)
{
    const tt_source *x = a, *y = b;
    return strcmp(x->name, y->name);
}

char *book_folder(const char *named)
{
    struct stat about;
    char *path = NULL;
    if (stat(named, &about) == 0) {
        path = copy_text(named);
    } else if (strchr(named, '/') == NULL) {
        char *shelf = installed_folder(TELLTALE_RULES_DIR);
        path = format_text("%s/%s", shelf, named);
        free(shelf);
        if (stat(path, &about) != 0) {
            free(path);
            path = NULL;
        }
    }
    if (path == NULL) return NULL;
    char *absolute = real_path(path);
    free(path);
    return absolute;
}

/* It may be there all the same, and not for us. */
static exit_status say_no_folder(const char *folder)
{
    struct stat about;
    const int error = stat(folder, &about) == 0 ? 0 : errno;
    if (error != 0 && error != ENOENT && error != ENOTDIR) return say_file_failure(folder, error);
    complain("%s: there is no such folder", folder);
    return EXIT_NO_FILE;
}

exit_status sources_read(const char *folder, sources *out)
{
    *out = (sources){.items = NULL};
    char *path = book_folder(folder);
    if (path == NULL) return say_no_folder(folder);
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    free(path);
    if (list == NULL && fault.error == 0) {
        complain("%s: this is %s; a book is a folder of .yaml files", folder, fault.is);
        return EXIT_NO_FILE;
    }
    if (list == NULL) return say_file_failure(folder, fault.error);
    exit_status status = add_folder(out, list, "", 0);
    size_t rules = 0;
    for (size_t i = 0; i < out->count; i++) rules += is_rule_file(out->items[i].name);
    if (out->count > 0) qsort(out->items, out->count, sizeof *out->items, by_name);
    if (status == EXIT_DONE && rules == 0) {
        complain("%s: there is no .yaml file in this folder", folder);
        status = EXIT_NO_FILE;
    }
    return status;
}

void source_free(tt_source *source)
{
    free((char *)(uintptr_t)source->name);
    free((char *)(uintptr_t)source->bytes);
    *source = (tt_source){.name = NULL};
}

void sources_free(sources *s)
{
    for (size_t i = 0; i < s->count; i++) source_free(&s->items[i]);
    free(s->items);
    *s = (sources){.items = NULL};
}

static exit_status read_file(const char *path, size_t most, tt_source *out)
{
    bool standard = strcmp(path, "-") == 0;
    *out = (tt_source){.name = NULL};
    door_fault fault;
    int fd = standard ? STDIN_FILENO : door_open_file(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    if (fd < 0) return say_door_fault(path, &fault);
    char *bytes = NULL;
    ssize_t length = read_descriptor(fd, most, &bytes);
    int error = errno;
    if (!standard) close(fd);
    if (length < 0) return say_file_failure(path, error);
    *out = (tt_source){.bytes = bytes, .length = (size_t)length};
    out->name = standard ? copy_text("standard input") : clean_text(path);
    return EXIT_DONE;
}

exit_status source_read_file(const char *path, tt_source *out)
{
    return read_file(path, LARGEST_ANSWERS, out);
}

exit_status source_read_large(const char *path, tt_source *out)
{
    return read_file(path, LARGEST_TABLE, out);
}
