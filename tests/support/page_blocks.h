/* Fenced blocks of a page of docs/, and whether what a program showed is what one of them says. */
#ifndef TT_SUPPORT_PAGE_BLOCKS_H
#define TT_SUPPORT_PAGE_BLOCKS_H

#include <stddef.h>

/* A whole file, freed by the caller; at most 1 MiB. */
char *page_text(const char *path);
void write_page_text(const char *path, const char *text, size_t length);
/* The exit status of a command for the shell; -1: a signal ended it. */
int shell_status(const char *format, ...) __attribute__((format(printf, 1, 2)));

typedef struct block {
    const char *page;
    char heading[256]; /* what stands behind the three backticks */
    const char *text;
    size_t length;
} block;
typedef void on_block(const block *b, void *context);
void each_block_of(const char *page, const char *text, on_block *visit, void *context);

/* The file `shown` holds what is expected of a block of the page, in its order. A line of dots
 * leaves something out; how lines are broken does not count. */
void assert_block_shown(const block *b, const char *expected, size_t length);

#endif
