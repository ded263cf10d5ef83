/* Where a page goes. */
#include "verb/page_into.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "host/files.h"
#include "host/into.h"
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
    char *text = NULL;
    size_t length = 0;
    FILE *buffer = open_memstream(&text, &length);
    if (buffer == NULL) return say_file_failure(path, errno);
    exit_status status = write(buffer, context);
    if (fclose(buffer) != 0 && status == EXIT_DONE) status = say_file_failure(path, errno);
    if (status == EXIT_DONE) status = put_into(path, text, length, is_page, overwrite);
    free(text);
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
