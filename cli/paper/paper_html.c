/* A page: one HTML file that needs nothing else, runs nothing and asks nobody for anything. Its
 * policy allows one style, by its digest. Texts are cleaned, and escaped for the place where they
 * stand; none gets into a style, an address or the name of an element. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "paper/drawing.h"
#include "paper/page_style.h"
#include "paper/paper.h"

/* ---- escaping ---- */

/* Good between tags, and in an attribute with double quotes too. */
static void put(FILE *out, const char *text)
{
    char *clean = clean_text(text);
    for (const char *p = clean; *p != 0; p++) {
        switch (*p) {
        case '&':
            fputs("&amp;", out);
            break;
        case '<':
            fputs("&lt;", out);
            break;
        case '>':
            fputs("&gt;", out);
            break;
        case '"':
            fputs("&quot;", out);
            break;
        case '\'':
            fputs("&#39;", out);
            break;
        case '\n':
            fputc(' ', out);
            break;
        default:
            fputc(*p, out);
        }
    }
    free(clean);
}

static void put_language(const paper *p)
{
    fputs(" lang=\"", p->out);
    put(p->out, p->language);
    fputs("\"", p->out);
}

static void put_moment(FILE *out, const char *text)
{
    if (is_moment(text))
        fprintf(out, "<time datetime=\"%.16s\">%.10s %.5s</time>", text, text, text + 11);
    else
        put(out, text);
}

static void put_piece(const paper *p, piece_of_text piece)
{
    bool marked = piece.kind == RULE_TEXT && p->language != NULL && *piece.text != 0;
    if (marked) {
        fputs("<span dir=\"auto\"", p->out);
        put_language(p);
        fputc('>', p->out);
    }
    if (piece.kind == MOMENT)
        put_moment(p->out, piece.text);
    else
        put(p->out, piece.text);
    if (marked) fputs("</span>", p->out);
}

/* <tag>text</tag>; both tags are ours. */
static void put_within(const paper *p, const char *begin, piece_of_text piece, const char *end)
{
    fputs(begin, p->out);
    put_piece(p, piece);
    fputs(end, p->out);
    fputc('\n', p->out);
}

static piece_of_text ours(const char *text)
{
    return (piece_of_text){.kind = OUR_TEXT, .text = text};
}

/* ---- the page ---- */

static void begin(const paper *p, const char *title)
{
    char *digest = page_style_digest();
    fputs("<!DOCTYPE html>\n<html lang=\"", p->out);
    fputs(tongue_tag(p->in), p->out);
    fputs("\">\n<head>\n<meta charset=\"utf-8\">\n", p->out);
    fprintf(p->out,
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
            "style-src 'sha256-%s'; base-uri 'none'; form-action 'none'\">\n",
            digest);
    fputs("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n" HTML_MARK
          "\n"
          "<meta name=\"color-scheme\" content=\"light dark\">\n"
          "<meta name=\"referrer\" content=\"no-referrer\">\n",
          p->out);
    put_within(p, "<title>", ours(title), "</title>");
    fprintf(p->out, "<style>%s</style>\n</head>\n<body>\n<main>\n", page_style);
    put_within(p, "<h1>", ours(title), "</h1>");
    free(digest);
}

static void end(const paper *p)
{
    fputs("</main>\n</body>\n</html>\n", p->out);
}

static void heading(const paper *p, const char *text)
{
    put_within(p, "<h2>", ours(text), "</h2>");
}

static void apart(const paper *p, const char *title)
{
    put_within(p, "<h2 class=\"apart\">", ours(title), "</h2>");
}

static void paragraph(const paper *p, piece_of_text text)
{
    put_within(p, "<p>", text, "</p>");
}

static void boxed(const paper *p, bool grave, const char *word, piece_of_text text)
{
    fputs(grave ? "<p class=\"box stop\">" : "<p class=\"box\">", p->out);
    if (word != NULL) put_within(p, "<strong>", ours(word), "</strong>");
    put_within(p, "", text, "</p>");
}

static void facts_begin(const paper *p)
{
    fputs("<dl>\n", p->out);
}

static void fact(const paper *p, const char *name, piece_of_text value)
{
    put_within(p, "<dt>", ours(name), "</dt>");
    put_within(p, "<dd>", value, "</dd>");
}

static void facts_end(const paper *p)
{
    fputs("</dl>\n", p->out);
}

static void list_begin(const paper *p, bool numbered)
{
    fputs(numbered ? "<ol>\n" : "<ul>\n", p->out);
}

static void item(const paper *p, size_t number, piece_of_text text)
{
    (void)number;
    put_within(p, "<li>", text, "</li>");
}

static void list_end(const paper *p, bool numbered)
{
    fputs(numbered ? "</ol>\n" : "</ul>\n", p->out);
}

