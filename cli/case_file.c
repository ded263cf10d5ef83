#include "case_file.h"

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "case_folder.h"
#include "case_record.h"
#include "files.h"
#include "plain_text.h"
#include "screen.h"

enum { LARGEST_CASE = 64 << 20 };

struct case_file {
    char *folder, *path;
    char uuid[CASE_UUID_SIZE], number[CASE_NUMBER_SIZE], writer[WRITER_SIZE];
    int fd;
    char before[LINE_HASH_SIZE]; /* hash of our last line, or "" */
    bool torn;                   /* our last line lacks its newline */
    uint64_t lines, lamport;
    case_record *records;
    size_t count;
};

const char *case_file_number(const case_file *file)
{
    return file->number;
}

const char *case_file_folder(const case_file *file)
{
    return file->folder;
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

void case_file_close(case_file *file)
{
    if (file == NULL) return;
    if (file->fd >= 0) close(file->fd);
    for (size_t i = 0; i < file->count; i++) json_decref(file->records[i].whole);
    free(file->records);
    free(file->path);
    free(file->folder);
    free(file);
}

static case_file *begin(void)
{
    case_file *file = take_memory(sizeof *file);
    file->fd = -1;
    writer_of_this_machine(file->writer);
    return file;
}

static void settle_names(case_file *file)
{
    case_number_of(file->uuid, file->number);
    file->path = format_text("%s/%s.jsonl", file->folder, file->writer);
}

/* One open at a time as one writer: the lock goes with the descriptor. */
static exit_status lock(const case_file *file)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    if (fcntl(file->fd, F_SETLK, &whole) == 0 || (errno != EACCES && errno != EAGAIN))
        return EXIT_DONE;
    complain("case %s is open in another window. Close it there first", file->number);
    return EXIT_BUSY;
}

/* Our own file, new or as it is. */
static exit_status open_own(case_file *file)
{
    int how = O_RDWR | O_APPEND | O_NOFOLLOW | O_CLOEXEC;
    file->fd = open(file->path, how | O_CREAT | O_EXCL, 0600);
    bool fresh = file->fd >= 0;
    if (!fresh && errno == EEXIST) file->fd = open(file->path, how);
    int error = file->fd < 0 ? errno : fresh ? sync_folder(file->folder) : 0;
    if (error == 0) return lock(file);
    complain("the case can't be kept in %s: %s", file->folder, strerror(error));
    return EXIT_CANNOT_CREATE;
}

static void read_line(case_file *file, const char *path, const char *line, size_t length,
                      uint64_t place, const char *before)
{
    case_record record;
    bool follows;
    const char *why = record_read(line, length, file->uuid, before, &record, &follows);
    if (why != NULL) {
        complain("%s, line %llu is left out: %s", path, (unsigned long long)place, why);
        return;
    }
    if (!follows)
        complain("%s, line %llu does not follow from the one before", path,
                 (unsigned long long)place);
    if (record.lamport > file->lamport) file->lamport = record.lamport;
    file->records = room_for_one(file->records, file->count, sizeof *file->records);
    file->records[file->count++] = record;
}

static void read_lines(case_file *file, const char *path, const char *bytes, size_t size, bool own)
{
    char before[LINE_HASH_SIZE] = "";
    uint64_t lines = 0;
    for (size_t from = 0; from < size;) {
        const char *end = memchr(bytes + from, '\n', size - from);
        size_t length = end != NULL ? (size_t)(end - bytes) - from : size - from;
        read_line(file, path, bytes + from, length, ++lines, before);
        line_hash(bytes + from, length, before);
        from += length + 1;
    }
    if (!own) return;
    memcpy(file->before, before, sizeof before);
    file->lines = lines;
    file->torn = size > 0 && bytes[size - 1] != '\n';
}

static exit_status read_writer(case_file *file, int fd, const char *path, bool own)
{
    char *bytes = NULL;
    ssize_t size = read_descriptor(fd, LARGEST_CASE, &bytes);
    if (size < 0) return say_file_failure(path, errno);
    read_lines(file, path, bytes, (size_t)size, own);
    free(bytes);
    return EXIT_DONE;
}

