/* A picture as a list of shapes, in pixels of a page that is 320 wide: what it shows stands in
 * words or a table beside it too. How a shape looks is a class of page_style.c. */
#ifndef TT_CLI_DRAWING_H
#define TT_CLI_DRAWING_H

#include <stdint.h>

#include "base/arena.h"
#include "paper/paper.h"

enum { DRAWING_WIDTH = 320, DRAWING_LINE = 15 }; /* the height of a line of words */

typedef enum shape_kind { LINE_SHAPE, BOX_SHAPE, DOT_SHAPE, WORDS_SHAPE } shape_kind;
typedef enum words_anchor { FROM_START, AROUND_MIDDLE, UP_TO_END } words_anchor;
typedef struct drawn_shape {
    shape_kind kind;
    const char *look; /* a class: "bar", "all", "way", "axis", "mark", "level"; words have none */
    double x, y, x2, y2, thick; /* a box: x2 and y2 are its size; a dot: thick is its radius */
    words_anchor anchor;
    piece_of_text text;
} drawn_shape;

typedef struct drawing {
    arena *keep;
    const char *look; /* its class; null: "plan" */
    double height;
    drawn_shape *items;
    uint32_t count, room;
} drawing;

void draw_line(drawing *d, const char *look, double x, double y, double x2, double y2,
               double thick);
void draw_box(drawing *d, const char *look, double x, double y, double width, double height);
void draw_dot(drawing *d, const char *look, double x, double y, double radius);
/* On one line, whose foot is at y. */
void draw_words(drawing *d, double x, double y, words_anchor anchor, piece_of_text text);
/* In at most `lines` lines of so many cells, the first with its foot at y; what is left over is
 * cut. How many lines it took. */
uint32_t draw_wrapped(drawing *d, double x, double y, words_anchor anchor, piece_of_text text,
                      size_t cells, uint32_t lines);
/* How many it would take. */
uint32_t wrapped_lines(const char *text, size_t cells, uint32_t lines);

/* Where a line of at most so many cells of a terminal ends, which come near the width of letters:
 * at a space, if there is one. Equal to `text` only at its end. The text is clean. */
const char *end_of_cells(const char *text, size_t cells);

#endif
