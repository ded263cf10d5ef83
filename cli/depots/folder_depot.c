/* Cases in a folder on the disk: <root>/YYYY/MM/<uuid>/<writer>.jsonl, one file for each writer. */
#include <errno.h>
#include <sys/stat.h>

#include "depots/folder_parts.h"
#include "depots/known_cases.h"
#include "host/files.h"

static exit_status look(const char *root, bool may_be_missing, bool *there)
{
    struct stat about;
    const int error = stat(root, &about) == 0 ? 0 : errno;
    *there = error == 0;
    if (!*there) known_cases_sweep();
    if (!*there)
        return may_be_missing && error == ENOENT ? EXIT_DONE : say_file_failure(root, error);
    return S_ISDIR(about.st_mode) ? EXIT_DONE : say_file_failure(root, ENOTDIR);
}

const case_depot folder_depot = {
    .in_files = true,
    .look = look,
    .walk = folder_walk,
    .list = folder_list,
    .find = folder_find,
    .name = folder_name_new,
    .read = folder_read,
    .has_news = folder_has_news,
    .join = folder_join,
    .keep = folder_keep,
    .is_alive = folder_is_alive,
    .close = folder_close,
    .make = folder_make,
    .lines = folder_lines,
    .add = folder_add,
    .contact_read = folder_contact_read,
    .contact_write = folder_contact_write,
    .contact_erase = folder_contact_erase,
};
