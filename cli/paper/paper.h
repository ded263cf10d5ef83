/* What a page for people is made of, whatever it is written as. Whoever fills a paper says what its
 * texts are; how they are escaped and marked is up to the paper. */
#ifndef TT_CLI_PAPER_H
#define TT_CLI_PAPER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "say/catalogue.h"
#include "telltale.h"

typedef enum text_kind {
    OUR_TEXT,  /* the program's, or typed by a person */
    RULE_TEXT, /* from a book or a site, in its language */
    MOMENT,    /* as RFC 3339 writes it: shown to the minute */
    NUMBER, /* a figure with its sign or unit, or a single word: "72%", "low"; it is not broken */
    SHARE,  /* the same of a share, which may be drawn beside it */
} text_kind;
typedef struct piece_of_text {
    text_kind kind;
    const char *text;
    double share; /* of SHARE: from 0 to 1 */
} piece_of_text;

/* The first cell of a row heads it. */
typedef struct text_table {
    const char *const *columns; /* their headings */
    size_t column_count, row_count;
    piece_of_text *cells; /* [row][column], with copies of their texts */
} text_table;

/* One of them stands in every paper: so it is known again, and a newer one may take its place. */
#define HTML_MARK     "<meta name=\"generator\" content=\"telltale\">"
#define MARKDOWN_MARK "<!-- made by telltale -->"
#define TEXT_MARK     "(made by telltale)"

struct drawing;
typedef struct paper paper;
typedef struct paper_kind {
    void (*begin)(const paper *p, const char *title);
    void (*end)(const paper *p);
    void (*heading)(const paper *p, const char *text);
    /* The same for what not everybody needs: printed, it begins on a page of its own. */
    void (*apart)(const paper *p, const char *title);
    void (*paragraph)(const paper *p, piece_of_text text);
    /* In a frame that nobody overlooks; `grave`: in one that stops. `word` stands before the text;
     * or null. */
    void (*boxed)(const paper *p, bool grave, const char *word, piece_of_text text);
    /* Names and what they stand for; between the first and the last of them nothing else. */
    void (*facts_begin)(const paper *p);
    void (*fact)(const paper *p, const char *name, piece_of_text value);
    void (*facts_end)(const paper *p);
    void (*list_begin)(const paper *p, bool numbered);
    /* 0: in a list without numbers */
    void (*item)(const paper *p, size_t number, piece_of_text text);
    void (*list_end)(const paper *p, bool numbered);
    void (*table)(const paper *p, const char *caption, const text_table *table);
    /* Of a paper in chapters, which are numbered from 1: what comes, and where each begins. */
    void (*contents)(const paper *p, const char *title, const char *const *chapters, size_t count);
    void (*chapter)(const paper *p, size_t number, const char *title);
    void (*subheading)(const paper *p, piece_of_text text);
    /* Where there are no pictures it is left out. */
    void (*picture)(const paper *p, const char *title, const struct drawing *drawing);
    /* A drawing of the book's own, its areas lettered, with its words beneath; `lead` says what it
     * belongs to. Where there are no pictures the words stand alone. */
    void (*drawn)(const paper *p, piece_of_text lead, const tt_picture *picture);
    /* Empty lines to be filled in by hand, under headings. */
    void (*form)(const paper *p, const char *caption, const char *const *columns, size_t count,
                 size_t rows);
} paper_kind;
extern const paper_kind paper_of_html, paper_of_markdown, paper_of_text;

struct paper {
    const paper_kind *kind;
    FILE *out;
    const char *language; /* of the rules' texts, a tag of BCP 47; null: as our own */
    tongue in;            /* of our own */
};

/* Copies the texts of `cells`, one for each column. */
void table_add(text_table *table, const piece_of_text *cells);
/* Without the columns in which nothing stands; nothing at all if there is no row. Empties the
 * table. */
void table_put(text_table *table, const paper *p, const char *caption);

bool is_moment(const char *text); /* begins as RFC 3339 writes a moment */

#endif
