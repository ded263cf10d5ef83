/* Books that are opened once, however many calls are about them: they never change, so all can lean
 * on one. */
#ifndef TT_CLI_BOOK_CACHE_H
#define TT_CLI_BOOK_CACHE_H

#include "books/read_book.h"

typedef struct book_cache book_cache;
book_cache *book_cache_new(void);
/* After all that were handed out are closed. */
void book_cache_free(book_cache *c);
/* As book_open; its files are read when it is opened first, and not again. */
exit_status book_cache_open(book_cache *c, const char *folder, const tt_source *site,
                            opened_book *out);

#endif
