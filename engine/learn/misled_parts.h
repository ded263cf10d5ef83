/* Looks of a case that share instruments, inside learning. */
#ifndef TT_LEARN_MISLED_PARTS_H
#define TT_LEARN_MISLED_PARTS_H

#include "learn/misled.h"
#include "model/basics.h"

enum {
    TOGETHER_LATENTS = 10, /* instruments summed over at once; further looks are left out */
    READ_MISHAPS = 8,      /* of one finding; one with more is left out */
    READ_SORTS = 2,        /* states in which an answer that confirms is wrong, and others */
};

/* All looks at one finding. */
typedef struct misled_read {
    const learn_row *row; /* of what was wrong */
    uint32_t sources[SOURCES_MAX], source_count;
    double slip[READ_SORTS];
    bool has[READ_SORTS]; /* states of that sort */
    uint32_t mishaps, atoms;
    uint32_t latent[READ_MISHAPS]; /* of the group; NO_ID: of one look by itself */
    uint32_t place[READ_MISHAPS];  /* that instrument among `sources` */
    double
        *says; /* [sort][atom][what happened, as bits] chance of what was said, and of that sort */
    double *chance; /* [sort][what happened] the same over the row, while fitting */
} misled_read;

struct learn_together {
    uint32_t source[TOGETHER_LATENTS], latents;
    misled_read *reads;
    uint32_t read_count;
    uint32_t count[LEARN_ENDS]; /* cases in which just this was said */
    learn_together *next;
};

#endif
