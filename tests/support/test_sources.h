/* Sources for tests: from literals, and from the files of the repository. */
#ifndef TT_SUPPORT_TEST_SOURCES_H
#define TT_SUPPORT_TEST_SOURCES_H

#include "base/arena.h"
#include "base/source.h"
#include "base/str.h"

/* One file. */
sources source_from_text(arena *keep, const char *name, str bytes);

/* Name and text in turn, then a null; sorted by name. */
sources sources_from_texts(arena *keep, const char *name, const char *text, ...);

/* A file's bytes; the test fails if there is no such file. */
str file_bytes(arena *keep, const char *path);

/* Names of the files in a folder that end so, sorted, without the folder. */
typedef struct file_names {
    const str *items;
    size_t count;
} file_names;
file_names files_ending(arena *keep, const char *folder, const char *ending);

/* An arena that stops the test if memory ends. */
arena *test_arena(void);

#endif
