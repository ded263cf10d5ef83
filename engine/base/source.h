/* Source files as handed in, and places in them. The engine opens no file itself. */
#ifndef TT_BASE_SOURCE_H
#define TT_BASE_SOURCE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

typedef struct source {
    str name;  /* path relative to the book's folder, '/' between parts */
    str bytes; /* as read */
} source;

typedef struct sources {
    const source *items; /* sorted by name */
    uint32_t count;
} sources;

/* A picture of the book, by how its name ends: no rules are read from it. */
bool source_is_picture(const source *s);

/* Bytes [start, end) of sources.items[file]. */
typedef struct span {
    uint32_t file, start, end;
} span;

#define NO_FILE UINT32_MAX
static inline span span_nowhere(void)
{
    return (span){NO_FILE, 0, 0};
}

/* Line and column from 1; column in characters (code points), as editors count. */
typedef struct place {
    uint32_t line, column;
} place;
place source_place(const source *s, uint32_t offset);

/* The same, going on from the place of an earlier offset that is known already. */
place source_place_after(const source *s, place known_place, uint32_t known, uint32_t offset);

/* Where the text begins: after a byte-order mark, which belongs to no column. */
size_t source_text_start(const source *s);

/* Where each line begins, so that a place is found without reading the file again. */
typedef struct line_index {
    const uint32_t *starts; /* rising; the first is 0 */
    uint32_t count;
} line_index;
line_index source_lines(arena *keep, const source *s);
uint32_t source_line_of(line_index lines, uint32_t offset); /* from 1 */

/* "air.yaml:41", or the empty text for span_nowhere. */
str span_short(arena *keep, const sources *all, span at);

/* Sorted copy by name. */
sources sources_sorted(arena *keep, const source *items, uint32_t count);

#endif
