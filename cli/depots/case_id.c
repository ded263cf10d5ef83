/* Drawing the id of a new case. */
#define _DEFAULT_SOURCE /* getentropy */
#include "depots/case_id.h"

#include <assert.h>
#include <stdint.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

enum { UUID_BYTES = 16 };

bool case_id_new(char id[TT_CASE_ID_SIZE])
{
    uint8_t bytes[UUID_BYTES];
    struct timespec now;
    if (getentropy(bytes, sizeof bytes) != 0 || clock_gettime(CLOCK_REALTIME, &now) != 0)
        return false;
    uint64_t milliseconds = (uint64_t)now.tv_sec * 1000 + (uint64_t)now.tv_nsec / 1000000;
    for (unsigned i = 0; i < 6; i++) bytes[i] = (uint8_t)(milliseconds >> (40 - 8 * i));
    bytes[6] = (uint8_t)(0x70 | (bytes[6] & 0x0F));
    bytes[8] = (uint8_t)(0x80 | (bytes[8] & 0x3F));
    char *end = id;
    for (unsigned i = 0; i < UUID_BYTES; i++) {
        if (i == 4 || i == 6 || i == 8 || i == 10) *end++ = '-';
        snprintf(end, 3, "%02x", bytes[i]);
        end += 2;
    }
    assert(end == id + TT_CASE_ID_SIZE - 1);
    return true;
}
