/* What may stand in a drawing: its elements, their attributes, and what may be written in these. */
#ifndef TT_DRAW_SVG_WORDS_H
#define TT_DRAW_SVG_WORDS_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/str.h"

typedef enum svg_use {
    SVG_DRAWN,
    SVG_LEFT_OUT, /* says nothing that could be seen: not passed on, and not told */
    SVG_REFUSED,
} svg_use;

/* `remedy`: of one that is refused, what to write instead. */
svg_use svg_element_use(str name, const char **remedy);
const char *svg_elements(void); /* those that are drawn, "path, rect, … and text" */
/* The drawn element whose name is nearest; empty if none is near. */
str svg_element_near(arena *scratch, str name);

typedef struct svg_attribute svg_attribute;
svg_use svg_attribute_use(str name, const svg_attribute **found, const char **remedy);
/* The value as it is passed on; empty: it can't be, and `wanted` says what can. */
str svg_value(arena *keep, const svg_attribute *a, str value, const char **wanted);

/* "fill:#ff0; stroke:none" as attributes, 'fill="#ff0" stroke="none"', as far as they are drawn;
 * may be empty. */
str svg_style_as_attributes(arena *scratch, str style);
/* So many numbers, parted by blanks or commas; false: it is something else. */
bool svg_numbers(str text, double *out, uint32_t count);

#endif
