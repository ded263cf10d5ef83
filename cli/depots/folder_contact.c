/* Who calls, as a small file in the case's folder. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cases/case_contact.h"
#include "depots/folder_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"

static const char *contact_path(arena *keep, const char *folder)
{
    return arena_text(keep, "%s/contact.json", folder);
}

exit_status folder_contact_read(arena *keep, const char *folder, str *out)
{
    door_fault fault;
    char *bytes = NULL;
    const char *path = contact_path(keep, folder);
    const int fd = door_open_file(AT_FDCWD, path, LINKS_REFUSED, &fault);
    *out = str_of("");
    if (fd < 0) return fault.error == ENOENT ? EXIT_DONE : say_door_fault(path, &fault);
    const ssize_t length = read_descriptor(fd, LARGEST_CONTACT, &bytes);
    const exit_status status = length >= 0 ? EXIT_DONE : say_file_failure(path, errno);
    if (length >= 0) *out = str_copy(keep, (str){bytes, (size_t)length});
    free(bytes);
    close(fd);
    return status;
}

/* As the case's other files: for the group too where the folder is. */
static mode_t mode_in(const char *folder)
{
    struct stat about;
    return stat(folder, &about) == 0 && (about.st_mode & S_IWGRP) != 0 ? 0660 : 0600;
}

exit_status folder_contact_write(arena *keep, const char *folder, str text)
{
    const char *path = contact_path(keep, folder);
    const mode_t mode = mode_in(folder);
    const int error = write_whole(path, text.p, text.n, mode, true);
    if (error == 0) chmod(path, mode); /* whatever the umask says, as the records beside it */
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}

exit_status folder_contact_erase(arena *keep, const char *folder, bool *erased)
{
    const char *path = contact_path(keep, folder);
    *erased = unlink(path) == 0;
    const int error = *erased ? sync_folder(folder) : errno == ENOENT ? 0 : errno;
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}
