/* What the result would be if one number of the author were another: by the likelihood ratio, so
 * that no call is played anew. */
#ifndef TT_REHEARSE_SENSITIVITY_H
#define TT_REHEARSE_SENSITIVITY_H

#include "compile/numbers.h"
#include "rehearse/play.h"

#define NUMBER_OFF 0.3 /* so much above, and below, what is written */

enum { ABOVE, BELOW, DIRECTIONS };

/* One number turned: what it changes. */
typedef struct turned_number {
    const net *n;                 /* with it */
    const net_rate *const *cures; /* [fix] with it */
    const uint32_t *components;   /* whose tables it changes */
    uint32_t component_count;
} turned_number;

typedef struct sensitivity {
    const program *prog;
    const written_number *numbers;
    uint32_t count;
    const turned_number *turned; /* [number * DIRECTIONS + direction] */
} sensitivity;

sensitivity *sensitivity_new(arena *keep, arena *scratch, const program *p);

/* How many times likelier this call would have been drawn, and its fixes have gone as they went,
 * with number i turned: of calls with one cause or none; 1 for others. `drawn`: before it was
 * played; `path`: how it was. */
double sensitivity_ratio(const sensitivity *s, uint32_t i, int direction, const made_call *drawn,
                         const played *how);

#endif
