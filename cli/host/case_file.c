#include "host/case_file.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "host/case_folder.h"
#include "host/case_parts.h"
#include "host/case_record.h"
#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { MOST_WINDOWS = 99 };

const char *case_file_number(const case_file *file)
{
    return file->number;
}

const char *case_file_folder(const case_file *file)
{
    return file->folder;
}

const char *case_file_writer(const case_file *file)
{
    return file->writer;
}

size_t case_file_count(const case_file *file)
{
    return file->count;
}

const case_record *case_file_record(const case_file *file, size_t index)
{
    assert(index < file->count);
    return &file->records[index];
}

bool case_file_is_open(const case_file *file)
{
    return file->fd >= 0;
}

void case_file_close(case_file *file)
{
    if (file == NULL) return;
    if (file->fd >= 0) close(file->fd);
    case_parts_forget(file);
    free(file->path);
    free(file->folder);
    free(file);
}

static case_file *begin(void)
{
    case_file *file = take_memory(sizeof *file);
    file->fd = -1;
    writer_of_this_machine(file->base);
    return file;
}

/* ---- becoming a writer ---- */

/* A file of ours, new or as it is; its descriptor in file->fd. 0, or errno. */
static int open_path(case_file *file)
{
    door_fault fault;
    bool made;
    file->fd = door_open_to_add(AT_FDCWD, file->path, 0600, &made, &fault);
    if (file->fd < 0) return fault.error != 0 ? fault.error : EEXIST;
    return made ? sync_folder(file->folder) : 0;
}

/* The lock goes with the descriptor. Where there are no locks, there is one window only. */
static bool is_taken(const case_file *file)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(file->fd, F_SETLK, &whole) != 0 && (errno == EACCES || errno == EAGAIN);
}

static exit_status become(case_file *file, unsigned window)
{
    snprintf(file->writer, sizeof file->writer, window > 1 ? "%s-%u" : "%s", file->base, window);
    free(file->path);
    file->path = format_text("%s/%s.jsonl", file->folder, file->writer);
    int error = open_path(file);
    if (error == 0 && !is_taken(file)) return EXIT_DONE;
    if (error != 0) complain("the case can't be kept in %s: %s", file->folder, strerror(error));
    if (file->fd >= 0) close(file->fd);
    file->fd = -1;
    return error != 0 ? EXIT_CANNOT_CREATE : EXIT_BUSY;
}

static exit_status become_writer(case_file *file)
{
    exit_status status = EXIT_BUSY;
    for (unsigned window = 1; status == EXIT_BUSY && window <= MOST_WINDOWS; window++)
        status = become(file, window);
    if (status == EXIT_BUSY)
        complain("case %s is open in %d windows already. Close one first", file->number, MOST_WINDOWS);
    return status;
}

exit_status case_file_new(const char *root, case_file **out)
{
    case_file *file = begin();
    exit_status status = case_folder_new(root, &file->folder, file->uuid);
    if (status == EXIT_DONE) {
        case_number_of(file->uuid, file->number);
        status = become_writer(file);
    }
    if (status != EXIT_DONE) {
        case_file_close(file);
        file = NULL;
    }
    *out = file;
    return status;
}

exit_status case_file_read(const char *root, const char *named, case_file **out)
{
    case_file *file = begin();
    exit_status status = case_folder_find(root, named, &file->folder, file->uuid);
    if (status == EXIT_DONE) {
        case_number_of(file->uuid, file->number);
        status = case_parts_read(file, true);
    }
    if (status != EXIT_DONE) {
        case_file_close(file);
        file = NULL;
    }
    *out = file;
    return status;
}

exit_status case_file_join(case_file *file)
{
    assert(file->fd < 0);
    exit_status status = become_writer(file);
    return status == EXIT_DONE ? case_parts_read(file, false) : status;
}

exit_status case_file_open(const char *root, const char *named, case_file **out)
{
    exit_status status = case_file_read(root, named, out);
    if (status == EXIT_DONE) status = case_file_join(*out);
    if (status != EXIT_DONE) {
        case_file_close(*out);
        *out = NULL;
    }
    return status;
}

exit_status case_file_again(case_file *file)
{
    return case_parts_read(file, false);
}

/* ---- adding ---- */

/* One write, so that no other line can come in between; what was cut short stays, and the next line
 * begins anew. */
static int write_line(case_file *file, const char *line)
{
    size_t length = strlen(line), written;
    int error = door_write(file->fd, line, length, &written);
    if (error != 0 && written > 0) file->own.torn = true;
    if (error != 0) return error;
    return fdatasync(file->fd) == 0 ? 0 : errno;
}

json_t *case_file_seen(const case_file *file)
{
    json_t *seen = json_object();
    for (size_t i = 0; i < file->count; i++) {
        const case_record *r = &file->records[i];
        if (strcmp(r->writer, file->writer) == 0) continue;
        json_int_t before = json_integer_value(json_object_get(seen, r->writer));
        if ((json_int_t)r->number > before)
            json_object_set_new(seen, r->writer, json_integer((json_int_t)r->number));
    }
    return seen;
}

/* What was written is a record like those that were read. */
static void remember(case_file *file, const char *line)
{
    case_record record;
    bool follows;
    size_t length = strlen(line) - 1;
    const char *why = record_read(line, length, file->uuid, file->own.before, &record, &follows);
    assert(why == NULL && follows);
    (void)why;
    file->records = room_for_one(file->records, file->count, sizeof *file->records);
    file->records[file->count++] = record;
    line_hash(line, length, file->own.before);
    file->own.torn = false;
    file->own.lines++;
    file->lamport = record.lamport;
}

exit_status case_file_add(case_file *file, const char *kind, json_t *data)
{
    assert(file->fd >= 0);
    line_head head = {.uuid = file->uuid,
                      .writer = file->writer,
                      .before = file->own.before,
                      .number = file->own.lines + 1,
                      .lamport = file->lamport < HIGHEST_COUNTER ? file->lamport + 1 : HIGHEST_COUNTER,
                      .seen = case_file_seen(file)};
    char *line = record_line(&head, kind, data);
    if (line == NULL) {
        complain("there is no memory left");
        return EXIT_OUR_BUG;
    }
    char *whole = format_text("%s%s", file->own.torn ? "\n" : "", line);
    int error = write_line(file, whole);
    if (error == 0)
        remember(file, line);
    else
        complain("this could not be kept in %s: %s", file->path, strerror(error));
    free(whole);
    free(line);
    return error == 0 ? EXIT_DONE : EXIT_IO;
}
