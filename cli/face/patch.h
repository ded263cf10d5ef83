/* Edits to files, as a patch that a person reads and applies. */
#ifndef TT_CLI_PATCH_H
#define TT_CLI_PATCH_H

#include <stdint.h>
#include <stdio.h>

#include "telltale.h"

/* A unified patch, for patch -p1 in the book's folder. `sources` as they are, `edits` by file
 * and place. */
void print_patch(FILE *out, const tt_source *sources, size_t count, const tt_edit *edits,
                 uint32_t edit_count);

#endif
