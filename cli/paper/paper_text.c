/* Plain text: nothing in it is markup, and no line is longer than a mail or a narrow printer takes,
 * where words allow it. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "paper/drawing.h"
#include "paper/paper.h"

enum { WIDTH = 76, LEAST = 16 };

/* ---- lines ---- */

static char *one_line(piece_of_text piece)
{
    if (piece.kind == MOMENT && is_moment(piece.text))
        return format_text("%.10s %.5s", piece.text, piece.text + 11);
    char *clean = clean_text(piece.text), *all = trim_text(clean);
    for (char *at = all; *at != 0; at++)
        if (*at == '\n') *at = ' ';
    free(clean);
    return all;
}

static void put_rule(const paper *p, char letter, size_t cells)
{
    for (size_t i = 0; i < cells; i++) fputc(letter, p->out);
    fputc('\n', p->out);
}

/* Behind `lead`; further lines stand as far in as that is long. */
static void put_wrapped(const paper *p, const char *lead, const char *text)
{
    const size_t in = display_width(lead, strlen(lead)),
                 room = in + LEAST < WIDTH ? WIDTH - in : LEAST;
    fputs(lead, p->out);
    for (const char *at = text; *at != 0;) {
        const char *end = end_of_cells(at, room);
        fprintf(p->out, "%.*s\n", (int)(end - at), at);
        at = end + strspn(end, " ");
        if (*at != 0) fprintf(p->out, "%*s", (int)in, "");
    }
    if (*text == 0) fputc('\n', p->out);
}

static void put_piece(const paper *p, const char *lead, piece_of_text piece)
{
    char *line = one_line(piece);
    put_wrapped(p, lead, line);
    free(line);
}

static void put_underlined(const paper *p, const char *text, char letter)
{
    char *line = one_line((piece_of_text){.kind = OUR_TEXT, .text = text});
    const size_t cells = display_width(line, strlen(line));
    put_wrapped(p, "", line);
    put_rule(p, letter, cells < WIDTH ? cells : WIDTH);
    fputc('\n', p->out);
    free(line);
}

/* ---- the paper ---- */

static void begin(const paper *p, const char *title)
{
    put_underlined(p, title, '=');
}

static void end(const paper *p)
{
    fputs(TEXT_MARK "\n", p->out);
}

static void heading(const paper *p, const char *text)
{
    put_underlined(p, text, '-');
}

static void apart(const paper *p, const char *title)
{
    put_rule(p, '=', WIDTH);
    fputc('\n', p->out);
    put_underlined(p, title, '=');
}

static void paragraph(const paper *p, piece_of_text text)
{
    put_piece(p, "", text);
    fputc('\n', p->out);
}

static void boxed(const paper *p, bool grave, const char *word, piece_of_text text)
{
    char *line = one_line(text),
         *all = format_text("%s%s%s", word != NULL ? word : "", word != NULL ? " " : "", line);
    put_wrapped(p, grave ? "!!! " : ">>> ", all);
    fputc('\n', p->out);
    free(all);
    free(line);
}

static void nothing(const paper *p)
{
    (void)p;
}

static void fact(const paper *p, const char *name, piece_of_text value)
{
    char *line = one_line(value), *all = format_text("%s: %s", name, line);
    put_wrapped(p, "", all);
    free(all);
    free(line);
}

static void empty_line(const paper *p)
{
    fputc('\n', p->out);
}

static void list_begin(const paper *p, bool numbered)
{
    (void)p;
    (void)numbered;
}

static void item(const paper *p, size_t number, piece_of_text text)
{
    char lead[32] = "- ";
    if (number > 0) snprintf(lead, sizeof lead, "%zu. ", number);
    put_piece(p, lead, text);
}

static void list_end(const paper *p, bool numbered)
{
    (void)numbered;
    empty_line(p);
}

/* ---- tables ---- */

/* One after the other, each cell on a line after its column's heading: that reads well at any
 * width, and aloud. */
static void put_row(const paper *p, const text_table *t, const piece_of_text *cells)
{
    put_piece(p, "- ", cells[0]);
    for (size_t i = 1; i < t->column_count; i++) {
        char *line = one_line(cells[i]), *all = format_text("%s: %s", t->columns[i], line);
        if (*line != 0) put_wrapped(p, "  ", all);
        free(all);
        free(line);
    }
}

static void table(const paper *p, const char *caption, const text_table *t)
{
    char *lead = format_text("%s:", caption);
    put_wrapped(p, "", lead);
    for (size_t i = 0; i < t->row_count; i++) put_row(p, t, &t->cells[i * t->column_count]);
    empty_line(p);
    free(lead);
}

static void form(const paper *p, const char *caption, const char *const *columns, size_t count,
                 size_t rows)
{
    put_wrapped(p, "", caption);
    for (size_t row = 0; row < rows; row++)
        for (size_t i = 0; i < count; i++)
            fprintf(p->out, "%s%s: ______________\n", i == 0 ? "- " : "  ", columns[i]);
    empty_line(p);
}

/* ---- papers in chapters ---- */

static void contents(const paper *p, const char *title, const char *const *chapters, size_t count)
{
    heading(p, title);
    for (size_t i = 0; i < count; i++)
        item(p, i + 1, (piece_of_text){.kind = OUR_TEXT, .text = chapters[i]});
    empty_line(p);
}

static void chapter(const paper *p, size_t number, const char *title)
{
    char *all = format_text("%zu. %s", number, title);
    put_underlined(p, all, '-');
    free(all);
}

static void subheading(const paper *p, piece_of_text text)
{
    char *line = one_line(text);
    put_underlined(p, line, '.');
    free(line);
}

static void picture(const paper *p, const char *title, const struct drawing *d)
{
    (void)p;
    (void)title;
    (void)d;
}

static void drawn(const paper *p, piece_of_text lead, const tt_picture *shown)
{
    put_piece(p, "", lead);
    put_piece(p, "", (piece_of_text){.kind = RULE_TEXT, .text = shown->text});
    for (uint32_t i = 0; i < shown->area_count; i++)
        item(p, 0, (piece_of_text){.kind = RULE_TEXT, .text = shown->areas[i].text});
    empty_line(p);
}

const paper_kind paper_of_text = {.begin = begin,
                                  .end = end,
                                  .heading = heading,
                                  .apart = apart,
                                  .paragraph = paragraph,
                                  .boxed = boxed,
                                  .facts_begin = nothing,
                                  .fact = fact,
                                  .facts_end = empty_line,
                                  .list_begin = list_begin,
                                  .item = item,
                                  .list_end = list_end,
                                  .table = table,
                                  .contents = contents,
                                  .chapter = chapter,
                                  .subheading = subheading,
                                  .picture = picture,
                                  .drawn = drawn,
                                  .form = form};
