/* Each kind of paper by itself: what somebody typed, or a book says, never becomes markup, whatever
 * it begins with, and what a page shows as a picture is told in words where there are none. */
#include "books/read_book.h"
#include "paper/drawing.h"
#include "paper/paper_words.h"
#include "shown_text.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static shown_text *on_paper(const paper_kind *kind, const char *language,
                            void (*fill)(const paper *p))
{
    shown_text *s = show_at(0);
    fill(&(paper){.kind = kind, .out = s->on.out, .language = language, .in = TO_AUTHORS});
    return s;
}

static void assert_on_paper(const paper_kind *kind, void (*fill)(const paper *p), const char *whole)
{
    shown_text *s = on_paper(kind, NULL, fill);
    assert_string_equal(shown(s), whole);
    shown_free(s);
}

/* ---- what is typed ---- */

static const char *typed;

static void fill_typed(const paper *p)
{
    p->kind->paragraph(p, our_text(typed));
}

static void nothing_typed_is_markup(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *markdown, *text;
    } rows[] = {
        {"1. it leaks", "1\\. it leaks\n\n", "1. it leaks\n\n"},
        {"12) it leaks", "12\\) it leaks\n\n", "12) it leaks\n\n"},
        {"12 of 30", "12 of 30\n\n", "12 of 30\n\n"},
        {"1.5 bar (2.)", "1\\.5 bar (2.)\n\n", "1.5 bar (2.)\n\n"},
        {"- 4 psi", "\\- 4 psi\n\n", "- 4 psi\n\n"},
        {"+4 - 3 = 1", "\\+4 - 3 = 1\n\n", "+4 - 3 = 1\n\n"},
        {"=", "\\=\n\n", "=\n\n"},
        {"a: b", "a: b\n\n", "a: b\n\n"},
        {"x://y", "x\\://y\n\n", "x://y\n\n"},
        {"WWW.x", "WWW\\.x\n\n", "WWW.x\n\n"},
        {"ww.x", "ww.x\n\n", "ww.x\n\n"},
        {"one\ntwo", "one two\n\n", "one two\n\n"},
        {"", "\n\n", "\n\n"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        typed = rows[i].typed;
        assert_on_paper(&paper_of_markdown, fill_typed, rows[i].markdown);
        assert_on_paper(&paper_of_text, fill_typed, rows[i].text);
    }
}

static void fill_moments(const paper *p)
{
    p->kind->facts_begin(p);
    p->kind->fact(p, "Began", (piece_of_text){MOMENT, "2026-11-29T09:12:44Z", 0});
    p->kind->fact(p, "Ended", (piece_of_text){MOMENT, "soon", 0});
    p->kind->facts_end(p);
}

/* A time comes from a file, and may be none. */
static void moments_are_shown_to_the_minute(void **state)
{
    (void)state;
    assert_on_paper(&paper_of_markdown, fill_moments,
                    "- Began: 2026-11-29 09:12\n- Ended: soon\n\n");
    assert_on_paper(&paper_of_text, fill_moments, "Began: 2026-11-29 09:12\nEnded: soon\n\n");
    shown_text *s = on_paper(&paper_of_html, NULL, fill_moments);
    assert_shows(shown(s), "<time datetime=\"2026-11-29T09:12\">2026-11-29 09:12</time>");
    assert_shows(s->kept.bytes, "soon");
    shown_free(s);
}

/* ---- papers with chapters, forms and drawings ---- */

static void fill_book(const paper *p)
{
    static const char *const chapters[] = {"Danger", "What is seen"}, *const columns[] = {"Day",
                                                                                          "Who"};
    static const tt_area areas[] = {{"leaks", "It leaks", 1, 2, 3, 4},
                                    {"hot", "It is hot", 5, 6, 7, 8}};
    static const tt_picture shows = {"pump.svg", "The pump", "<svg viewBox=\"0 0 9 9\"><g/></svg>",
                                     0,          0,          9,
                                     9,          areas,      2},
                            bare = {"bare.svg", "The frame", "<svg viewBox=\"0 0 9 9\"></svg>",
                                    0,          0,           9,
                                    9,          NULL,        0};
    p->kind->contents(p, "In this book", chapters, 2);
    p->kind->chapter(p, 2, "What is seen");
    p->kind->subheading(p, rule_text("The pump"));
    p->kind->drawn(p, rule_text("Pump"), &shows);
    p->kind->drawn(p, rule_text("Frame"), &bare);
    p->kind->form(p, "To be filled in", columns, 2, 2);
    p->kind->boxed(p, true, NULL, our_text("Stop."));
    p->kind->boxed(p, false, "Care:", our_text("it is hot"));
    p->kind->apart(p, "Behind it");
}

