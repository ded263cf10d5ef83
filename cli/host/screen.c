#include "host/screen.h"

#include <assert.h>
#include <limits.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "host/plain_text.h"

enum { NARROWEST = 20, WIDEST = 88, USUAL_WIDTH = 80, LOWEST = 12, USUAL_HEIGHT = 24 };

static unsigned from_to(long number, unsigned least, unsigned most)
{
    if (number < (long)least) return least;
    return number > (long)most ? most : (unsigned)number;
}

/* A size that the person has set; 0: none. */
static long wanted_size(const char *name)
{
    const char *wanted = getenv(name);
    if (wanted == NULL || *wanted == 0) return 0;
    char *end;
    long size = strtol(wanted, &end, 10);
    return *end == 0 && size > 0 ? size : 0;
}

static unsigned terminal_width(int fd)
{
    struct winsize size;
    const long wanted = wanted_size("COLUMNS");
    if (wanted > 0) return from_to(wanted, NARROWEST, WIDEST);
    if (ioctl(fd, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        return from_to(size.ws_col, NARROWEST, WIDEST);
    return USUAL_WIDTH;
}

static unsigned terminal_height(int fd)
{
    struct winsize size;
    const long wanted = wanted_size("LINES");
    if (wanted > 0) return from_to(wanted, LOWEST, UINT_MAX);
    if (ioctl(fd, TIOCGWINSZ, &size) == 0 && size.ws_row > 0)
        return from_to(size.ws_row, LOWEST, UINT_MAX);
    return USUAL_HEIGHT;
}

static int behind = -1;

void screen_behind(int terminal)
{
    behind = terminal;
}

screen screen_on(FILE *out)
{
    const int fd = out == stdout && behind >= 0 ? behind : fileno(out);
    bool terminal = isatty(fd) == 1;
    return (screen){.out = out,
                    .terminal = terminal,
                    .width = terminal ? terminal_width(fd) : 0,
                    .height = terminal ? terminal_height(fd) : 0};
}

static void indent(const screen *s, size_t cells)
{
    for (size_t i = 0; i < cells; i++) fputc(' ', s->out);
}

/* One line's worth of text without newlines, after `column` cells that are already there. */
static void put_wrapped(const screen *s, const char *text, size_t length, size_t column,
                        size_t hang)
{
    bool fresh = true;
    const char *end = text + length;
    while (text < end) {
        size_t word = strcspn(text, " \n");
        if (text + word > end) word = (size_t)(end - text);
        size_t cells = display_width(text, word);
        if (!fresh && s->width > 0 && column + 1 + cells > s->width) {
            fputc('\n', s->out);
            indent(s, hang);
            column = hang;
            fresh = true;
        }
        if (!fresh) {
            fputc(' ', s->out);
            column++;
        }
        fwrite(text, 1, word, s->out);
        column += cells;
        fresh = false;
        text += word;
        while (text < end && *text == ' ') text++;
    }
    fputc('\n', s->out);
}

static void put_text(const screen *s, const char *lead, const char *text)
{
    char *clean = clean_text(text);
    size_t hang = display_width(lead, strlen(lead));
    fputs(lead, s->out);
    for (const char *line = clean;;) {
        size_t length = strcspn(line, "\n");
        put_wrapped(s, line, length, hang, hang);
        if (line[length] == 0 || line[length + 1] == 0) break;
        line += length + 1;
        indent(s, hang);
    }
    free(clean);
}

void say(const screen *s, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = format_text_list(format, arguments);
    va_end(arguments);
    put_text(s, "", text);
    free(text);
}

void say_item(const screen *s, const char *lead, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = format_text_list(format, arguments);
    va_end(arguments);
    put_text(s, lead, text);
    free(text);
}

void say_nothing(const screen *s)
{
    fputc('\n', s->out);
}

void say_list(const screen *s, const char *heading, const char *const *items, unsigned count)
{
    if (count == 0) return;
    say(s, "%s", heading);
    for (unsigned i = 0; i < count; i++) say_item(s, "  - ", "%s", items[i]);
}

void say_command(const screen *s, const char *command)
{
    char *clean = clean_text(command);
    fprintf(s->out, "    %s\n", clean);
    free(clean);
}

void say_prompt(const screen *s, const char *text)
{
    fputs(text, s->out);
    fflush(s->out);
}

static _Thread_local char **kept;

void complaints_kept(char **text)
{
    kept = text;
}

static void keep_complaint(const char *complaint)
{
    char *before = *kept;
    *kept = format_text("%stelltale: %s\n", before != NULL ? before : "", complaint);
    free(before);
}

void complain(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = format_text_list(format, arguments);
    va_end(arguments);
    char *clean = clean_text(text);
    if (kept != NULL) {
        keep_complaint(clean);
    } else {
        fflush(stdout);
        fprintf(stderr, "telltale: %s\n", clean);
    }
    free(clean);
    free(text);
}
