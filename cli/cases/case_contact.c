#include "cases/case_contact.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/unicode.h"
#include "base/value.h"
#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "telltale.h"

enum { LARGEST_CONTACT = 64 << 10 };

static char *contact_path(const char *folder)
{
    return format_text("%s/contact.json", folder);
}

bool case_contact_says_something(const case_contact *c)
{
#define SAYS(member, key) *c->member != 0 ||
    return CONTACT_FIELDS(SAYS) false;
#undef SAYS
}

static void take_text(arena *keep, const tt_value *file, const char *key, const char **out)
{
    const char *text = value_text(file, key);
    if (text != NULL) *out = unicode_clean(keep, str_of(text)).p;
}

static exit_status take_file(arena *keep, const char *path, int fd, case_contact *out)
{
    char *bytes = NULL;
    tt_document *d = NULL;
    const ssize_t length = read_descriptor(fd, LARGEST_CONTACT, &bytes);
    if (length < 0) return say_file_failure(path, errno);
    const tt_status read = tt_document_read(bytes, (size_t)length, LARGEST_CONTACT, &d);
    const tt_value *file = read == TT_OK ? tt_document_value(d) : NULL;
#define TAKE(member, key) take_text(keep, file, key, &out->member);
    CONTACT_FIELDS(TAKE)
#undef TAKE
    if (file == NULL) complain("%s is no contact that can be read. It is left as it is", path);
    tt_document_free(d);
    free(bytes);
    return file != NULL ? EXIT_DONE : EXIT_BAD_DATA;
}

exit_status case_contact_read(arena *keep, const char *folder, case_contact *out)
{
    door_fault fault;
    char *path = contact_path(folder);
#define NOTHING(member, key) out->member = "";
    CONTACT_FIELDS(NOTHING)
#undef NOTHING
    const int fd = door_open_file(AT_FDCWD, path, LINKS_REFUSED, &fault);
    exit_status status = fd >= 0                 ? take_file(keep, path, fd, out)
                         : fault.error == ENOENT ? EXIT_DONE
                                                 : say_door_fault(path, &fault);
    if (fd >= 0) close(fd);
    free(path);
    return status;
}

/* As the case's other files: for the group too where the folder is. */
static mode_t mode_in(const char *folder)
{
    struct stat about;
    return stat(folder, &about) == 0 && (about.st_mode & S_IWGRP) != 0 ? 0660 : 0600;
}

static exit_status write_file(arena *keep, const char *folder, const case_contact *c)
{
    value_builder b = value_map(keep);
    value_put_number(&b, "version", 1);
#define PUT(member, key) \
    if (*c->member != 0) value_put_text(&b, key, c->member);
    CONTACT_FIELDS(PUT)
#undef PUT
    const tt_value value = value_done(&b);
    char *json = NULL;
    if (tt_value_json(&value, 1, &json) != TT_OK) memory_ended();
    char *path = contact_path(folder);
    const mode_t mode = mode_in(folder);
    const int error = write_whole(path, json, strlen(json), mode, true);
    free(json);
    if (error == 0) chmod(path, mode); /* whatever the umask says, as the records beside it */
    const exit_status status = error == 0 ? EXIT_DONE : say_file_failure(path, error);
    free(path);
    return status;
}

exit_status case_contact_keep(arena *keep, const char *folder, const case_contact *more)
{
    case_contact all;
    const exit_status status = case_contact_read(keep, folder, &all);
    if (status != EXIT_DONE) return status;
#define OVER(member, key) \
    if (*more->member != 0) all.member = unicode_clean(keep, str_of(more->member)).p;
    CONTACT_FIELDS(OVER)
#undef OVER
    return write_file(keep, folder, &all);
}

exit_status case_contact_erase(const char *folder, bool *erased)
{
    char *path = contact_path(folder);
    *erased = unlink(path) == 0;
    const int error = *erased ? sync_folder(folder) : errno == ENOENT ? 0 : errno;
    const exit_status status = error == 0 ? EXIT_DONE : say_file_failure(path, error);
    free(path);
    return status;
}
