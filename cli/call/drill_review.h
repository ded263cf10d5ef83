/* What a drill came to. */
#ifndef TT_CLI_DRILL_REVIEW_H
#define TT_CLI_DRILL_REVIEW_H

#include "call/conversation.h"

typedef struct drilling {
    tt_drill *d;
    uint64_t seed;
    const char *note; /* what came of the last step; "" */
    const char *how;  /* it came to its end, and was shown: "gone", "call"; else "" */
    bool kept;        /* its score is on the disk */
} drilling;

/* The last page; the score is kept. */
void show_drill_review(conversation *c);

#endif
