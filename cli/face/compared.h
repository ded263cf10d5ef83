/* What moved between two editions of a book, in words. */
#ifndef TT_CLI_COMPARED_H
#define TT_CLI_COMPARED_H

#include "host/screen.h"
#include "telltale.h"

void show_compared(const screen *s, const tt_compared *all);

#endif
