/* Our own words to people: each text once, by its id; a book's words are the book's. A text has its
 * inserts as {1} … {9}, so that a language may put them in another order. Another language is
 * another table of the same ids (texts_en.h). */
#ifndef TT_SHOW_CATALOGUE_H
#define TT_SHOW_CATALOGUE_H

#include <stdint.h>

#include "base/arena.h"
#include "show/handbook_texts_en.h"
#include "show/page_texts_en.h"
#include "show/phone_texts_en.h"
#include "show/report_texts_en.h"
#include "show/sheet_texts_en.h"
#include "show/table_texts_en.h"
#include "show/texts_en.h"

#define TEXT_ENUM(id, text) id,
typedef enum text_id { TEXTS_EN(TEXT_ENUM) PAGE_TEXTS_EN(TEXT_ENUM) SHEET_TEXTS_EN(TEXT_ENUM) REPORT_TEXTS_EN(TEXT_ENUM) HANDBOOK_TEXTS_EN(TEXT_ENUM) TABLE_TEXTS_EN(TEXT_ENUM) PHONE_TEXTS_EN(TEXT_ENUM) TEXT_COUNT } text_id;
#undef TEXT_ENUM

/* As it stands in the catalogue. */
const char *catalogue_text(text_id id);
/* With its inserts, `count` of them; each insert of the text is there (asserted). */
const char *catalogue_fill(arena *keep, text_id id, const char *const *inserts, uint32_t count);
/* The same with the inserts written out, at least one: FILL(keep, TEXT_SITE, title). */
#define FILL(keep, id, ...) \
    catalogue_fill((keep), (id), (const char *const[]){__VA_ARGS__}, \
                   (uint32_t)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *)))

#endif
