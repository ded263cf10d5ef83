/* A new book in a folder of its own. */
#include "books/new_book.h"

#include <assert.h>
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
#include "host/screen.h"

/* Closes it. */
static bool has_something(DIR *folder, int *error)
{
    bool found = false;
    *error = 0;
    for (struct dirent *entry; !found && (entry = door_next(folder, error)) != NULL;)
        found = strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(folder);
    return found;
}

static exit_status refuse_full(const char *folder)
{
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, folder, LINKS_FOLLOWED, &fault);
    if (list == NULL) return say_door_fault(folder, &fault);
    int error;
    if (!has_something(list, &error))
        return error == 0 ? EXIT_DONE : say_file_failure(folder, error);
    complain("%s: there is something in this folder already; name one that is empty, or not there",
             folder);
    return EXIT_CANNOT_CREATE;
}

static exit_status say_not_made(const char *folder, int error)
{
    if (error != ENOENT && error != ENOTDIR) {
        complain("%s: %s", folder, strerror(error));
    } else {
        char *above = folder_above(folder);
        complain("%s: there is no such folder; make it first, or name another", above);
        free(above);
    }
    return EXIT_CANNOT_CREATE;
}

/* As open to others as whatever else the person makes: a book is for others to read. */
static exit_status make_room(const char *folder, bool *made)
{
    *made = mkdir(folder, 0777) == 0;
    if (*made) return EXIT_DONE;
    return errno == EEXIST ? refuse_full(folder) : say_not_made(folder, errno);
}

static int write_one(const char *folder, const sample_file *file)
{
    char *path = format_text("%s/%s", folder, file->name);
    const int error = write_whole(path, file->bytes, file->length, 0666, false);
    free(path);
    return error;
}

static void take_back(const char *folder, unsigned written, bool made)
{
    for (unsigned i = 0; i < written; i++) {
        char *path = format_text("%s/%s", folder, sample_files[i].name);
        unlink(path);
        free(path);
    }
    if (made) rmdir(folder);
}

exit_status new_book_write(const char *folder)
{
    bool made;
    assert(sample_file_count > 0);
    const exit_status status = make_room(folder, &made);
    for (unsigned i = 0; status == EXIT_DONE && i < sample_file_count; i++) {
        const int error = write_one(folder, &sample_files[i]);
        if (error == 0) continue;
        take_back(folder, error == EEXIST ? i : i + 1,
                  made); /* it may have its name already, and not be safe on the disk */
        return say_not_made(folder, error);
    }
    return status;
}
