/* What the engine brings into every book of its own accord, in English and Spanish: see ours.c and
 * our_emergencies.c. */
#ifndef TT_MODEL_OURS_H
#define TT_MODEL_OURS_H

#include "model/reader.h"

typedef struct said {
    const char *en, *es;
} said;

/* The book's own language first, as in all texts. */
texts our_texts(reader *r, said words);

enum { OUR_LINES_MAX = 8, OUR_HEARD_MAX = 8 };

typedef struct our_emergency {
    const char *id;
    said text;
    said do_now[OUR_LINES_MAX], then[OUR_LINES_MAX]; /* up to the first that is empty */
    const char
        *heard[OUR_HEARD_MAX]; /* beside what the engine hears by itself; NULL after the last */
    const char *source;
} our_emergency;

/* By id. */
const our_emergency *our_emergencies(uint32_t *count);

#endif
