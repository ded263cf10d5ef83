/* A set of numbers below a bound that gives its least: words of 64 bits with words above that tell
 * which of them are not empty. Adding and taking cost the number of levels: three for a quarter of
 * a million. */
#ifndef TT_CHAIN_AGENDA_H
#define TT_CHAIN_AGENDA_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

#define AGENDA_NONE UINT32_MAX

enum { AGENDA_LEVELS = 6 };

typedef struct agenda {
    uint64_t *words[AGENDA_LEVELS]; /* [0]: a bit for each number */
    uint32_t levels, bound;
} agenda;

void agenda_make(agenda *a, arena *keep, uint32_t bound);
void agenda_add(agenda *a, uint32_t number);
void agenda_remove(agenda *a, uint32_t number); /* fine if it isn't there */

/* The least that is not below `from`, or AGENDA_NONE. */
uint32_t agenda_next(const agenda *a, uint32_t from);

#endif
