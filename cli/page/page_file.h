/* The page for a phone as one file: what a browser reads, the engine, the book, its pictures and
 * the site. */
#ifndef TT_CLI_PAGE_FILE_H
#define TT_CLI_PAGE_FILE_H

#include <stdio.h>

#include "base/arena.h"
#include "books/read_book.h"
#include "host/exits.h"

typedef struct page_contents {
    const opened_book *book;
    const sources *files;        /* of the book, as they were read */
    const char *site_path;       /* absolute; null: practice on the book's example */
    const char *language;        /* null: the browser's, if there are texts in it */
    const char *module, *unpack; /* paths of the two modules */
} page_contents;
/* Says what went wrong: above all that the modules are not there, and how they come. */
exit_status page_file_write(FILE *out, arena *keep, const page_contents *what);

#endif
