#include "page/packed.h"

#include <assert.h>
#include <lzma.h>

enum { HEADER = 13, SIZE_AT = 5, DICTIONARY = 1 << 23, HEADROOM = 4096 };

/* A stream does not know how long it gets, so it says unknown; here it is known. */
static void tell_size(uint8_t *packed, uint64_t length)
{
    for (unsigned i = 0; i < 8; i++) packed[SIZE_AT + i] = (uint8_t)(length >> (8 * i));
}

uint8_t *pack(arena *keep, const uint8_t *bytes, size_t length, size_t *packed_length)
{
    lzma_options_lzma options;
    lzma_stream stream = LZMA_STREAM_INIT;
    assert(bytes != NULL && packed_length != NULL);
    const lzma_bool unknown = lzma_lzma_preset(&options, 9 | LZMA_PRESET_EXTREME);
    assert(!unknown);
    (void)unknown;
    options.dict_size = DICTIONARY;
    if (lzma_alone_encoder(&stream, &options) != LZMA_OK) return NULL;
    const size_t room = length + length / 8 + HEADROOM; /* what can't be packed grows a little */
    uint8_t *out = ARENA_ARRAY(keep, uint8_t, room);
    stream.next_in = bytes;
    stream.avail_in = length;
    stream.next_out = out;
    stream.avail_out = room;
    const lzma_ret ended = lzma_code(&stream, LZMA_FINISH);
    *packed_length = room - stream.avail_out;
    lzma_end(&stream);
    if (ended != LZMA_STREAM_END) return NULL;
    assert(*packed_length > HEADER);
    tell_size(out, length);
    return out;
}
