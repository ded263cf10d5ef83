/* JSON text to value trees and back: the one place of the engine where JSON is known. */
#ifndef TT_SHOW_JSON_H
#define TT_SHOW_JSON_H

#include "base/value.h"

enum {
    JSON_DEEPEST = 64,          /* lists and maps within each other */
    JSON_MOST_VALUES = 1 << 18, /* of one text: what is larger was made to be large */
    JSON_DIGITS_EXACT = 17,     /* every number comes back as it was: records */
    JSON_DIGITS_SHOWN = 10,     /* what people and programs look at */
};

typedef struct json_fault {
    /* from 1, in characters; 0: the text as a whole, or the place is named in `text` */
    uint32_t line, column;
    str text; /* what is wrong and why, in a plain sentence */
} json_fault;

/* One value of any kind from UTF-8 text of at most `most` bytes; lives in `keep`. False: *fault
 * says why not. */
bool json_read(arena *keep, str text, size_t most, tt_value *out, json_fault *fault);

/* One line without its end: no blanks, keys in the map's order, `digits` significant digits for
 * numbers that are not whole. The same tree gives the same bytes everywhere. */
str json_write(arena *keep, const tt_value *v, int digits);
void json_add(text_builder *b, const tt_value *v, int digits);
/* To be read by people, too: each item and key on a line of its own, by `indent` blanks deeper than
 * what it is in; the last line has its end. */
str json_write_lines(arena *keep, const tt_value *v, int digits, int indent);

#endif
