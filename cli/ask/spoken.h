/* What somebody says on the telephone without being asked: "foam stiff, air 45 psi, floor bars
 * yes". Each part is held against all questions: its beginning against their names and words, the
 * rest must be an answer to that question. Nothing is answered here. */
#ifndef TT_CLI_SPOKEN_H
#define TT_CLI_SPOKEN_H

#include "ask/ask.h"

typedef struct spoken_part {
    char *said;
    uint32_t question; /* TT_NONE: not understood */
    char *answer;      /* as it would be typed at the question; null: none was said */
    bool by_name;      /* it names its question; else it answers the one that was being asked */
} spoken_part;

typedef struct spoken {
    spoken_part *parts;
    unsigned count, named, understood; /* named: those by_name with an answer */
} spoken;

/* `asked`: the question that was being asked, or TT_NONE. A comma between two digits parts nothing.
 */
spoken spoken_read(ask *a, const char *line, uint32_t asked);
void spoken_free(spoken *all);
/* The one question that these words fit best, or TT_NONE. */
uint32_t spoken_question(ask *a, const char *words);

#endif
