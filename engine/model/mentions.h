/* Where names stand in a book's files: what names, and where each is named again. Kept while the
 * book is read, for whoever wants to change a name everywhere. */
#ifndef TT_MODEL_MENTIONS_H
#define TT_MODEL_MENTIONS_H

#include "base/arena.h"
#include "base/source.h"
#include "base/str.h"

typedef enum section {
    SECTION_QUESTIONS,
    SECTION_SYMPTOMS,
    SECTION_CONCLUSIONS,
    SECTION_CAUSES,
    SECTION_FIXES,
    SECTION_RULES,
    SECTION_PROCEDURES,
    SECTION_CASES, /* those before it may be written for each piece */
    SECTION_EMERGENCIES,
    SECTION_CONCEPTS,
    SECTION_PLACES,
    SECTION_PROTECTION,
    SECTION_HARMS,
    SECTION_INSTRUMENTS,
    SECTION_COUNT,
} section;
const char *section_entry(section s); /* "question" */
const char *section_key(section s);   /* "questions" */

/* What a name names: an entry of a section, or one of these. */
enum {
    NAMED_ROLE = SECTION_COUNT,
    NAMED_KIND,
    NAMED_PIECE,
    NAMED_ANSWER, /* of the question or conclusion `owner` */
    NAMED_MADE, /* a symptom that `confirms` makes of the question `owner` and its answer `part` */
    NAMED_COUNT,
};
const char *named_words(uint32_t named); /* "question", "piece of equipment" */

/* How it stands in its place. */
typedef enum mention_form {
    MENTION_DEFINES, /* where the thing is described, under its name */
    MENTION_ALONE,   /* at the beginning: "drop", and the same in "drop of fine" */
    MENTION_BEHIND,  /* behind " of ": "fine" */
    MENTION_INSERT,  /* within the braces of a text, wherever in it */
} mention_form;

typedef struct mention {
    uint32_t named;
    mention_form form;
    str name, owner, part;
    span at; /* a scalar, with its quotes */
} mention;

typedef struct mention_list {
    arena *keep;
    mention *items;
    uint32_t count, room;
} mention_list;

/* Texts are not copied. `list` null: nobody wants to know. */
void mention_add(mention_list *list, mention m);

#endif
