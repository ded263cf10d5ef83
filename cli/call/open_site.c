/* The book opened for a site: the one named, the one kept, the example, or none. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/grow.h"
#include "books/book_cache.h"
#include "books/site_file.h"
#include "call/choose_site.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

static const tt_source no_site = {.name = "", .bytes = NULL};

static exit_status open_at(conversation *c, const char *book, const tt_source *site)
{
    opened_book opened;
    const exit_status status = c->books != NULL ? book_cache_open(c->books, book, site, &opened)
                                                : book_open(book, site, &opened);
    if (status != EXIT_DONE) return status;
    GROW(c->keep, c->before, c->before_count, c->before_room);
    c->before[c->before_count++] = c->book;
    c->book = opened;
    return EXIT_DONE;
}

static exit_status open_file(conversation *c, const char *book, const char *path)
{
    tt_source file;
    exit_status status = source_read_file(path, &file);
    if (status != EXIT_DONE) return status;
    status = open_at(c, book, &file);
    source_free(&file);
    char *absolute = status == EXIT_DONE ? real_path(path) : NULL;
    c->site_path = absolute != NULL ? arena_copy(c->keep, absolute) : NULL;
    free(absolute);
    return status;
}

exit_status open_with_site_text(conversation *c, const char *text)
{
    const char *book = arena_copy(c->keep, c->book.folder);
    return open_at(c, book,
                   &(tt_source){.name = "what you said", .bytes = text, .length = strlen(text)});
}

/* With nothing that says what there is: asked later, if these rules need to know and somebody can
 * be asked. */
static exit_status open_without(conversation *c, const char *book)
{
    const exit_status status = open_at(c, book, &no_site);
    if (status == EXIT_DONE)
        c->asks_site = tt_kind_count(c->book.book) > 0 && !is_given(c->line, OPTION_NO_INPUT);
    return status;
}

static bool is_missing(const char *path)
{
    return access(path, F_OK) != 0 && errno == ENOENT;
}

/* One that is not there yet is written with what is said, where these rules ask for equipment. */
static exit_status open_given(conversation *c, const char *book, const char *path)
{
    if (!is_missing(path) || is_given(c->line, OPTION_NO_INPUT)) return open_file(c, book, path);
    const exit_status status = open_without(c, book);
    return status == EXIT_DONE && !c->asks_site ? say_file_failure(path, ENOENT) : status;
}

static const char *kept_site(conversation *c, const char *book)
{
    char *folder = book_folder(book), *path = folder != NULL ? site_file_usual(folder) : NULL;
    const char *found = path != NULL && access(path, R_OK) == 0 ? arena_copy(c->keep, path) : NULL;
    free(path);
    free(folder);
    return found;
}

exit_status open_for_site(conversation *c, const char *book)
{
    const char *given = c->line->values[OPTION_SITE], *kept = kept_site(c, book);
    if (c->practice) return open_at(c, book, NULL);
    if (given != NULL) return open_given(c, book, given);
    return kept != NULL ? open_file(c, book, kept) : open_without(c, book);
}

static exit_status open_as_kept(conversation *c, const char *book, const tt_value *site)
{
    const char *text = value_text(site, "text");
    if (text != NULL)
        return open_at(c, book,
                       &(tt_source){.name = "the site kept in the case",
                                    .bytes = text,
                                    .length = strlen(text)});
    complain("the case does not hold its site any more: add --site FILE");
    return EXIT_BAD_DATA;
}

exit_status open_for_site_again(conversation *c, const char *book, const tt_value *site)
{
    const char *given = c->line->values[OPTION_SITE], *path = value_text(site, "path");
    if (c->practice) return open_at(c, book, NULL);
    if (given != NULL && !c->at_desk) return open_file(c, book, given);
    if (site == NULL) return open_without(c, book);
    if (path != NULL && access(path, F_OK) == 0) return open_file(c, book, path);
    if (path != NULL) complain("%s", FILL(c->keep, c->tongue, HOST_SITE_GONE, path));
    return open_as_kept(c, book, site);
}
