#include "depots/set_up.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <grp.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cases/case_depot.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/screen.h"

enum { MODE_FOLDER = S_ISGID | 0770, MODE_FILE = 0660 };

typedef struct handing {
    arena *keep;
    gid_t group;
    set_up *done;
    const char *month; /* the last that was handed down; or null */
    exit_status status;
} handing;

static exit_status find_group(const char *name, gid_t *out)
{
    char *end;
    const struct group *g = getgrnam(name);
    const unsigned long number = strtoul(name, &end, 10);
    const bool is_number = *name >= '0' && *name <= '9' && *end == 0 && number < UINT32_MAX;
    if (g == NULL && !is_number) {
        complain("there is no group %s on this computer. Who runs it makes one: groupadd %s", name,
                 name);
        return EXIT_USAGE;
    }
    *out = g != NULL ? g->gr_gid : (gid_t)number;
    return EXIT_DONE;
}

static exit_status say_not_ours(const char *path, int error)
{
    if (error != EPERM) return say_file_failure(path, error);
    complain("%s can't be given to that group by you: who owns it and is in the group can, or root",
             path);
    return EXIT_NOT_ALLOWED;
}

/* The mode last: a change of group may take bits away. */
static exit_status hand_down(const handing *h, const char *path, mode_t mode)
{
    struct stat about;
    if (lstat(path, &about) != 0) return say_file_failure(path, errno);
    if (about.st_gid != h->group && chown(path, (uid_t)-1, h->group) != 0)
        return say_not_ours(path, errno);
    const bool same = about.st_gid == h->group && (about.st_mode & 07777) == mode;
    return same || chmod(path, mode) == 0 ? EXIT_DONE : say_not_ours(path, errno);
}

static void note(handing *h, exit_status status)
{
    if (h->status == EXIT_DONE) h->status = status;
}

static void hand_folder(handing *h, const char *path)
{
    note(h, hand_down(h, path, MODE_FOLDER));
    h->done->folders++;
}

static void hand_files(handing *h, const char *folder)
{
    door_fault fault;
    DIR *entries = door_list(AT_FDCWD, folder, LINKS_REFUSED, &fault);
    if (entries == NULL) {
        note(h, say_door_fault(folder, &fault));
        return;
    }
    int error = 0;
    for (struct dirent *e; (e = door_next(entries, &error)) != NULL;) {
        struct stat about;
        const bool plain = fstatat(dirfd(entries), e->d_name, &about, AT_SYMLINK_NOFOLLOW) == 0 &&
                           S_ISREG(about.st_mode);
        if (!plain) continue;
        note(h, hand_down(h, arena_text(h->keep, "%s/%s", folder, e->d_name), MODE_FILE));
        h->done->files++;
    }
    if (error != 0) note(h, say_file_failure(folder, error));
    closedir(entries);
}

/* A month's folder, and the year's above it, with the first of its cases. */
static void hand_case(void *context, const char *month, const char *uuid)
{
    handing *h = context;
    const char *folder = arena_text(h->keep, "%s/%s", month, uuid);
    if (h->month == NULL || strcmp(h->month, month) != 0) {
        char *year = folder_above(month),
             *before = h->month != NULL ? folder_above(h->month) : NULL;
        if (before == NULL || strcmp(before, year) != 0) hand_folder(h, year);
        hand_folder(h, month);
        h->month = arena_copy(h->keep, month);
        free(before);
        free(year);
    }
    hand_folder(h, folder);
    hand_files(h, folder);
}

/* The first folder above that neither everybody nor this group can go through. */
static const char *closed_on_the_way(const handing *h, const char *root)
{
    char *at = absolute_path(root);
    const char *closed = NULL;
    while (strcmp(at, "/") != 0) {
        struct stat about;
        char *above = folder_above(at);
        free(at);
        at = above;
        if (stat(at, &about) != 0) break;
        const bool open = (about.st_mode & S_IXOTH) != 0 ||
                          (about.st_gid == h->group && (about.st_mode & S_IXGRP) != 0);
        if (!open) closed = arena_copy(h->keep, at);
    }
    free(at);
    return closed;
}

/* Those above are somebody's already: who may go through them is not for us to say. */
static exit_status make_root(const char *root)
{
    struct stat about;
    if (mkdir(root, 0700) == 0) return EXIT_DONE;
    const int error = errno;
    if (error == EEXIST && stat(root, &about) == 0 && !S_ISDIR(about.st_mode))
        return say_file_failure(root, ENOTDIR);
    return error == EEXIST ? EXIT_DONE : say_file_failure(root, error);
}

exit_status cases_set_up(arena *keep, const char *root, const char *group, set_up *out)
{
    handing h = {.keep = keep, .done = out, .status = EXIT_DONE};
    assert(*root != 0 && group != NULL);
    *out = (set_up){.folders = 0};
    exit_status status = find_group(group, &h.group);
    if (status == EXIT_DONE) status = make_root(root);
    if (status != EXIT_DONE) return status;
    hand_folder(&h, root);
    if (h.status == EXIT_DONE && case_walk(root, hand_case, &h) > 0) h.status = EXIT_IO;
    out->closed = closed_on_the_way(&h, root);
    return h.status;
}
