/* Shapes, and words in a narrow column. */
#include "paper/drawing.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "host/memory.h"
#include "host/plain_text.h"

static void add(drawing *d, drawn_shape shape)
{
    GROW(d->keep, d->items, d->count, d->room);
    d->items[d->count++] = shape;
}

void draw_line(drawing *d, const char *look, double x, double y, double x2, double y2, double thick)
{
    add(d,
        (drawn_shape){
            .kind = LINE_SHAPE, .look = look, .x = x, .y = y, .x2 = x2, .y2 = y2, .thick = thick});
}

void draw_box(drawing *d, const char *look, double x, double y, double width, double height)
{
    assert(width >= 0 && height >= 0);
    add(d,
        (drawn_shape){.kind = BOX_SHAPE, .look = look, .x = x, .y = y, .x2 = width, .y2 = height});
}

void draw_dot(drawing *d, const char *look, double x, double y, double radius)
{
    add(d, (drawn_shape){.kind = DOT_SHAPE, .look = look, .x = x, .y = y, .thick = radius});
}

void draw_words(drawing *d, double x, double y, words_anchor anchor, piece_of_text text)
{
    const piece_of_text kept = {.kind = text.kind, .text = arena_copy(d->keep, text.text)};
    add(d, (drawn_shape){.kind = WORDS_SHAPE, .x = x, .y = y, .anchor = anchor, .text = kept});
}

const char *end_of_cells(const char *text, size_t cells)
{
    const char *end = text, *space = NULL, *next = text;
    while (next_code_point(&next) != 0 && display_width(text, (size_t)(next - text)) <= cells) {
        end = next;
        if (*end == ' ' || *end == 0) space = end;
    }
    if (end == text) end = next; /* one that is wider than all that fits: there is no such letter */
    return space != NULL ? space : end;
}

/* With or without drawing it. */
static uint32_t wrap(drawing *d, double x, double y, words_anchor anchor, piece_of_text text,
                     size_t cells, uint32_t lines)
{
    char *clean = clean_text(text.text);
    for (char *at = clean; *at != 0; at++)
        if (*at == '\n') *at = ' ';
    uint32_t count = 0;
    for (const char *at = clean; *at != 0 && count < lines; count++) {
        const char *end = end_of_cells(at, cells);
        const char *rest = end + strspn(end, " ");
        char *line = format_text("%.*s%s", (int)(end - at), at,
                                 *rest != 0 && count + 1 == lines ? "\u2026" : "");
        if (d != NULL)
            draw_words(d, x, y + DRAWING_LINE * count, anchor,
                       (piece_of_text){.kind = text.kind, .text = line});
        free(line);
        at = rest;
    }
    free(clean);
    return count;
}

uint32_t draw_wrapped(drawing *d, double x, double y, words_anchor anchor, piece_of_text text,
                      size_t cells, uint32_t lines)
{
    assert(d != NULL);
    return wrap(d, x, y, anchor, text, cells, lines);
}

uint32_t wrapped_lines(const char *text, size_t cells, uint32_t lines)
{
    return wrap(NULL, 0, 0, FROM_START, (piece_of_text){.kind = OUR_TEXT, .text = text}, cells,
                lines);
}
