/* A module of its own, which takes the page's load out of its packing: LZMA, as .lzma files have
 * it. It is written in C because a browser's own unpacking (deflate) leaves a quarter more to
 * carry, and JavaScript takes ten times as long. Nothing here is checked but bounds: what was
 * packed is ours. */
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "page/exported.h"

enum {
    CHANCE_BITS = 11,
    CHANCE_EVEN = 1 << (CHANCE_BITS - 1),
    LEARNS = 5, /* a chance moves by 1/32 of the way */
    STATES = 12,
    POSITIONS = 16,
    HEADER = 13,
    SHORTEST = 2,
    LITERALS_MOST = 0x300 << 12,
};

typedef uint16_t chance;

typedef struct lengths {
    chance choice[2], low[POSITIONS][8], middle[POSITIONS][8], high[256];
} lengths;

/* Everything that is learnt. */
typedef struct model {
    chance is_match[STATES][POSITIONS], is_repeat[STATES], is_repeat0[STATES], is_repeat1[STATES],
        is_repeat2[STATES], is_repeat0_long[STATES][POSITIONS];
    chance slots[4][64], near[128], aligned[16];
    lengths matched, repeated;
    chance literals[LITERALS_MOST];
} model;

typedef struct unpacking {
    const uint8_t *in, *in_end;
    uint8_t *out;
    uint32_t size, at;
    uint32_t range, code;
    uint32_t state, distances[4]; /* less one; the last first */
    uint32_t lc, lp, pb;
    bool damaged;
} unpacking;

static model learnt;

/* ---- bits: a number below `range` that the bytes narrow down ---- */

static uint8_t next_byte(unpacking *u)
{
    if (u->in == u->in_end) u->damaged = true;
    return u->damaged ? 0 : *u->in++;
}

static void shift(unpacking *u)
{
    if (u->range >= 1u << 24) return;
    u->range <<= 8;
    u->code = u->code << 8 | next_byte(u);
}

static uint32_t bit(unpacking *u, chance *c)
{
    const uint32_t bound = (u->range >> CHANCE_BITS) * *c;
    const bool one = u->code >= bound;
    if (one) {
        u->range -= bound;
        u->code -= bound;
        *c = (chance)(*c - (*c >> LEARNS));
    } else {
        u->range = bound;
        *c = (chance)(*c + (((1 << CHANCE_BITS) - *c) >> LEARNS));
    }
    shift(u);
    return one;
}

static uint32_t plain_bits(unpacking *u, uint32_t count)
{
    uint32_t value = 0;
    for (; count > 0; count--) {
        u->range >>= 1;
        const bool one = u->code >= u->range;
        if (one) u->code -= u->range;
        value = value << 1 | one;
        shift(u);
    }
    return value;
}

static uint32_t tree(unpacking *u, chance *chances, uint32_t bits)
{
    uint32_t at = 1;
    for (uint32_t i = 0; i < bits; i++) at = at << 1 | bit(u, &chances[at]);
    return at - (1u << bits);
}

static uint32_t tree_from_below(unpacking *u, chance *chances, uint32_t bits)
{
    uint32_t at = 1, value = 0;
    for (uint32_t i = 0; i < bits; i++) {
        const uint32_t one = bit(u, &chances[at]);
        at = at << 1 | one;
        value |= one << i;
    }
    return value;
}

/* ---- what they say ---- */

static void read_literal(unpacking *u)
{
    const uint32_t before = u->at > 0 ? u->out[u->at - 1] : 0;
    chance *chances = &learnt.literals[0x300 * (((u->at & ((1u << u->lp) - 1)) << u->lc) +
                                                (before >> (8 - u->lc)))];
    uint32_t symbol = 1;
    if (u->state >= 7) { /* it differs from what stands where the last match went on */
        uint32_t expected = u->out[u->at - u->distances[0] - 1], same = 1;
        while (symbol < 0x100 && same) {
            const uint32_t wanted = expected >> 7 & 1;
            const uint32_t one = bit(u, &chances[((1 + wanted) << 8) + symbol]);
            expected <<= 1;
            symbol = symbol << 1 | one;
            same = wanted == one;
        }
    }
    while (symbol < 0x100) symbol = symbol << 1 | bit(u, &chances[symbol]);
    u->out[u->at++] = (uint8_t)symbol;
    u->state = u->state < 4 ? 0 : u->state < 10 ? u->state - 3 : u->state - 6;
}