/* ---- tables ---- */

/* Its figure stands behind it, so that nobody has to be told what it shows. */
static void put_share(const paper *p, double share)
{
    fprintf(p->out,
            "<svg class=\"share\" viewBox=\"0 0 100 12\" aria-hidden=\"true\">"
            "<rect class=\"all\" x=\"0.5\" y=\"0.5\" width=\"99\" height=\"11\"/>"
            "<rect class=\"bar\" x=\"0.5\" y=\"0.5\" width=\"%.0f\" height=\"11\"/></svg>",
            share * 99);
}

static bool is_figure(const piece_of_text *cell)
{
    return cell->kind == NUMBER || cell->kind == SHARE;
}

/* On a small screen each cell stands on a line of its own, after its column's heading; of a table
 * of figures several do. */
static void put_cell(const paper *p, const char *column, piece_of_text cell)
{
    const bool figure = is_figure(&cell);
    if (*cell.text == 0) {
        fputs("<td></td>\n", p->out);
        return;
    }
    fputs(figure ? "<td class=\"number\"><span class=\"label\">" : "<td><span class=\"label\">",
          p->out);
    put(p->out, column);
    fputs(": </span>", p->out);
    if (cell.kind == SHARE) put_share(p, cell.share);
    put_piece(p, cell);
    fputs("</td>\n", p->out);
}

static void put_row(const paper *p, const text_table *t, const piece_of_text *cells)
{
    fputs("<tr>\n", p->out);
    put_within(p,
               is_figure(&cells[0]) ? "<th scope=\"row\" class=\"number\">" : "<th scope=\"row\">",
               cells[0], "</th>");
    for (size_t i = 1; i < t->column_count; i++) put_cell(p, t->columns[i], cells[i]);
    fputs("</tr>\n", p->out);
}

static bool is_of_figures(const text_table *t)
{
    for (size_t i = 0; i < t->row_count * t->column_count; i++)
        if (!is_figure(&t->cells[i])) return false;
    return t->column_count > 2;
}

static void table(const paper *p, const char *caption, const text_table *t)
{
    fputs(is_of_figures(t) ? "<table class=\"figures\">\n" : "<table>\n", p->out);
    put_within(p, "<caption>", ours(caption), "</caption>");
    fputs("<thead>\n<tr>\n", p->out);
    for (size_t i = 0; i < t->column_count; i++)
        put_within(p, "<th scope=\"col\">", ours(t->columns[i]), "</th>");
    fputs("</tr>\n</thead>\n<tbody>\n", p->out);
    for (size_t i = 0; i < t->row_count; i++) put_row(p, t, &t->cells[i * t->column_count]);
    fputs("</tbody>\n</table>\n", p->out);
}

/* ---- papers in chapters ---- */

static void contents(const paper *p, const char *title, const char *const *chapters, size_t count)
{
    fputs("<nav aria-labelledby=\"contents\">\n", p->out);
    put_within(p, "<h2 id=\"contents\">", ours(title), "</h2>");
    fputs("<ol>\n", p->out);
    for (size_t i = 0; i < count; i++) {
        fprintf(p->out, "<li><a href=\"#chapter-%zu\">", i + 1);
        put_within(p, "", ours(chapters[i]), "</a></li>");
    }
    fputs("</ol>\n</nav>\n", p->out);
}

static void chapter(const paper *p, size_t number, const char *title)
{
    fprintf(p->out, "<h2 id=\"chapter-%zu\">%zu. ", number, number);
    put_within(p, "", ours(title), "</h2>");
}

static void subheading(const paper *p, piece_of_text text)
{
    put_within(p, "<h3>", text, "</h3>");
}

/* A name of its own for screen readers in each empty cell would say nothing new: the column says
 * what goes there. */
static void form(const paper *p, const char *caption, const char *const *columns, size_t count,
                 size_t rows)
{
    fputs("<table class=\"form\">\n", p->out);
    put_within(p, "<caption>", ours(caption), "</caption>");
    fputs("<thead>\n<tr>\n", p->out);
    for (size_t i = 0; i < count; i++)
        put_within(p, "<th scope=\"col\">", ours(columns[i]), "</th>");
    fputs("</tr>\n</thead>\n<tbody>\n", p->out);
    for (size_t row = 0; row < rows; row++) {
        fputs("<tr>\n", p->out);
        for (size_t i = 0; i < count; i++) {
            fputs("<td><span class=\"label\">", p->out);
            put_within(p, "", ours(columns[i]), ":</span></td>");
        }
        fputs("</tr>\n", p->out);
    }
    fputs("</tbody>\n</table>\n", p->out);
}

/* ---- pictures ---- */