/* Of another writer; of any, if our own is not open. */
static bool is_writers_file(const case_file *file, const char *name)
{
    const char *end = strrchr(name, '.');
    if (name[0] == '.' || end == NULL || strcmp(end, ".jsonl") != 0) return false;
    size_t length = (size_t)(end - name);
    if (file->fd < 0) return true;
    return strlen(file->writer) != length || strncmp(name, file->writer, length) != 0;
}

static exit_status read_others(case_file *file)
{
    DIR *folder = opendir(file->folder);
    if (folder == NULL) return say_file_failure(file->folder, errno);
    exit_status status = EXIT_DONE;
    for (struct dirent *entry; status == EXIT_DONE && (entry = readdir(folder)) != NULL;) {
        if (!is_writers_file(file, entry->d_name)) continue;
        char *path = format_text("%s/%s", file->folder, entry->d_name);
        int fd = open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
        status = fd >= 0 ? read_writer(file, fd, path, false) : say_file_failure(path, errno);
        if (fd >= 0) close(fd);
        free(path);
    }
    closedir(folder);
    return status;
}

static int in_order(const void *a, const void *b)
{
    const case_record *x = a, *y = b;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    int order = strcmp(x->writer, y->writer);
    if (order != 0) return order;
    return x->number < y->number ? -1 : x->number > y->number;
}

exit_status case_file_new(const char *root, case_file **out)
{
    case_file *file = begin();
    exit_status status = case_folder_new(root, &file->folder, file->uuid);
    if (status == EXIT_DONE) {
        settle_names(file);
        status = open_own(file);
    }
    if (status != EXIT_DONE) {
        case_file_close(file);
        file = NULL;
    }
    *out = file;
    return status;
}

/* `own`: our file is opened too, to be added to. */
static exit_status open_case(const char *root, const char *named, bool own, case_file **out)
{
    case_file *file = begin();
    exit_status status = case_folder_find(root, named, &file->folder, file->uuid);
    if (status == EXIT_DONE) {
        settle_names(file);
        if (own) status = open_own(file);
    }
    if (status == EXIT_DONE && own) status = read_writer(file, file->fd, file->path, true);
    if (status == EXIT_DONE) status = read_others(file);
    if (status != EXIT_DONE) {
        case_file_close(file);
        file = NULL;
    } else if (file->count > 0) {
        qsort(file->records, file->count, sizeof *file->records, in_order);
    }
    *out = file;
    return status;
}

exit_status case_file_open(const char *root, const char *named, case_file **out)
{
    return open_case(root, named, true, out);
}

exit_status case_file_read(const char *root, const char *named, case_file **out)
{
    return open_case(root, named, false, out);
}

/* One write, so that no other line can come in between; what was cut short stays, and the next line
 * begins anew. */
static int write_line(case_file *file, const char *line)
{
    size_t length = strlen(line);
    ssize_t written;
    do written = write(file->fd, line, length);
    while (written < 0 && errno == EINTR);
    if (written < 0) return errno;
    if ((size_t)written < length) {
        file->torn = true;
        return ENOSPC;
    }
    return fdatasync(file->fd) == 0 ? 0 : errno;
}

exit_status case_file_add(case_file *file, const char *kind, json_t *data)
{
    assert(file->fd >= 0);
    line_head head = {.uuid = file->uuid,
                      .writer = file->writer,
                      .before = file->before,
                      .number = file->lines + 1,
                      .lamport = file->lamport + 1};
    char *line = record_line(&head, kind, data);
    if (line == NULL) {
        complain("there is no memory left");
        return EXIT_OUR_BUG;
    }
    char *whole = format_text("%s%s", file->torn ? "\n" : "", line);
    int error = write_line(file, whole);
    if (error == 0) {
        line_hash(line, strlen(line) - 1, file->before);
        file->torn = false;
        file->lines++;
        file->lamport++;
    } else {
        complain("this could not be kept in %s: %s", file->path, strerror(error));
    }
    free(whole);
    free(line);
    return error == 0 ? EXIT_DONE : EXIT_IO;
}