static void a_book_in_words(void **state)
{
    (void)state;
    assert_on_paper(&paper_of_markdown, fill_book,
                    "## In this book\n\n1. Danger\n2. What is seen\n\n## 2. What is seen\n\n"
                    "### The pump\n\n**Pump** The pump\n\n- It leaks\n- It is hot\n\n"
                    "**Frame** The frame\n\nTo be filled in\n\n| Day | Who |\n| --- | --- |\n\n"
                    "> Stop.\n\n> **Care:** it is hot\n\n---\n\n## Behind it\n\n");
    assert_on_paper(
        &paper_of_text, fill_book,
        "In this book\n------------\n\n1. Danger\n2. What is seen\n\n"
        "2. What is seen\n---------------\n\nThe pump\n........\n\n"
        "Pump\nThe pump\n- It leaks\n- It is hot\n\nFrame\nThe frame\n\n"
        "To be filled in\n- Day: ______________\n  Who: ______________\n"
        "- Day: ______________\n  Who: ______________\n\n"
        "!!! Stop.\n\n>>> Care: it is hot\n\n"
        "============================================================================\n\n"
        "Behind it\n=========\n\n");
}

/* Where people read another language than we write, each text of the book says so. */
static void a_book_as_a_page(void **state)
{
    (void)state;
    shown_text *s = on_paper(&paper_of_html, "de", fill_book);
    const char *page = shown(s);
    assert_shows(page, "<span dir=\"auto\" lang=\"de\">It leaks</span>");
    assert_shows(page, "aria-label=\"The pump\" viewBox=\"0 0 9 9\"><g/>\n<rect x=\"1.00\"");
    assert_shows(page, "text-anchor=\"middle\">B</text>\n</svg>");
    assert_shows(page, "aria-label=\"The frame\" viewBox=\"0 0 9 9\">\n</svg>");
    assert_shows(page, "<p><strong>");
    shown_free(s);
}

static void fill_empty(const paper *p)
{
    static const tt_area areas[] = {{"leaks", "It leaks", 1, 2, 3, 4}};
    static const tt_picture empty = {
        "frame.svg", "The frame", "<svg viewBox=\"0 0 9 9\"/>", 0, 0, 9, 9, areas, 1};
    p->kind->drawn(p, rule_text("Frame"), &empty);
}

/* What is listed beneath a drawing is marked on it, also where nothing else is drawn. */
static void a_drawing_of_nothing_has_its_areas(void **state)
{
    (void)state;
    shown_text *s = on_paper(&paper_of_html, NULL, fill_empty);
    assert_shows(shown(s), "aria-label=\"The frame\" viewBox=\"0 0 9 9\">\n<rect x=\"1.00\"");
    assert_shows(s->kept.bytes, "text-anchor=\"middle\">A</text>\n</svg>");
    shown_free(s);
}

static void fill_drawing(const paper *p)
{
    arena *keep = host_arena();
    drawing d = {.keep = keep, .height = 40};
    draw_words(&d, 1, 2, FROM_START, rule_text("Der lange Name einer Dichtung"));
    draw_words(&d, 1, 20, UP_TO_END, our_text("ours"));
    draw_dot(&d, "bar", 1, 2, 3);
    p->kind->picture(p, "A picture", &d);
    arena_free(keep);
}

static void a_picture_names_whose_words_it_has(void **state)
{
    (void)state;
    shown_text *s = on_paper(&paper_of_html, "de", fill_drawing);
    assert_shows(shown(s), "<text x=\"1.0\" y=\"2.0\" text-anchor=\"start\" lang=\"de\">Der lange");
    assert_shows(s->kept.bytes, "text-anchor=\"end\">ours</text>");
    shown_free(s);
    s = on_paper(&paper_of_html, NULL, fill_drawing);
    assert_shows_not(shown(s), "lang=");
    shown_free(s);
    assert_on_paper(&paper_of_text, fill_drawing, "");
    assert_on_paper(&paper_of_markdown, fill_drawing, "");
}

/* ---- long texts ---- */

static const char long_name[] =
    "a name that is far too long for one line of a sheet, which somebody "
    "wrote all the same because nothing kept them from it";

static void fill_long(const paper *p)
{
    p->kind->begin(p, long_name);
    p->kind->heading(p, "Short");
    p->kind->item(p, 0, our_text(long_name));
    p->kind->fact(p, "Site", our_text(""));
    p->kind->end(p);
}

static void long_names_are_wrapped(void **state)
{
    (void)state;
    assert_on_paper(
        &paper_of_text, fill_long,
        "a name that is far too long for one line of a sheet, which somebody wrote\n"
        "all the same because nothing kept them from it\n"
        "============================================================================\n\n"
        "Short\n-----\n\n"
        "- a name that is far too long for one line of a sheet, which somebody wrote\n"
        "  all the same because nothing kept them from it\n"
        "Site: \n" TEXT_MARK "\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_typed_is_markup),
        cmocka_unit_test(moments_are_shown_to_the_minute),
        cmocka_unit_test(a_book_in_words),
        cmocka_unit_test(a_book_as_a_page),
        cmocka_unit_test(a_drawing_of_nothing_has_its_areas),
        cmocka_unit_test(a_picture_names_whose_words_it_has),
        cmocka_unit_test(long_names_are_wrapped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
