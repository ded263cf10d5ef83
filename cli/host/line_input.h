/* Lines that a person types, or that come from a pipe. From line_input_begin on the first SIGINT,
 * SIGTERM or SIGHUP is noted and ends the waiting: so none can fall between a prompt and its
 * answer, or an answer and its record. */
#ifndef TT_CLI_LINE_INPUT_H
#define TT_CLI_LINE_INPUT_H

#include <stdbool.h>
#include <stddef.h>

enum { LINE_INPUT_ROOM = 4096, LINE_INPUT_LONGEST = 1 << 20 };

/* What else may come while a line is awaited. */
typedef struct line_news {
    int (*descriptor)(void *context); /* readable when there may be news; -1: nothing to wait for */
    bool (*came)(void *context);
    void *context;
} line_news;

typedef struct line_input {
    const line_news *news; /* or null */
    int fd;
    bool terminal, ended;
    bool cut; /* the last line was longer than the room: the next one is its rest */
    size_t from, to;
    size_t unbroken; /* bytes that came since the last line's end */
    char bytes[LINE_INPUT_ROOM];
} line_input;

typedef enum line_got {
    GOT_LINE,
    GOT_END,
    GOT_SIGNAL,
    GOT_NEWS, /* and no line yet */
    GOT_FAILURE,
    GOT_NO_LINES, /* so many bytes came without a line's end that none is waited for */
} line_got;

void line_input_begin(line_input *input, int fd);
/* The line without its newline and cleaned, freed by the caller. A line longer than the room is
 * cut. */
line_got line_input_next(line_input *input, char **line);

#endif
