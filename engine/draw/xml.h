/* The little of XML that drawings are written in: elements, attributes, texts, comments, the five
 * entities that XML itself has, and characters by number. What could fetch or grow (declarations of
 * a document's own) is refused. */
#ifndef TT_DRAW_XML_H
#define TT_DRAW_XML_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/faults.h"
#include "base/source.h"
#include "base/str.h"

enum { XML_ATTRIBUTES_MAX = 100 }; /* of one element */

typedef struct xml_attribute {
    str name, value; /* the value as it is meant, without entities */
    span at;         /* name="value" */
} xml_attribute;

typedef enum xml_kind {
    XML_START,
    XML_EMPTY, /* <rect/>: a start and an end at once */
    XML_END,
    XML_TEXT, /* never empty */
    XML_DONE,
    XML_BROKEN, /* told; nothing more can be read */
} xml_kind;

typedef struct xml_piece {
    xml_kind kind;
    span at;
    str name; /* of an element */
    str text; /* TEXT */
    const xml_attribute *attributes;
    uint32_t count;
} xml_piece;

typedef struct xml_reader {
    arena *scratch;
    faults *list;
    str bytes;
    uint32_t file, next;
    xml_attribute attributes[XML_ATTRIBUTES_MAX]; /* of the element that was read last */
} xml_reader;

/* Its attributes stand until the next one is read. */
xml_piece xml_next(xml_reader *x);

#endif
