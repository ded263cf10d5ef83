/* Spoken numbers of cases. */
#include "journal/spoken_number.h"

#include <assert.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>

#include "base/guard.h"

/* 23 letters, none that is taken for a digit or, written, for another: with a prime number of them,
 * and weights that differ, one wrong digit or two swapped ones always change the letter. The
 * largest product, twelve digits apart by 11 in weight and 9 in value, has no factor 23. */
static const char letters[] = "ABCDEFGHJKLMNPRSTUVWXYZ";

bool tt_is_case_id(const char *text)
{
    if (strlen(text) != TT_CASE_ID_SIZE - 1) return false;
    for (unsigned i = 0; i < TT_CASE_ID_SIZE - 1; i++) {
        bool hyphen = i == 8 || i == 13 || i == 18 || i == 23;
        const bool digit = text[i] >= '0' && text[i] <= '9',
                   letter = text[i] >= 'a' && text[i] <= 'f';
        if (hyphen ? text[i] != '-' : !digit && !letter) return false;
    }
    return true;
}

/* What all digits are taken from: for a UUID they are as good as drawn by chance. */
static uint64_t value_of(const char *id)
{
    SHA2_CTX digest;
    uint8_t bytes[SHA256_DIGEST_LENGTH];
    uint64_t value = 0;
    assert(tt_is_case_id(id));
    SHA256Init(&digest);
    SHA256Update(&digest, (const uint8_t *)id, TT_CASE_ID_SIZE - 1);
    SHA256Final(bytes, &digest);
    for (unsigned i = 0; i < sizeof value; i++) value = value << 8 | bytes[i];
    return value;
}

static uint64_t last_digits(uint64_t value, unsigned digits)
{
    uint64_t above = 1;
    for (unsigned i = 0; i < digits; i++) above *= 10;
    return value % above;
}

static char check_letter(const char *number, unsigned digits)
{
    unsigned sum = 0;
    for (unsigned i = 0; i < digits; i++) sum += (i + 2) * (unsigned)(number[i] - '0');
    return letters[sum % (sizeof letters - 1)];
}

static bool is_length(unsigned digits)
{
    return digits >= NUMBER_DIGITS_LEAST && digits <= NUMBER_DIGITS_MOST &&
           digits % NUMBER_DIGITS_MORE == 0;
}

void tt_case_number(const char *id, unsigned digits, char number[TT_CASE_NUMBER_SIZE])
{
    assert(is_length(digits));
    uint64_t left = last_digits(value_of(id), digits);
    for (unsigned i = digits; i-- > 0; left /= 10) number[i] = (char)('0' + left % 10);
    assert(left == 0);
    number[digits] = check_letter(number, digits);
    number[digits + 1] = '\0';
}

/* ---- what somebody typed ---- */

static char capital(char c)
{
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

tt_number_read tt_case_number_read(const char *typed, char number[TT_CASE_NUMBER_SIZE])
{
    unsigned digits = 0;
    char letter = '\0';
    for (; *typed != '\0'; typed++) {
        if (*typed == ' ' || *typed == '-') continue;
        bool digit = *typed >= '0' && *typed <= '9';
        char c = capital(*typed);
        if (letter != '\0' || digits > NUMBER_DIGITS_MOST) return TT_NUMBER_NOT_ONE;
        if (digit && digits < NUMBER_DIGITS_MOST)
            number[digits++] = c;
        else if (!digit && c >= 'A' && c <= 'Z')
            letter = c;
        else
            return TT_NUMBER_NOT_ONE;
    }
    if (!is_length(digits) || letter == '\0') return TT_NUMBER_NOT_ONE;
    number[digits] = letter;
    number[digits + 1] = '\0';
    return letter == check_letter(number, digits) ? TT_NUMBER_READ : TT_NUMBER_WRONG_LETTER;
}

bool tt_case_number_fits(const char *id, const char *number)
{
    char own[TT_CASE_NUMBER_SIZE];
    size_t length = strlen(number);
    if (length < 1 || !is_length((unsigned)length - 1)) return false;
    tt_case_number(id, (unsigned)length - 1, own);
    return strcmp(own, number) == 0;
}

/* ---- how many digits are needed ---- */

typedef struct valued {
    uint64_t value, shown;
    uint32_t index;
} valued;

static int by_shown(const void *a, const void *b)
{
    const valued *x = a, *y = b;
    return (x->shown > y->shown) - (x->shown < y->shown);
}

/* Those whose number of so many digits is another's too stay, in front; of the others it is known.
 */
static uint32_t keep_shared(valued *all, uint32_t count, unsigned digits, uint8_t *out)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++) all[i].shown = last_digits(all[i].value, digits);
    qsort(all, count, sizeof *all, by_shown);
    for (uint32_t from = 0, end; from < count; from = end) {
        for (end = from + 1; end < count && all[end].shown == all[from].shown;) end++;
        bool shared = end - from > 1 && digits < NUMBER_DIGITS_MOST;
        for (uint32_t i = from; i < end; i++) {
            if (shared)
                all[kept++] = all[i];
            else
                out[all[i].index] = (uint8_t)digits;
        }
    }
    return kept;
}

void case_number_digits(arena *scratch, const char *const *ids, uint32_t count, uint8_t *digits)
{
    valued *all = ARENA_ARRAY(scratch, valued, count);
    for (uint32_t i = 0; i < count; i++) all[i] = (valued){value_of(ids[i]), 0, i};
    for (unsigned n = NUMBER_DIGITS_LEAST; count > 0; n += NUMBER_DIGITS_MORE)
        count = keep_shared(all, count, n, digits);
}

tt_status tt_case_number_digits(const char *const *ids, size_t count, uint8_t *digits)
{
    guard way_out;
    arena *scratch = arena_new(NULL, &way_out);
    tt_status status = TT_NO_MEMORY;
    if (scratch == NULL || count >= UINT32_MAX) return status;
    if (setjmp(way_out.place) == 0) {
        case_number_digits(scratch, ids, (uint32_t)count, digits);
        arena_free(scratch);
        return TT_OK;
    }
    arena_free(scratch);
    return status;
}
