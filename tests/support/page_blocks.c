/* Pages of docs/, as tests read them. */
#include "page_blocks.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "testing.h"

enum { TEXT_ROOM = 1 << 20 };

char *page_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) fail_msg("%s can't be read", path);
    char *text = calloc(1, TEXT_ROOM);
    assert_non_null(text);
    text[fread(text, 1, TEXT_ROOM - 1, file)] = 0;
    fclose(file);
    return text;
}

void write_page_text(const char *path, const char *text, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) fail_msg("%s can't be written", path);
    assert_int_equal(fwrite(text, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

int shell_status(const char *format, ...)
{
    char command[4096];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(command, sizeof command, format, arguments);
    va_end(arguments);
    assert_in_range(length, 1, sizeof command - 1);
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

void each_block_of(const char *page, const char *text, on_block *visit, void *context)
{
    for (const char *at = text; (at = strstr(at, "\n```")) != NULL;) {
        block b = {.page = page};
        at += 4;
        size_t line = strcspn(at, "\n");
        assert_in_range(line, 0, sizeof b.heading - 1);
        memcpy(b.heading, at, line);
        b.text = at + line + 1;
        const char *end = strstr(at + line, "\n```");
        if (end == NULL) fail_msg("%s: a block is not closed", page);
        b.length = end >= b.text ? (size_t)(end + 1 - b.text) : 0;
        visit(&b, context);
        at = end + 4;
    }
}

/* Runs of white space become one space; "…" and "..." on a line of their own become a mark. */
static char *flattened(const char *text, size_t length)
{
    char *out = calloc(1, length + 2), *end = out;
    assert_non_null(out);
    for (size_t i = 0; i < length; i++) {
        bool dots = (i == 0 || text[i - 1] == '\n') && length - i >= 4 &&
                    strncmp(text + i, "...\n", 4) == 0;
        if (dots) {
            while (end > out && end[-1] == ' ') end--;
            *end++ = '\001';
            i += 3;
        } else if (text[i] != ' ' && text[i] != '\n') {
            *end++ = text[i];
        } else if (end > out && end[-1] != ' ' && end[-1] != '\001') {
            *end++ = ' ';
        }
    }
    while (end > out && end[-1] == ' ') end--;
    *end = 0;
    return out;
}

void assert_block_shown(const block *b, const char *expected, size_t length)
{
    char *got = page_text("shown"), *flat = flattened(got, strlen(got)),
         *wanted = flattened(expected, length);
    const char *from = flat;
    for (char *piece = wanted; piece != NULL;) {
        char *mark = strchr(piece, '\001');
        if (mark != NULL) *mark = 0;
        const char *found = strstr(from, piece);
        if (found == NULL)
            fail_msg("%s shows\n%s\nwhich is not (or not here) in\n%s", b->page, piece, got);
        from = found + strlen(piece);
        piece = mark != NULL ? mark + 1 : NULL;
    }
    free(wanted);
    free(flat);
    free(got);
}
