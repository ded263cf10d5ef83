/* The one door to files and descriptors: nothing outside is opened but here. What is read is a
 * plain file and is never waited for; whatever else a name leads to is named in the error. No file
 * of ours is ever descriptor 0, 1 or 2. */
#ifndef TT_CLI_DOOR_H
#define TT_CLI_DOOR_H

#include <dirent.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <sys/stat.h>

#include "host/exits.h"

/* Before anything is opened: takes those of the descriptors 0 to 2 that are closed, so that input
 * has ended and output fails, which is noticed. A file that may not grow any more is an error of
 * writing from here on, not a signal. False with errno: there is no /dev/null. */
bool door_begin(void);

/* Whether a link at the end of a name is followed: yes where a person named it, no where a folder
 * holds it. */
typedef enum door_links { LINKS_FOLLOWED, LINKS_REFUSED } door_links;

/* Why nothing was opened. */
typedef struct door_fault {
    int error;      /* errno; 0: it is something else than what was wanted */
    const char *is; /* then: "a link", "a pipe", "a folder" ... */
    bool folder_wanted;
} door_fault;

/* A plain file to be read. `folder`: an open one in which the name is looked up, or AT_FDCWD. -1
 * with *fault. */
int door_open_file(int folder, const char *name, door_links links, door_fault *fault);
/* A folder to be read. */
int door_open_folder(int folder, const char *name, door_links links, door_fault *fault);
/* The same, for its entries; closed with closedir. Null with *fault. */
DIR *door_list(int folder, const char *name, door_links links, door_fault *fault);
/* The next of them. Null at the end, or where reading failed: then *error is not 0, and there may
 * be more. */
struct dirent *door_next(DIR *list, int *error);
/* A plain file among them, to be read; no link is followed. *about: what it was as it was opened.
 */
int door_open_entry(DIR *list, const struct dirent *entry, struct stat *about, door_fault *fault);
bool door_is_link(DIR *list, const struct dirent *entry);
/* A plain file that is only added to; made if it is not there: then *made. */
int door_open_to_add(int folder, const char *name, mode_t mode, bool *made, door_fault *fault);
/* A new plain file, to be written: EEXIST if something has that name. */
int door_make_file(int folder, const char *name, mode_t mode, door_fault *fault);
/* What is there already and is no plain file and no folder, to be written into: a device, or a
 * pipe, for whose reader this waits. */
int door_open_stream(const char *name, door_fault *fault);

/* A file without a name, to write and read again; gone once it is closed with fclose. Null with
 * errno. */
FILE *door_scratch(void);
/* What is written there nobody reads; closed with fclose. Null with errno. */
FILE *door_nowhere(void);

/* "a link", "a pipe" ..., of what stat said of it; "a plain file", "a folder" too. */
const char *door_kind_words(mode_t mode);
/* Says what was wrong with the path, and gives the status for it. */
exit_status say_door_fault(const char *path, const door_fault *fault);

/* All the bytes into a file; INT, TERM and HUP wait meanwhile. 0, or errno; *written: how many are
 * there, however it ended. */
int door_write(int fd, const char *bytes, size_t length, size_t *written);
/* The same into a stream, whose reader may take long or stop reading: signals don't wait. */
int door_pour(int fd, const char *bytes, size_t length);

#endif
