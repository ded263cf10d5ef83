/* Our own words to people: each text once, by its id; a book's words are the book's. They stand in
 * engine/show/po, a catalogue for each language. A text has its inserts as {1} … {9}, so that a
 * language may put them in another order. */
#ifndef TT_SHOW_CATALOGUE_H
#define TT_SHOW_CATALOGUE_H

#include <stdint.h>

#include "base/arena.h"
#include "show/text_ids.h"

/* As it stands in the catalogue. */
const char *catalogue_text(text_id id);
/* Its id as it is written, such as "TEXT_SITE". */
const char *catalogue_name(text_id id);
/* With its inserts, `count` of them; each insert of the text is there (asserted). */
const char *catalogue_fill(arena *keep, text_id id, const char *const *inserts, uint32_t count);
/* The same with the inserts written out, at least one: FILL(keep, TEXT_SITE, title). */
#define FILL(keep, id, ...) \
    catalogue_fill((keep), (id), (const char *const[]){__VA_ARGS__}, \
                   (uint32_t)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *)))

#endif
