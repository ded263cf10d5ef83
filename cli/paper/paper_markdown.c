/* Markdown as CommonMark has it, with tables as most take them. Whatever could be taken for markup
 * or become a link is escaped. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "host/plain_text.h"
#include "paper/paper.h"

bool is_moment(const char *text)
{
    static const char form[] = "0000-00-00T00:00";
    for (size_t i = 0; form[i] != 0; i++) {
        bool fits = form[i] == '0' ? text[i] >= '0' && text[i] <= '9' : text[i] == form[i];
        if (!fits) return false;
    }
    return true;
}

/* Would be markup wherever it stands; "://", "@" and "www." make links of bare addresses. */
static bool is_special(const char *all, const char *at)
{
    if (strchr("\\`*_{}[]<>#|~&$!@", *at) != NULL) return true;
    if (*at == ':') return at[1] == '/';
    if (*at == '.') return at - all >= 3 && strncasecmp(at - 3, "www", 3) == 0;
    return false;
}

/* A line that begins so would be a list, a rule or a heading: "-", "+", "=", "1." and "1)". */
static bool begins_block(const char *all, const char *at)
{
    if (at == all) return strchr("-+=", *at) != NULL;
    size_t digits = strspn(all, "0123456789");
    return digits > 0 && (size_t)(at - all) == digits && (*at == '.' || *at == ')');
}

static void put(FILE *out, const char *text)
{
    char *clean = clean_text(text), *all = trim_text(clean);
    for (const char *p = all; *p != 0; p++) {
        if (is_special(all, p) || begins_block(all, p)) fputc('\\', out);
        fputc(*p == '\n' ? ' ' : *p, out);
    }
    free(all);
    free(clean);
}

static void put_piece(const paper *p, piece_of_text piece)
{
    if (piece.kind == MOMENT && is_moment(piece.text))
        fprintf(p->out, "%.10s %.5s", piece.text, piece.text + 11);
    else
        put(p->out, piece.text);
}

static void begin(const paper *p, const char *title)
{
    fputs("# ", p->out);
    put(p->out, title);
    fputs("\n\n", p->out);
}

/* At the end, where it is in nobody's way on a terminal. */
static void end(const paper *p)
{
    fputs(MARKDOWN_MARK "\n", p->out);
}

static void heading(const paper *p, const char *text)
{
    fputs("## ", p->out);
    put(p->out, text);
    fputs("\n\n", p->out);
}

static void apart(const paper *p, const char *title)
{
    fputs("---\n\n", p->out);
    heading(p, title);
}

static void paragraph(const paper *p, piece_of_text text)
{
    put_piece(p, text);
    fputs("\n\n", p->out);
}

static void boxed(const paper *p, bool grave, const char *word, piece_of_text text)
{
    (void)grave;
    fputs("> ", p->out);
    if (word != NULL) {
        fputs("**", p->out);
        put(p->out, word);
        fputs("** ", p->out);
    }
    put_piece(p, text);
    fputs("\n\n", p->out);
}

static void facts_begin(const paper *p)
{
    (void)p;
}

static void fact(const paper *p, const char *name, piece_of_text value)
{
    fputs("- ", p->out);
    put(p->out, name);
    fputs(": ", p->out);
    put_piece(p, value);
    fputc('\n', p->out);
}

static void facts_end(const paper *p)
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
    if (number > 0)
        fprintf(p->out, "%zu. ", number);
    else
        fputs("- ", p->out);
    put_piece(p, text);
    fputc('\n', p->out);
}

static void list_end(const paper *p, bool numbered)
{
    (void)numbered;
    fputc('\n', p->out);
}

static void put_row(const paper *p, const piece_of_text *cells, size_t count)
{
    fputc('|', p->out);
    for (size_t i = 0; i < count; i++) {
        fputc(' ', p->out);
        put_piece(p, cells[i]);
        fputs(" |", p->out);
    }
    fputc('\n', p->out);
}

static void put_headings(const paper *p, const text_table *t)
{
    fputc('|', p->out);
    for (size_t i = 0; i < t->column_count; i++) {
        fputc(' ', p->out);
        put(p->out, t->columns[i]);
        fputs(" |", p->out);
    }
    fputs("\n|", p->out);
    for (size_t i = 0; i < t->column_count; i++) fputs(" --- |", p->out);
    fputc('\n', p->out);
}

static void table(const paper *p, const char *caption, const text_table *t)
{
    put(p->out, caption);
    fputs("\n\n", p->out);
    put_headings(p, t);
    for (size_t i = 0; i < t->row_count; i++)
        put_row(p, &t->cells[i * t->column_count], t->column_count);
    fputc('\n', p->out);
}

/* ---- papers in chapters ---- */

static void contents(const paper *p, const char *title, const char *const *chapters, size_t count)
{
    heading(p, title);
    for (size_t i = 0; i < count; i++)
        item(p, i + 1, (piece_of_text){.kind = OUR_TEXT, .text = chapters[i]});
    fputc('\n', p->out);
}

static void chapter(const paper *p, size_t number, const char *title)
{
    fprintf(p->out, "## %zu. ", number);
    put(p->out, title);
    fputs("\n\n", p->out);
}

static void subheading(const paper *p, piece_of_text text)
{
    fputs("### ", p->out);
    put_piece(p, text);
    fputs("\n\n", p->out);
}

static void picture(const paper *p, const char *title, const struct drawing *d)
{
    (void)p;
    (void)title;
    (void)d;
}

static void drawn(const paper *p, piece_of_text lead, const tt_picture *picture)
{
    fputs("**", p->out);
    put_piece(p, lead);
    fputs("** ", p->out);
    put(p->out, picture->text);
    fputs("\n\n", p->out);
    for (uint32_t i = 0; i < picture->area_count; i++)
        item(p, 0, (piece_of_text){.kind = RULE_TEXT, .text = picture->areas[i].text});
    if (picture->area_count > 0) fputc('\n', p->out);
}

static void form(const paper *p, const char *caption, const char *const *columns, size_t count,
                 size_t rows)
{
    const text_table t = {columns, count, 0, NULL};
    (void)rows;
    table(p, caption, &t);
}

const paper_kind paper_of_markdown = {.begin = begin,
                                      .end = end,
                                      .heading = heading,
                                      .apart = apart,
                                      .paragraph = paragraph,
                                      .boxed = boxed,
                                      .facts_begin = facts_begin,
                                      .fact = fact,
                                      .facts_end = facts_end,
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
