/* A book where there is none: the small one that teaches, which the program carries with it. */
#ifndef TT_CLI_NEW_BOOK_H
#define TT_CLI_NEW_BOOK_H

#include <stddef.h>

#include "host/exits.h"

/* Made from cli/sample, by name. */
typedef struct sample_file {
    const char *name, *bytes;
    size_t length;
} sample_file;
extern const sample_file sample_files[];
extern const unsigned sample_file_count;

/* Writes all of them, or none and says why: a folder that has something in it stays as it is. */
exit_status new_book_write(const char *folder);

#endif
