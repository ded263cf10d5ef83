/* What entries of a book are made of: names, texts, and what stands in sections of its own for
 * others to name. */
#ifndef TT_MODEL_BASICS_H
#define TT_MODEL_BASICS_H

#include <stdint.h>

#include "base/source.h"
#include "base/str.h"
#include "draw/svg_file.h"

#define NO_ID UINT32_MAX

typedef struct label { /* a name and where it stands */
    str name;
    span at;
} label;

/* Text by language; items[0] is the default language's if there is one. An insert {name} is kept in
 * the text as written; a literal brace is doubled. */
typedef struct text_item {
    str language; /* BCP 47 tag */
    str text;
} text_item;
typedef struct texts {
    const text_item *items;
    uint32_t count; /* 0: none given */
    span at;
    const struct picture *picture; /* of a step: shown beside it; or null */
} texts;
typedef struct texts_list {
    const texts *items;
    uint32_t count;
} texts_list;
/* By RFC 4647 look-up: the wanted tag, its shorter forms, then the default, then the first. Empty
 * if none. */
str texts_for(const texts *t, str language);

/* What stands between the braces of an insert, taken apart: {foam-air of floor-left as found, bar}.
 */
typedef struct insert {
    str name, when, unit; /* when: "found", "left"; when and unit may be empty */
} insert;
insert insert_parts(str inside);

typedef struct ids {
    const uint32_t *items; /* rising */
    uint32_t count;
} ids;

/* ---- words that mean the same ---- */
typedef struct phrases { /* plain words as written */
    const label *items;
    uint32_t count;
} phrases;

/* What people call one thing, by language: {foam: {en: [soap, suds], es: [espuma]}}. */
typedef struct concept_words {
    str language; /* BCP 47 tag */
    phrases words;
} concept_words;
typedef struct concept {
    label id;
    const concept_words *items; /* items[0] is the default language's if there is one */
    uint32_t count;
}
concept;

/* ---- pictures ---- */
typedef struct picture_area { /* where in a picture a sign is seen */
    uint32_t symptom;
    bool any;                   /* at any piece of its kind */
    double x, y, width, height; /* within the drawing's frame */
} picture_area;
typedef struct picture {
    uint32_t file; /* of the book's files */
    const svg_drawing *drawing;
    texts text;                /* what it shows, for whoever does not see it */
    const picture_area *areas; /* from the top */
    uint32_t area_count;
} picture;

typedef struct texts_with_picture { /* a step as it is written */
    texts text;
    const picture *picture;
} texts_with_picture;

/* ---- places ---- */
typedef struct spot_walk { /* as far back as it is there; told at one end */
    uint32_t to;
    double minutes;
    span at;
} spot_walk;
typedef struct spot { /* where one stands to look or to work */
    label id;
    texts text;
    const spot_walk *walks;
    uint32_t walk_count;
    uint32_t before; /* how many of them the author writes before it: their order for people */
} spot;

/* ---- instruments, money ---- */
typedef struct instrument { /* what a question is answered with */
    label id;
    texts text;
    double wrong;    /* how often it misleads whoever reads it right */
    span wrong_said; /* nowhere: never */
    bool own;        /* each person has one: their hearing */
    texts another;   /* what else it can be read with; empty: nothing */
} instrument;
typedef struct money {
    double amount;
    str currency; /* three letters (ISO 4217); empty: nothing was said */
    span at;
} money;

#endif
