/* Lines that a person types, or that come from a pipe. From the first that is awaited on, SIGINT,
 * SIGTERM and SIGHUP are noted and end the waiting: so none of them can fall between an answer and
 * its record. */
#ifndef TT_CLI_LINE_INPUT_H
#define TT_CLI_LINE_INPUT_H

#include <stdbool.h>
#include <stddef.h>

enum { LINE_INPUT_ROOM = 4096 };

typedef struct line_input {
    int fd;
    bool terminal, ended;
    bool cut; /* the last line was longer than the room: the next one is its rest */
    size_t from, to;
    char bytes[LINE_INPUT_ROOM];
} line_input;

typedef enum line_got { GOT_LINE, GOT_END, GOT_SIGNAL, GOT_FAILURE } line_got;

void line_input_begin(line_input *input, int fd);
/* Before a question is shown, call signals_note: a signal that comes after it must not be lost.
 * The line without its newline and cleaned, freed by the caller. A line longer than the room is
 * cut. */
line_got line_input_next(line_input *input, char **line);

#endif
