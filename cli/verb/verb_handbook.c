/* handbook: a whole book on one page, to be printed. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "cases/begin_case.h"
#include "host/files.h"
#include "host/into.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "paper/handbook.h"
#include "verb/page_into.h"
#include "verb/verbs.h"

typedef struct wanted {
    const opened_book *book;
    const char *language;
} wanted;

static exit_status write_handbook(FILE *out, const void *context)
{
    const wanted *w = context;
    arena *keep = host_arena();
    const exit_status status = handbook_on_paper(out, &paper_of_html, keep, w->book, w->language);
    arena_free(keep);
    return status;
}

exit_status verb_handbook(const command_line *line)
{
    opened_book book;
    const char *language = line->values[OPTION_LANGUAGE];
    exit_status status = language_typed(language);
    if (status == EXIT_DONE)
        status = book_open_at(line->words[1], line->values[OPTION_SITE], &book);
    if (status != EXIT_DONE) return status;
    const wanted w = {&book, language};
    status = page_put(line, write_handbook, &w);
    book_close(&book);
    return status;
}
