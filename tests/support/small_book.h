/* A book from one text, for tests that need a whole one. */
#ifndef TT_SUPPORT_SMALL_BOOK_H
#define TT_SUPPORT_SMALL_BOOK_H

#include "telltale.h"

/* The test fails, and shows the report, if it does not load. Freed by tt_book_free. */
tt_book *small_book(const char *yaml);

#endif
