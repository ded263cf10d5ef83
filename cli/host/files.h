/* Files as the program reads and makes them. */
#ifndef TT_CLI_FILES_H
#define TT_CLI_FILES_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "host/exits.h"

/* file_failure.c. Says what went wrong with the path, and gives the status for it. */
exit_status say_file_failure(const char *path, int error);

/* For people: with ~ for the home folder. Freed by the caller. */
char *short_path(const char *path);
/* "~", "~/x", "~name/x": as a shell reads it, a home folder. */
bool begins_at_home(const char *path);
/* One's own in its place. Null: it is another's, or HOME names none. Freed by the caller. */
char *path_at_home(const char *path);

/* Without links, and from the top; null with errno: there is no such thing, or nobody may see it.
 * Freed by the caller. */
char *real_path(const char *path);
/* Where a path leads, whatever folder it is used in; freed by the caller. */
char *absolute_path(const char *path);

/* All of it up to `most` bytes; -1 with errno, EFBIG if there is more. The bytes are freed by the
 * caller. */
ssize_t read_descriptor(int fd, size_t most, char **bytes);

/* The folder that a path's last name stands in; freed by the caller. */
char *folder_above(const char *path);
/* The folder and those above it, only for their owner, or for a group too that the one above is
 * handed down to; each new name is on the disk when this returns. 0, or errno. */
int make_folders(const char *path);
/* One in a folder that is there: for the group too if that one is. */
int make_folder_in(const char *path);
/* Writes a file whole or not at all: it is on the disk under its name when this returns, and until
 * then what was there before is. `mode`: of one that was not there, less what the umask takes away.
 * Without `over`, a file that is there stays: EEXIST; what is no plain file stays anyway: EPERM. 0,
 * or errno. */
int write_whole(const char *path, const char *bytes, size_t length, mode_t mode, bool over);
/* Brings the names in a folder to the disk. 0, or errno. */
int sync_folder(const char *path);

#endif
