/* Edits as a unified patch. They replace bytes within lines, take whole lines out or add some, so
 * lines keep their order and nothing needs to be compared. */
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "face/patch.h"
#include "host/plain_text.h"

enum { CONTEXT = 3 };

/* A line of the file as it is, with its newline, and what stands there afterwards: `added` whole
 * lines, then itself or `text`. */
typedef struct patched_line {
    const char *bytes;
    size_t length;
    char *added, *text; /* null: nothing */
} patched_line;

typedef struct patched_file {
    patched_line *lines;
    size_t count;
} patched_file;

static patched_file cut_into_lines(const tt_source *s)
{
    size_t most = 1;
    for (size_t i = 0; i < s->length; i++) most += s->bytes[i] == '\n';
    patched_file f = {take_memory((most + 1) * sizeof *f.lines), 0};
    for (size_t from = 0; from < s->length;) {
        const char *end = memchr(s->bytes + from, '\n', s->length - from);
        size_t length = end != NULL ? (size_t)(end - s->bytes) - from + 1 : s->length - from;
        f.lines[f.count++] = (patched_line){s->bytes + from, length, NULL, NULL};
        from += length;
    }
    f.lines[f.count] =
        (patched_line){s->bytes + s->length, 0, NULL, NULL}; /* what is added at the end */
    return f;
}

static void append(char **to, const char *bytes, size_t length)
{
    char *longer = format_text("%s%.*s", *to != NULL ? *to : "", (int)length, bytes);
    free(*to);
    *to = longer;
}

static bool adds_lines(const tt_edit *e)
{
    size_t length = strlen(e->text);
    return e->start == e->end && length > 0 && e->text[length - 1] == '\n';
}

/* A line with its edits, which come in order; `from`: what is in the text already. */
static void edit_line(const tt_source *s, patched_line *line, size_t *from, const tt_edit *e)
{
    if (adds_lines(e)) {
        append(&line->added, e->text, strlen(e->text));
        return;
    }
    append(&line->text, s->bytes + *from, e->start - *from);
    append(&line->text, e->text, strlen(e->text));
    *from = e->end;
}

static void apply(const tt_source *s, patched_file *f, const tt_edit *edits, uint32_t count)
{
    for (size_t i = 0, e = 0; i <= f->count; i++) {
        patched_line *line = &f->lines[i];
        size_t start = (size_t)(line->bytes - s->bytes), end = start + line->length, from = start;
        for (; e < count && (edits[e].start < end || i == f->count); e++)
            edit_line(s, line, &from, &edits[e]);
        if (line->text != NULL) append(&line->text, s->bytes + from, end - from);
    }
}

static bool is_changed(const patched_line *line)
{
    return line->added != NULL || line->text != NULL;
}

static size_t lines_in(const char *text)
{
    size_t count = 0;
    for (; text != NULL && *text != 0; text++) count += *text == '\n';
    return count;
}

static void print_line(FILE *out, char sign, const char *bytes, size_t length)
{
    fputc(sign, out);
    fwrite(bytes, 1, length, out);
    if (length == 0 || bytes[length - 1] != '\n') fputs("\n\\ No newline at end of file\n", out);
}

static void print_added(FILE *out, const char *text)
{
    while (text != NULL && *text != 0) {
        size_t length = strcspn(text, "\n") + 1;
        print_line(out, '+', text, length);
        text += length;
    }
}

/* Nothing is left of it, not even its end. */
static bool is_taken_out(const patched_line *line)
{
    return line->length > 0 && line->text != NULL && *line->text == 0;
}

/* So many lines more than before. */
static ptrdiff_t growth(const patched_line *line)
{
    return (ptrdiff_t)lines_in(line->added) - (is_taken_out(line) ? 1 : 0);
}

/* Lines first … last - 1, of which some are changed. `shift`: lines added before. */
static void print_hunk(FILE *out, const patched_file *f, size_t first, size_t last, ptrdiff_t shift)
{
    const size_t end = last < f->count ? last : f->count;
    ptrdiff_t now = (ptrdiff_t)(end - first), begins = (ptrdiff_t)first + shift;
    for (size_t i = first; i < last; i++) now += growth(&f->lines[i]);
    fprintf(out, "@@ -%zu,%zu +%td,%td @@\n", first + 1, end - first, begins + (now > 0 ? 1 : 0),
            now);
    for (size_t i = first; i < last; i++) {
        const patched_line *line = &f->lines[i];
        print_added(out, line->added);
        if (i == f->count) continue;
        print_line(out, line->text != NULL ? '-' : ' ', line->bytes, line->length);
        if (line->text != NULL && !is_taken_out(line))
            print_line(out, '+', line->text, strlen(line->text));
    }
}

/* Where a hunk that begins with the changed line `at` ends: changes with few lines between share
 * one. */
static size_t hunk_end(const patched_file *f, size_t at)
{
    size_t last = at;
    for (size_t i = at; i <= f->count && i <= last + (size_t)2 * CONTEXT; i++)
        if (is_changed(&f->lines[i])) last = i;
    return last;
}

static void print_file(FILE *out, const tt_source *s, const tt_edit *edits, uint32_t count)
{
    patched_file f = cut_into_lines(s);
    apply(s, &f, edits, count);
    fprintf(out, "--- a/%s\n+++ b/%s\n", s->name, s->name);
    ptrdiff_t shift = 0;
    for (size_t i = 0; i <= f.count; i++) {
        if (!is_changed(&f.lines[i])) continue;
        size_t last = hunk_end(&f, i), first = i > CONTEXT ? i - CONTEXT : 0,
               end = last + 1 + CONTEXT;
        if (end > f.count) end = last == f.count ? f.count + 1 : f.count;
        print_hunk(out, &f, first, end, shift);
        for (; i < last + 1; i++) shift += growth(&f.lines[i]);
    }
    for (size_t i = 0; i <= f.count; i++) {
        free(f.lines[i].added);
        free(f.lines[i].text);
    }
    free(f.lines);
}

void print_patch(FILE *out, const tt_source *sources, size_t count, const tt_edit *edits,
                 uint32_t edit_count)
{
    uint32_t from = 0;
    for (size_t i = 0; i < count; i++) {
        uint32_t own = 0;
        while (from + own < edit_count && strcmp(edits[from + own].file, sources[i].name) == 0)
            own++;
        if (own > 0) print_file(out, &sources[i], edits + from, own);
        from += own;
    }
}
