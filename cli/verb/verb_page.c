/* page: a book as one file for a browser, which leads the conversation without a network. */
#include <stdlib.h>
#include <string.h>

#include "cases/begin_case.h"
#include "host/files.h"
#include "host/installed.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "page/page_file.h"
#include "verb/page_into.h"
#include "verb/verbs.h"

static exit_status write_page(FILE *out, const void *context)
{
    arena *keep = host_arena();
    const exit_status status = page_file_write(out, keep, context);
    arena_free(keep);
    return status;
}

/* As it is built it is not where it is installed. */
static char *engine_folder(void)
{
    const char *given = getenv("TELLTALE_PAGE_DIR");
    return given != NULL && *given != 0 ? copy_text(given) : installed_folder(TELLTALE_PAGE_DIR);
}

exit_status verb_page(const command_line *line)
{
    opened_book book = {.book = NULL};
    sources files = {.items = NULL};
    const char *site = line->values[OPTION_SITE], *language = line->values[OPTION_LANGUAGE];
    exit_status status = language_typed(language);
    if (status == EXIT_DONE) status = book_open_at(line->words[1], site, &book);
    if (status == EXIT_DONE) status = sources_read(line->words[1], &files);
    char *engine = engine_folder();
    char *module = format_text("%s/telltale.wasm", engine),
         *unpack = format_text("%s/unpack.wasm", engine);
    char *path = status == EXIT_DONE && site != NULL ? real_path(site) : NULL;
    const page_contents what = {.book = &book,
                                .files = &files,
                                .site_path = path,
                                .language = language,
                                .module = module,
                                .unpack = unpack};
    if (status == EXIT_DONE) status = page_put(line, write_page, &what);
    free(path);
    free(unpack);
    free(module);
    free(engine);
    sources_free(&files);
    book_close(&book);
    return status;
}
