/* Things as maps for programs. A shape is a table of fields, each with its name, type, the version
 * it came with and what it means; from it come the value tree of a thing, and the JSON Schema that
 * promises it to others. One table, so that the two can't disagree. */
#ifndef TT_SHOW_FIELDS_H
#define TT_SHOW_FIELDS_H

#include <stddef.h>

#include "base/value.h"

typedef enum field_type {
    FIELD_TEXT,   /* const char * */
    FIELD_MAYBE,  /* const char *; null or "": null */
    FIELD_COUNT,  /* uint32_t */
    FIELD_TALLY,  /* uint64_t */
    FIELD_WHOLE,  /* double that is whole; null if it is not finite */
    FIELD_NUMBER, /* double; null if it is not finite */
    FIELD_FIGURE, /* double that is finite */
    FIELD_TRUTH,  /* bool */
    FIELD_TEXTS,  /* const char *const *, and how many */
    FIELD_LIST,   /* things of one shape, and how many */
    FIELD_ONE,    /* a thing, by its pointer; null: null */
    FIELD_THERE,  /* a thing, by its pointer, which is never null */
    FIELD_PART,   /* a thing that lies within this one */
    FIELD_ANSWER, /* tt_value: a text or a number */
} field_type;

typedef enum field_need { ALWAYS, IF_ANY } field_need; /* IF_ANY: left out where there is nothing */
typedef enum field_range { ANY_NUMBER, FROM_ZERO, ZERO_TO_ONE } field_range;

/* The only texts that stand there. */
typedef struct name_list {
    const char *const *items;
    uint32_t count;
} name_list;

typedef struct field {
    const char *name;
    field_type type;
    field_need need;
    unsigned since;
    size_t at, count_at; /* in the thing */
    const struct shape *of;
    const name_list *among;
    const char *doc;
    field_range range;   /* of a number */
    uint32_t only;       /* the one count that there is; 0: any */
    uint32_t least;      /* of a number: null while the tally at count_at is less */
    const char *pattern; /* that a text fits; null: any */
} field;

typedef struct shape {
    const char *name, *doc;
    size_t size;
    const field *fields;
    uint32_t count;
} shape;

/* What a field is, is read in schemas and docs alone: the page for a phone writes none, and has no
 * room for it. */
#ifdef TT_WITHOUT_AUTHORS
#define DOC(text) ""
#else
#define DOC(text) text
#endif

/* Rows of a table: the member of the thing is named as the field is; one with a count has it in
 * NAME_count. */
#define FIELD(thing, member, type_, need_, since_, doc_) \
    { \
        .name = #member, .type = type_, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .doc = DOC(doc_) \
    }
#define FIELD_NAMED(thing, member, name_, type_, need_, since_, doc_) \
    { \
        .name = name_, .type = type_, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .doc = DOC(doc_) \
    }
#define FIELD_AMONG(thing, member, names_, need_, since_, doc_) \
    { \
        .name = #member, .type = FIELD_TEXT, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .among = names_, .doc = DOC(doc_) \
    }
#define FIELD_ALL(thing, member, type_, need_, since_, of_, doc_) \
    { \
        .name = #member, .type = type_, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .count_at = offsetof(thing, member##_count), .of = of_, \
        .doc = DOC(doc_) \
    }
/* The same, with the count in another member. */
#define FIELD_ALL_OF(thing, member, count_member, type_, need_, since_, of_, doc_) \
    { \
        .name = #member, .type = type_, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .count_at = offsetof(thing, count_member), .of = of_, \
        .doc = DOC(doc_) \
    }
#define FIELD_THING(thing, member, need_, since_, of_, doc_) \
    { \
        .name = #member, .type = FIELD_ONE, .need = need_, .since = since_, \
        .at = offsetof(thing, member), .of = of_, .doc = DOC(doc_) \
    }
#define FIELD_IN(thing, member, type_, range_, since_, doc_) \
    { \
        .name = #member, .type = type_, .since = since_, .at = offsetof(thing, member), \
        .range = range_, .doc = DOC(doc_) \
    }
/* Worth telling only if it was counted at least so many times. */
#define FIELD_COUNTED(thing, member, range_, tally, least_, since_, doc_) \
    { \
        .name = #member, .type = FIELD_NUMBER, .since = since_, .at = offsetof(thing, member), \
        .count_at = offsetof(thing, tally), .least = least_, .range = range_, .doc = DOC(doc_) \
    }
#define FIELD_VERSION(thing, member, only_) \
    { \
        .name = #member, .type = FIELD_COUNT, .since = 1, .at = offsetof(thing, member), \
        .only = only_, .doc = DOC("Of this format.") \
    }
#define FIELD_WITHIN(thing, member, name_, since_, of_, doc_) \
    { \
        .name = name_, .type = FIELD_PART, .since = since_, .at = offsetof(thing, member), \
        .of = of_, .doc = DOC(doc_) \
    }
/* A thing by its pointer that is always there. */
#define FIELD_BEHIND(thing, member, since_, of_, doc_) \
    { \
        .name = #member, .type = FIELD_THERE, .since = since_, .at = offsetof(thing, member), \
        .of = of_, .doc = DOC(doc_) \
    }
#define SHAPE(name_, thing, fields_, doc_) \
    { \
        name_, DOC(doc_), sizeof(thing), fields_, \
            (uint32_t)(sizeof(fields_) / sizeof((fields_)[0])) \
    }

/* The same table, for where only its first rows are told. */
#define SHAPE_OF_FIRST(name_, thing, fields_, count_, doc_) \
    { \
        name_, DOC(doc_), sizeof(thing), fields_, count_ \
    }

/* The thing as a map, its fields in the order of the table. Texts are not copied. */
tt_value shape_value(arena *keep, const shape *s, const void *thing);

/* {"type": "object", …}: what stands within another shape by name is referred to in `definitions`,
 * to which it is added. */
tt_value shape_schema(arena *keep, const shape *s, value_builder *definitions);
/* {"$ref": …}, with what it refers to among the definitions. */
tt_value shape_reference(arena *keep, const shape *s, value_builder *definitions);
/* A schema by itself: of what a program is given as a whole. */
tt_value whole_schema(arena *keep, const shape *s, const char *title, const char *doc);
/* Its head, to which more is put. */
value_builder schema_head(arena *keep, const char *title, const char *doc);

#endif
