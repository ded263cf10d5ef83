/* Bytes made small: LZMA, as .lzma files have it, with their size told. cli/page/wasm/unpack.c
 * takes them out again. */
#ifndef TT_CLI_PACKED_H
#define TT_CLI_PACKED_H

#include <stdint.h>

#include "base/arena.h"

/* In `keep`. Null: there is no memory for it. */
uint8_t *pack(arena *keep, const uint8_t *bytes, size_t length, size_t *packed_length);

#endif
