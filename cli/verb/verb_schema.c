/* schema: a book's own schema, for an editor's language server. */
#include <stdio.h>

#include "books/read_book.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

static exit_status print_schema(const command_line *line, const sources *files)
{
    tt_schema *s = NULL;
    tt_report *report = NULL;
    exit_status status = EXIT_DONE;
    tt_status made = tt_schema_new(files->items, files->count, &s, &report);
    if (made == TT_NO_MEMORY) memory_ended();
    if (made == TT_FAULTY) {
        show_report(stderr, report);
        complain("%s can't be used before this is mended", line->words[1]);
        status = EXIT_BAD_DATA;
    } else {
        size_t length;
        const char *text = tt_schema_text(s, &length);
        fwrite(text, 1, length, stdout);
    }
    tt_report_free(report);
    tt_schema_free(s);
    return status;
}

exit_status verb_schema(const command_line *line)
{
    sources files = {.count = 0};
    exit_status status = sources_read(line->words[1], &files);
    if (status == EXIT_DONE) status = print_schema(line, &files);
    sources_free(&files);
    return status;
}
