/* The books that come with the program: every folder in rules/. */
#ifndef TT_SUPPORT_SHIPPED_BOOKS_H
#define TT_SUPPORT_SHIPPED_BOOKS_H

#include "base/arena.h"
#include "base/source.h"
#include "telltale.h"

enum { SHIPPED_MOST = 16 };

typedef struct shipped_book {
    const char *folder; /* "foam-line" */
    sources files;      /* its *.yaml, in subfolders too */
} shipped_book;

/* The files of the book in this folder, in subfolders too. */
sources files_of_book(arena *keep, const char *path);

/* All of them, in `keep`; at least one, or the test fails. */
uint32_t shipped_books(arena *keep, shipped_book *out);

/* The one in this folder of rules/; the test fails if there is none. */
shipped_book shipped_named(arena *keep, const char *folder);

/* For its own example site, if it has one; the test fails if it does not load. */
tt_book *shipped_load(arena *scratch, const shipped_book *shipped);

#endif
