/* From a folder to a book. Reads the .yaml and .yml files of the folder and its subfolders, the
 * .svg files of its pictures and nothing outside: symbolic links are reported and not followed,
 * whatever is no regular file is left alone. */
#ifndef TT_CLI_READ_BOOK_H
#define TT_CLI_READ_BOOK_H

#include <stdbool.h>
#include <stdio.h>

#include "host/exits.h"
#include "telltale.h"

/* A digest in hexadecimal, and the NUL. */
enum { REVISION_SIZE = 65 };

typedef struct sources {
    tt_source *items; /* by name */
    size_t count;
    size_t bytes;
} sources;

bool is_rule_file(const char *name); /* by how it ends */
bool is_book_file(const char *name); /* a rule file or a picture */
/* A folder as it stands. A name that is no folder, and no path, is looked up among the books
 * that came with the program. Says on standard error what went wrong. */
exit_status sources_read(const char *folder, sources *out);
void sources_free(sources *s);

/* A file, or standard input for "-". Of at most 1 MiB. */
exit_status source_read_file(const char *path, tt_source *out);
/* The same of at most 64 MiB: a table of a large book. */
exit_status source_read_large(const char *path, tt_source *out);
void source_free(tt_source *source);

/* As people read it, ending with a newline; nothing if nothing was wrong. */
void show_report(FILE *out, const tt_report *report);

typedef struct opened_book {
    tt_book *book;
    char *folder;                 /* absolute */
    char revision[REVISION_SIZE]; /* SHA-256 over name, NUL, length as 8 bytes (big end first) and
                                     bytes of each source */
    char *site_text;              /* of the site given beside the book; null: none was */
    char site_revision[REVISION_SIZE]; /* SHA-256 of site_text; "" without one */
    bool is_lent;                      /* the book is somebody else's to free */
} opened_book;

/* A book to be used, for a site of its own (or null: the one within the book, if there is
 * one; without bytes: none, whatever the book says). Faults go to standard error: EXIT_BAD_DATA. */
exit_status book_open(const char *folder, const tt_source *site, opened_book *out);
/* The same with the site in a file; null: none. */
exit_status book_open_at(const char *folder, const char *site, opened_book *out);
/* Whether the book can be used for a site with this text; says nothing of its faults. */
bool book_fits(const char *folder, const char *site_text);
/* Its title, cleaned, freed by the caller; null if it can't be used, of which nothing is said. */
char *book_title(const char *folder);
/* What its site's file says from now on. */
void note_site(opened_book *book, const char *text);
void book_close(opened_book *book);
/* Where a book named so would be: absolute, freed by the caller, or null if nothing is there.
 */
char *book_folder(const char *named);

#endif
