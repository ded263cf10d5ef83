/* Two values of one conclusion under the same answers: found, and told. Only logic*.c see this. */
#ifndef TT_COMPILE_LOGIC_CONFLICTS_H
#define TT_COMPILE_LOGIC_CONFLICTS_H

#include "compile/logic_cone.h"

/* Room to tell of what this cone holds, again and again. */
typedef struct conflict_teller conflict_teller;
conflict_teller *conflict_teller_new(arena *scratch, const cone *c);

/* Reports that atoms a and b of a group both hold under what the cone has chosen; the cone is
 * evaluated. */
void conflict_tell(conflict_teller *t, const logic_group *group, uint32_t a, uint32_t b,
                   faults *list);

/* Reports that the search gave up on this pair, and `others` more of the same group. */
void conflict_tell_undecided(const logic *l, const logic_group *group, uint32_t a, uint32_t b,
                             uint64_t others, faults *list);

#endif
