#include "host/screen.h"

#include <assert.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "host/plain_text.h"

enum { NARROWEST = 20, WIDEST = 88, USUAL = 80 };

static unsigned within_reason(long columns)
{
    if (columns < NARROWEST) return NARROWEST;
    return columns > WIDEST ? WIDEST : (unsigned)columns;
}

static unsigned terminal_width(int fd)
{
    const char *wanted = getenv("COLUMNS");
    if (wanted != NULL) {
        char *end;
        long columns = strtol(wanted, &end, 10);
        if (*wanted != 0 && *end == 0 && columns > 0) return within_reason(columns);
    }
    struct winsize size;
    if (ioctl(fd, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return within_reason(size.ws_col);
    return USUAL;
}

screen screen_on(FILE *out)
{
    int fd = fileno(out);
    bool terminal = isatty(fd) == 1;
    return (screen){.out = out, .terminal = terminal, .width = terminal ? terminal_width(fd) : 0};
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

void complain(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = format_text_list(format, arguments);
    va_end(arguments);
    char *clean = clean_text(text);
    fflush(stdout);
    fprintf(stderr, "telltale: %s\n", clean);
    free(clean);
    free(text);
}
