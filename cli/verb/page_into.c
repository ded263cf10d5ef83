/* Where a page goes. */
#include "verb/page_into.h"

#include <stdlib.h>
#include <string.h>

#include "host/into.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "paper/paper.h"

static bool is_page(const char *bytes, size_t length)
{
    char *text = format_text("%.*s", (int)length, bytes);
    const bool is = strstr(text, HTML_MARK) != NULL;
    free(text);
    return is;
}

exit_status page_put_at(const char *path, bool overwrite, page_writer *write, const void *context)
{
    memory_stream page;
    memory_stream_begin(&page);
    exit_status status = write(page.stream, context);
    memory_stream_close(&page);
    if (status == EXIT_DONE) status = put_into(path, page.bytes, page.length, is_page, overwrite);
    memory_stream_free(&page);
    return status;
}

exit_status page_put(const command_line *line, page_writer *write, const void *context)
{
    const char *into = line->values[OPTION_INTO];
    const bool overwrite = is_given(line, OPTION_OVERWRITE);
    if (overwrite && into == NULL) {
        complain("--overwrite says what may be written over by --into: add --into FILE");
        return EXIT_USAGE;
    }
    return into == NULL || strcmp(into, "-") == 0 ? write(stdout, context)
                                                  : page_put_at(into, overwrite, write, context);
}
