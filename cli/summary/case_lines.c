#include "summary/case_lines.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "host/plain_text.h"
#include "summary/record_line.h"

enum { ROOM_AT_FIRST = 16384 };

typedef struct reading {
    char *kept; /* of the line that is being read: at most LONGEST_LINE + 1 bytes, so that it is
                   seen to be too long */
    size_t length, room;
    uint64_t place;
    off_t end;
} reading;

static void keep(reading *r, const char *bytes, size_t count)
{
    size_t left = (size_t)LONGEST_LINE + 1 - r->length;
    r->end += (off_t)count;
    if (count > left) count = left;
    while (r->length + count > r->room) r->kept = more_memory(r->kept, r->room *= 2);
    memcpy(r->kept + r->length, bytes, count);
    r->length += count;
}

static bool end_line(reading *r, bool whole, take_case_line *take, void *context)
{
    r->end += whole;
    case_line line = {r->kept, r->length, ++r->place, whole, r->end};
    r->length = 0;
    return take(context, &line);
}

static bool take_bytes(reading *r, const char *bytes, size_t count, take_case_line *take,
                       void *context)
{
    bool more = true;
    while (more && count > 0) {
        const char *newline = memchr(bytes, '\n', count);
        size_t part = newline != NULL ? (size_t)(newline - bytes) : count;
        keep(r, bytes, part);
        if (newline != NULL) more = end_line(r, true, take, context);
        part += newline != NULL;
        bytes += part;
        count -= part;
    }
    return more;
}

int case_lines_read(int fd, off_t from, take_case_line *take, void *context)
{
    if (lseek(fd, from, SEEK_SET) < 0) return errno;
    char buffer[ROOM_AT_FIRST];
    reading r = {.kept = take_memory(ROOM_AT_FIRST), .room = ROOM_AT_FIRST, .end = from};
    bool more = true;
    ssize_t got = 1;
    while (more && got != 0) {
        got = read(fd, buffer, sizeof buffer);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) break;
        more = take_bytes(&r, buffer, (size_t)got, take, context);
    }
    int error = got < 0 ? errno : 0;
    if (error == 0 && more && r.length > 0) end_line(&r, false, take, context);
    free(r.kept);
    return error;
}
