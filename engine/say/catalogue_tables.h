/* What the build makes of the catalogues in engine/say/po (engine/cmake/Catalogue.cmake). Only
 * catalogue.c reads it. */
#ifndef TT_SAY_CATALOGUE_TABLES_H
#define TT_SAY_CATALOGUE_TABLES_H

#include "say/text_ids.h"

/* A text; where a number stands in it, how it reads for one and for other numbers. */
typedef struct catalogue_entry {
    const char *text; /* null: not in this language, so English serves */
    const char *many; /* null: one form for all */
} catalogue_entry;

extern const char *const catalogue_tags[TONGUE_COUNT]; /* BCP 47 */
extern const char *const catalogue_names[TEXT_COUNT];  /* the ids, as written; null: left out */
extern const catalogue_entry catalogue_entries[TONGUE_COUNT][TEXT_COUNT];

#endif
