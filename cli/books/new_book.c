/* A new book in a folder of its own. */
#include "books/new_book.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "host/signals.h"

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

static int write_one(const char *folder, const sample_file *file)
{
    char *path = format_text("%s/%s", folder, file->name);
    const int error = write_whole(path, file->bytes, file->length, 0666, false);
    free(path);
    return error;
}

static void take_back(const char *folder, unsigned written)
{
    for (unsigned i = 0; i < written; i++) {
        char *path = format_text("%s/%s", folder, sample_files[i].name);
        unlink(path);
        free(path);
    }
}

/* All files of it, or none. 0, or errno. */
static int write_all(const char *folder)
{
    for (unsigned i = 0; i < sample_file_count; i++) {
        const int error = write_one(folder, &sample_files[i]);
        if (error == 0) continue;
        take_back(folder, error == EEXIST ? i : i + 1); /* it may have its name already, and not be
                                                           safe on the disk */
        return error;
    }
    return 0;
}

static int sync_over(const char *folder)
{
    char *above = folder_above(folder);
    const int error = sync_folder(above);
    free(above);
    return error;
}

/* It gets its name when it is whole, so whatever ends the program leaves no half of a book there.
 * As open to others as whatever else the person makes: a book is for others to read. */
static int make_beside(const char *folder)
{
    enum { NAMES = 9 };
    char *made = NULL;
    int error = EEXIST; /* one that was killed may have had our number */
    for (int i = 1; error == EEXIST && i <= NAMES; i++) {
        free(made);
        made = format_text("%s.%ld-%d.new", folder, (long)getpid(), i);
        error = mkdir(made, 0777) == 0 ? 0 : errno;
    }
    if (error == 0) {
        error = write_all(made);
        if (error == 0 && rename(made, folder) != 0) {
            error = errno;
            take_back(made, sample_file_count);
        }
        if (error != 0) rmdir(made);
    }
    free(made);
    return error != 0 ? error : sync_over(folder);
}

/* What is there stays what it is: whose it is, or a link. */
static exit_status write_book(const char *folder)
{
    struct stat about;
    const bool there = stat(folder, &about) == 0;
    const exit_status status = there ? refuse_full(folder) : EXIT_DONE;
    if (status != EXIT_DONE) return status;
    const int error = there ? write_all(folder) : make_beside(folder);
    return error == 0 ? EXIT_DONE : say_not_made(folder, error);
}

/* Who asks it to stop waits for as long as that takes. */
exit_status new_book_write(const char *folder)
{
    sigset_t before;
    assert(sample_file_count > 0);
    signals_hold(&before);
    const exit_status status = write_book(folder);
    signals_let_go(&before);
    return status;
}
