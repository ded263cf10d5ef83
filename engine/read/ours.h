/* What the engine brings into every book of its own accord, in each language of ours: see ours.c
 * and our_emergencies.c. */
#ifndef TT_READ_OURS_H
#define TT_READ_OURS_H

#include "read/reader.h"
#include "say/catalogue.h"

/* The book's own language first, as in all texts. */
texts our_texts(reader *r, text_id id);

enum { OUR_HEARD_MAX = 8 };

typedef struct our_lines {
    const text_id *ids;
    uint32_t count;
} our_lines;

typedef struct our_emergency {
    const char *id;
    text_id text;
    our_lines do_now, then;
    /* beside what the engine hears by itself; NULL after the last */
    const char *heard[OUR_HEARD_MAX];
    const char *source;
} our_emergency;

/* By id. */
const our_emergency *our_emergencies(uint32_t *count);

#endif
