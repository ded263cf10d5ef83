/* Waiting for lines, and cutting them out of what was read. */
#include "host/line_input.h"

#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "host/descriptor_set.h"
#include "host/plain_text.h"
#include "host/signals.h"

void line_input_begin(line_input *input, int fd)
{
    assert(fd >= 0);
    *input = (line_input){.fd = fd, .terminal = isatty(fd) == 1};
    signals_note();
}

/* -1: none that can be waited for. */
static int other_descriptor(const line_input *input)
{
    const int other = input->news != NULL ? input->news->descriptor(input->news->context) : -1;
    return can_wait_for(other) ? other : -1;
}

/* GOT_LINE: there is something to read; GOT_NO_LINES: look again. */
static line_got await_once(const line_input *input, const sigset_t *outside)
{
    fd_set readable;
    const int other = other_descriptor(input);
    FD_ZERO(&readable);
    set_add(&readable, input->fd);
    if (other >= 0) set_add(&readable, other);
    const int ready =
        pselect((other > input->fd ? other : input->fd) + 1, &readable, NULL, NULL, NULL, outside);
    if (ready < 0) return errno == EINTR ? GOT_NO_LINES : GOT_FAILURE;
    if (set_has(&readable, input->fd)) return GOT_LINE;
    return input->news->came(input->news->context) ? GOT_NEWS : GOT_NO_LINES;
}

/* A signal that comes between looking and waiting is let through only while waiting, so none is
 * missed. */
static line_got await(const line_input *input)
{
    sigset_t outside;
    signals_hold(&outside);
    line_got got = GOT_NO_LINES;
    while (got == GOT_NO_LINES && signals_noted() == 0) got = await_once(input, &outside);
    int error = errno;
    signals_let_go(&outside);
    errno = error;
    return signals_noted() != 0 ? GOT_SIGNAL : got;
}

/* More bytes behind those that are there; GOT_END when there are no more. */
static line_got read_more(line_input *input)
{
    if (input->ended) return GOT_END;
    line_got ready = await(input);
    if (ready != GOT_LINE) return ready;
    memmove(input->bytes, input->bytes + input->from, input->to - input->from);
    input->to -= input->from;
    input->from = 0;
    ssize_t got = read(input->fd, input->bytes + input->to, sizeof input->bytes - input->to);
    if (got < 0) return errno == EINTR ? GOT_LINE : errno == EIO ? GOT_END : GOT_FAILURE;
    input->to += (size_t)got;
    input->ended = got == 0;
    return GOT_LINE;
}

static char *take_line(line_input *input, size_t length)
{
    char raw[LINE_INPUT_ROOM + 1];
    size_t kept = 0;
    assert(length <= LINE_INPUT_ROOM);
    for (size_t i = 0; i < length; i++)
        if (input->bytes[input->from + i] != 0) raw[kept++] = input->bytes[input->from + i];
    raw[kept] = 0;
    input->from += length;
    char *clean = clean_text(raw), *line = trim_text(clean);
    free(clean);
    return line;
}

line_got line_input_next(line_input *input, char **line)
{
    *line = NULL;
    input->cut = false;
    for (;;) {
        size_t waiting = input->to - input->from;
        const char *start = input->bytes + input->from, *end = memchr(start, '\n', waiting);
        if (end != NULL) {
            *line = take_line(input, (size_t)(end - start));
            input->from++;
            input->unbroken = 0;
            return GOT_LINE;
        }
        if (waiting == sizeof input->bytes || (input->ended && waiting > 0)) {
            input->cut = waiting == sizeof input->bytes;
            input->unbroken += waiting;
            if (input->unbroken > LINE_INPUT_LONGEST) return GOT_NO_LINES;
            *line = take_line(input, waiting);
            return GOT_LINE;
        }
        line_got more = read_more(input);
        if (more != GOT_LINE) return more;
    }
}
