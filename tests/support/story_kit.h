/* A book at a site, and what the cases of the site say: what tests of its story start from. */
#ifndef TT_SUPPORT_STORY_KIT_H
#define TT_SUPPORT_STORY_KIT_H

#include "telltale.h"

typedef struct story_kit {
    tt_book *book;
    tt_past *past;
    unsigned cases;
} story_kit;

/* Texts of a book and of a site file, both sound. */
story_kit story_kit_new(const char *book_text, const char *site_text);
void story_kit_end(story_kit *k);

/* One more case of the site. */
void story_kit_add(story_kit *k, const tt_record *records, size_t count);

/* As told at that moment; freed with tt_story_free. */
tt_story *story_at(const story_kit *k, const char *now);
/* NULL: the story has none of that name. */
const tt_series *series_named(const tt_story *s, const char *name);

#endif
