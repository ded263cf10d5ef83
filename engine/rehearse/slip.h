/* A slip: something else is told than what is so. */
#ifndef TT_REHEARSE_SLIP_H
#define TT_REHEARSE_SLIP_H

#include "compile/misread.h"
#include "rehearse/dice.h"

/* Another answer than what is so, each as often as it is told then; there are two or more. */
uint32_t slip_from(dice *d, const misreading *m, uint32_t is);

#endif
