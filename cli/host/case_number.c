#define _DEFAULT_SOURCE /* getentropy */
#include "host/case_number.h"

#include <assert.h>
#include <sha256.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* 23 letters, none that is taken for a digit or, written, for another: with a prime number of them,
 * and weights that differ, one wrong digit or two swapped ones always change the letter. */
static const char letters[] = "ABCDEFGHJKLMNPRSTUVWXYZ";
enum { DIGITS_IN_NUMBER = 6, UUID_BYTES = 16 };

bool case_uuid_new(char uuid[CASE_UUID_SIZE])
{
    uint8_t bytes[UUID_BYTES];
    struct timespec now;
    if (getentropy(bytes, sizeof bytes) != 0 || clock_gettime(CLOCK_REALTIME, &now) != 0)
        return false;
    uint64_t milliseconds = (uint64_t)now.tv_sec * 1000 + (uint64_t)now.tv_nsec / 1000000;
    for (unsigned i = 0; i < 6; i++) bytes[i] = (uint8_t)(milliseconds >> (40 - 8 * i));
    bytes[6] = (uint8_t)(0x70 | (bytes[6] & 0x0F));
    bytes[8] = (uint8_t)(0x80 | (bytes[8] & 0x3F));
    char *end = uuid;
    for (unsigned i = 0; i < UUID_BYTES; i++) {
        if (i == 4 || i == 6 || i == 8 || i == 10) *end++ = '-';
        snprintf(end, 3, "%02x", bytes[i]);
        end += 2;
    }
    assert(end == uuid + CASE_UUID_SIZE - 1);
    return true;
}

bool is_case_uuid(const char *text)
{
    if (strlen(text) != CASE_UUID_SIZE - 1) return false;
    for (unsigned i = 0; i < CASE_UUID_SIZE - 1; i++) {
        bool hyphen = i == 8 || i == 13 || i == 18 || i == 23;
        if (hyphen ? text[i] != '-' : strchr("0123456789abcdef", text[i]) == NULL) return false;
    }
    return true;
}

static char check_letter(const char *digits)
{
    unsigned sum = 0;
    for (unsigned i = 0; i < DIGITS_IN_NUMBER; i++) sum += (i + 2) * (unsigned)(digits[i] - '0');
    return letters[sum % (sizeof letters - 1)];
}

void case_number_of(const char *uuid, char number[CASE_NUMBER_SIZE])
{
    assert(is_case_uuid(uuid));
    SHA2_CTX digest;
    uint8_t bytes[SHA256_DIGEST_LENGTH];
    SHA256Init(&digest);
    SHA256Update(&digest, (const uint8_t *)uuid, CASE_UUID_SIZE - 1);
    SHA256Final(bytes, &digest);
    uint64_t value = 0;
    for (unsigned i = 0; i < 8; i++) value = value << 8 | bytes[i];
    snprintf(number, CASE_NUMBER_SIZE, "%06u", (unsigned)(value % 1000000));
    number[DIGITS_IN_NUMBER] = check_letter(number);
    number[DIGITS_IN_NUMBER + 1] = 0;
}

number_read case_number_read(const char *typed, char number[CASE_NUMBER_SIZE])
{
    unsigned length = 0;
    for (; *typed != 0; typed++) {
        if (*typed == ' ' || *typed == '-') continue;
        bool digit = *typed >= '0' && *typed <= '9';
        char letter = *typed >= 'a' && *typed <= 'z' ? (char)(*typed - 'a' + 'A') : *typed;
        bool fits = length < DIGITS_IN_NUMBER
                        ? digit
                        : length == DIGITS_IN_NUMBER && letter >= 'A' && letter <= 'Z';
        if (!fits) return NUMBER_NOT_ONE;
        number[length++] = letter;
    }
    if (length != DIGITS_IN_NUMBER + 1) return NUMBER_NOT_ONE;
    number[length] = 0;
    return number[DIGITS_IN_NUMBER] == check_letter(number) ? NUMBER_READ : NUMBER_WRONG_LETTER;
}
