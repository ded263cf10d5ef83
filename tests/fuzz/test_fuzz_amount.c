/* An amount and a unit, for each kind of unit that a question can want: "psi\n45 psi". What is read
 * and written again is the same number. */
#include "fuzz_target.h"

#include <math.h>
#include <string.h>

#include "measure/amount.h"
#include "test_sources.h"

static void read_again(arena *keep, const unit *wanted, double number)
{
    double again;
    str bad;
    const str words = amount_words(keep, number, wanted, 17);
    MUST(amount_read(keep, words, wanted, &again, NULL, &bad) == AMOUNT_FOUND);
    MUST(fabs(again - number) <= 1e-9 * fabs(number) + 1e-300);
}

static void one(const uint8_t *bytes, size_t length)
{
    arena *keep = test_arena();
    const str all = {length > 0 ? (const char *)bytes : "", length};
    const char *line = length > 0 ? memchr(all.p, '\n', all.n) : NULL;
    const size_t first = line != NULL ? (size_t)(line - all.p) : all.n;
    const str typed = {line != NULL ? line + 1 : "", line != NULL ? all.n - first - 1 : 0};
    unit wanted;
    str bad = {"", 0};
    double number = NAN;
    amount as;
    if (unit_read(keep, (str){all.p, first}, NULL, &wanted, &bad) != UNIT_FOUND) {
        MUST(bad.n <= all.n);
        wanted = unit_none;
    }
    if (amount_read(keep, typed, &wanted, &number, &as, &bad) == AMOUNT_FOUND) {
        MUST(isfinite(number));
        read_again(keep, &wanted, number);
    }
    arena_free(keep);
}

FUZZ_TARGET("amount", one, NULL)