static void put_words(const paper *p, const drawn_shape *s)
{
    static const char *const anchors[] = {"start", "middle", "end"};
    fprintf(p->out, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\"", s->x, s->y,
            anchors[s->anchor]);
    if (s->text.kind == RULE_TEXT && p->language != NULL) put_language(p);
    put_within(p, ">", ours(s->text.text), "</text>");
}

static void put_shape(const paper *p, const drawn_shape *s)
{
    switch (s->kind) {
    case LINE_SHAPE:
        fprintf(p->out,
                "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" "
                "stroke-width=\"%.2f\"/>\n",
                s->look, s->x, s->y, s->x2, s->y2, s->thick);
        break;
    case BOX_SHAPE:
        fprintf(p->out,
                "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n",
                s->look, s->x, s->y, s->x2, s->y2);
        break;
    case DOT_SHAPE:
        fprintf(p->out, "<circle class=\"%s\" cx=\"%.1f\" cy=\"%.1f\" r=\"%.2f\"/>\n", s->look,
                s->x, s->y, s->thick);
        break;
    case WORDS_SHAPE:
        put_words(p, s);
        break;
    }
}

static void picture(const paper *p, const char *title, const drawing *d)
{
    fprintf(p->out, "<svg class=\"%s\" viewBox=\"0 0 %d %.0f\" role=\"img\">\n",
            d->look != NULL ? d->look : "plan", DRAWING_WIDTH, d->height);
    put_within(p, "<title>", ours(title), "</title>");
    for (uint32_t i = 0; i < d->count; i++) put_shape(p, &d->items[i]);
    fputs("</svg>\n", p->out);
}

/* ---- drawings of the book ---- */

/* By letters, for a drawing may have numbers of its own. */
static char area_letter(uint32_t i)
{
    return i < 26 ? (char)('A' + i) : '+';
}

/* On the drawing's own white ground, in its own measure. */
static void put_area(const paper *p, const tt_picture *picture, uint32_t i)
{
    const tt_area *a = &picture->areas[i];
    const double size = (picture->width + picture->height) / 30;
    fprintf(p->out,
            "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" fill=\"none\" "
            "stroke=\"black\" stroke-width=\"%.2f\" stroke-dasharray=\"%.2f\"/>\n",
            a->x, a->y, a->width, a->height, size / 12, size / 4);
    fprintf(p->out,
            "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%.2f\" fill=\"white\" stroke=\"black\" "
            "stroke-width=\"%.2f\"/>\n"
            "<text x=\"%.2f\" y=\"%.2f\" font-size=\"%.2f\" font-weight=\"bold\" "
            "text-anchor=\"middle\">%c</text>\n",
            a->x + size * 0.6, a->y + size * 0.6, size * 0.6, size / 12, a->x + size * 0.6,
            a->y + size * 0.9, size * 0.85, area_letter(i));
}

/* The engine wrote the drawing, so it is put as it stands: its one element, which may have nothing
 * in it, is opened anew. */
static void put_drawing(const paper *p, const tt_picture *picture)
{
    static const char begins[] = "<svg", ends[] = "</svg>", empty[] = "/>";
    const char *rest = picture->svg + sizeof begins - 1;
    const size_t length = strlen(rest);
    const bool is_empty = strcmp(rest + length - (sizeof empty - 1), empty) == 0;
    const size_t tail = is_empty ? sizeof empty - 1 : sizeof ends - 1;
    assert(is_empty || strcmp(rest + length - tail, ends) == 0);
    fprintf(p->out, "%s class=\"drawing\" role=\"img\" aria-label=\"", begins);
    put(p->out, picture->text);
    fprintf(p->out, "\"%.*s%s\n", (int)(length - tail), rest, is_empty ? ">" : "");
    for (uint32_t i = 0; i < picture->area_count; i++) put_area(p, picture, i);
    fprintf(p->out, "%s\n", ends);
}

static void drawn(const paper *p, piece_of_text lead, const tt_picture *picture)
{
    fputs("<figure>\n", p->out);
    put_drawing(p, picture);
    fputs("<figcaption>\n", p->out);
    put_within(p, "<p><strong>", lead, "</strong></p>");
    put_within(p, "<p>", (piece_of_text){.kind = RULE_TEXT, .text = picture->text}, "</p>");
    if (picture->area_count > 0) fputs("<ol type=\"A\">\n", p->out);
    for (uint32_t i = 0; i < picture->area_count; i++)
        item(p, i + 1, (piece_of_text){.kind = RULE_TEXT, .text = picture->areas[i].text});
    if (picture->area_count > 0) list_end(p, true);
    fputs("</figcaption>\n</figure>\n", p->out);
}

const paper_kind paper_of_html = {.begin = begin,
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