static uint32_t read_length(unpacking *u, lengths *l, uint32_t position)
{
    if (!bit(u, &l->choice[0])) return SHORTEST + tree(u, l->low[position], 3);
    if (!bit(u, &l->choice[1])) return SHORTEST + 8 + tree(u, l->middle[position], 3);
    return SHORTEST + 16 + tree(u, l->high, 8);
}

static uint32_t read_distance(unpacking *u, uint32_t length)
{
    const uint32_t of = length - SHORTEST < 3 ? length - SHORTEST : 3;
    const uint32_t slot = tree(u, learnt.slots[of], 6);
    if (slot < 4) return slot;
    const uint32_t below = (slot >> 1) - 1, start = (2 | (slot & 1)) << below;
    if (slot < 14) return start + tree_from_below(u, learnt.near + start - slot, below);
    return start + (plain_bits(u, below - 4) << 4) + tree_from_below(u, learnt.aligned, 4);
}

static void copy(unpacking *u, uint32_t length)
{
    u->damaged |= u->distances[0] >= u->at || length > u->size - u->at;
    for (uint32_t i = 0; i < length && !u->damaged; i++, u->at++)
        u->out[u->at] = u->out[u->at - u->distances[0] - 1];
}

/* The distance used `back` distances ago comes first. */
static void bring_forward(unpacking *u, uint32_t back)
{
    const uint32_t used = u->distances[back];
    memmove(u->distances + 1, u->distances, back * sizeof *u->distances);
    u->distances[0] = used;
}

static void read_repeat(unpacking *u, uint32_t position)
{
    const uint32_t state = u->state;
    if (bit(u, &learnt.is_repeat0[state])) {
        const uint32_t back =
            !bit(u, &learnt.is_repeat1[state]) ? 1 : 2 + bit(u, &learnt.is_repeat2[state]);
        bring_forward(u, back);
    } else if (!bit(u, &learnt.is_repeat0_long[state][position])) {
        u->state = state < 7 ? 9 : 11;
        copy(u, 1);
        return;
    }
    u->state = state < 7 ? 8 : 11;
    copy(u, read_length(u, &learnt.repeated, position));
}

static void read_match(unpacking *u, uint32_t position)
{
    const uint32_t length = read_length(u, &learnt.matched, position);
    memmove(u->distances + 1, u->distances, 3 * sizeof *u->distances);
    u->state = u->state < 7 ? 7 : 10;
    u->distances[0] = read_distance(u, length);
    copy(u, length);
}

/* ---- the whole ---- */

static void begin(unpacking *u, const uint8_t *packed, uint32_t length, uint8_t *out)
{
    *u = (unpacking){.in = packed + HEADER, .in_end = packed + length, .out = out};
    u->lc = packed[0] % 9;
    u->lp = packed[0] / 9 % 5;
    u->pb = packed[0] / 45;
    for (int i = 0; i < 4; i++) u->size |= (uint32_t)packed[5 + i] << 8 * i;
    u->damaged = u->lc + u->lp > 12 || u->pb > 4;
    chance *all = (chance *)&learnt;
    for (uint32_t i = 0; i < sizeof learnt / sizeof *all; i++) all[i] = CHANCE_EVEN;
    u->range = UINT32_MAX;
    next_byte(u);
    for (int i = 0; i < 4; i++) u->code = u->code << 8 | next_byte(u);
}

/* `out` has room for what the header of `packed` says. False: it is damaged. */
PAGE_EXPORT(unpack)
bool unpack(const uint8_t *packed, uint32_t length, uint8_t *out);
bool unpack(const uint8_t *packed, uint32_t length, uint8_t *out)
{
    unpacking u;
    if (length < HEADER + 5) return false;
    begin(&u, packed, length, out);
    while (u.at < u.size && !u.damaged) {
        const uint32_t position = u.at & ((1u << u.pb) - 1);
        if (!bit(&u, &learnt.is_match[u.state][position]))
            read_literal(&u);
        else if (bit(&u, &learnt.is_repeat[u.state]))
            read_repeat(&u, position);
        else
            read_match(&u, position);
    }
    return !u.damaged;
}
