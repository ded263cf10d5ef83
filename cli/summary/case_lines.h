/* The lines of one writer's file, read one at a time: a line of any length takes no more memory
 * than the longest that is a record. */
#ifndef TT_CLI_CASE_LINES_H
#define TT_CLI_CASE_LINES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/types.h>

typedef struct case_line {
    const char *bytes; /* without its newline; of a line that is too long only the beginning */
    size_t length;
    uint64_t place; /* from 1 */
    bool whole;     /* it ends with a newline */
    off_t end;      /* in the file */
} case_line;
/* False: read no further. */
typedef bool take_case_line(void *context, const case_line *line);

/* From a place in the file to its end. 0, or errno. */
int case_lines_read(int fd, off_t from, take_case_line *take, void *context);

#endif
