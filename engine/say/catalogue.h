/* Our own words to people: each text once, by its id; a book's words are the book's. They stand in
 * engine/say/po, a catalogue for each language. A text has its inserts as {1} … {9}, so that a
 * language may put them in another order. */
#ifndef TT_SAY_CATALOGUE_H
#define TT_SAY_CATALOGUE_H

#include <stdint.h>

#include "base/arena.h"
#include "say/text_ids.h"

/* Which language of ours a BCP 47 tag asks for, such as "es-MX"; English where it is none of them,
 * or null. */
tongue tongue_of(const char *tag);
const char *tongue_tag(tongue in);
/* Its own name for itself, such as "Español"; of a language that is none of ours, the tag. */
const char *tongue_name(const char *tag);

/* What only authors and those who look after cases read is in English. */
static const tongue TO_AUTHORS = TONGUE_EN;

/* As it stands in the catalogue; of one with two forms, that for many. */
const char *catalogue_text(tongue in, text_id id);
/* Its id as it is written, such as "TEXT_SITE"; "" where a build leaves the name out. */
const char *catalogue_name(text_id id);
/* What stands in one language, in another; what is not the catalogue's, or has inserts in it, as it
 * is. */
const char *catalogue_again(tongue from, tongue into, const char *text);
/* With its inserts, `count` of them; each insert of the text is there (asserted). Of a text with
 * two forms, the first insert tells which. */
const char *catalogue_fill(arena *keep, tongue in, text_id id, const char *const *inserts,
                           uint32_t count);
/* The same with the inserts written out, at least one: FILL(keep, in, TEXT_SITE, title). */
#define FILL(keep, in, id, ...) \
    catalogue_fill((keep), (in), (id), (const char *const[]){__VA_ARGS__}, \
                   (uint32_t)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *)))

#endif
