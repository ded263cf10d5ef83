/* A book that stays the same for all inputs of a target: read and loaded once. */
#ifndef TT_SUPPORT_FUZZ_BOOKS_H
#define TT_SUPPORT_FUZZ_BOOKS_H

#include "telltale.h"

typedef struct fuzz_book {
    const tt_source *files; /* its *.yaml */
    size_t count;
    const tt_book *book;
} fuzz_book;

/* `folder` from the top of the checkout. The program ends if it does not load. */
const fuzz_book *fuzz_book_once(const char *folder);

#endif
