/* Bytes that come from anywhere, handed to one part of the program. A program of tests/fuzz is one
 * function from bytes, and one line:
 *
 *     FUZZ_TARGET("formula", one, NULL)
 *
 * As a test it takes each file of tests/fuzz/seeds/NAME, and of the folders named beside it, and
 * mutants of them: the same ones each time; TELLTALE_FUZZ=NUMBER for more of each (left out: 20).
 * And each input of tests/fuzz/found/NAME, which such a search has left.
 * Built for libFuzzer (-DTELLTALE_FUZZ=ON with clang, see DEVELOPERS.md) the same function is led
 * by coverage, for as long as one likes. */
#ifndef TT_SUPPORT_FUZZ_TARGET_H
#define TT_SUPPORT_FUZZ_TARGET_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef void fuzz_one(const uint8_t *bytes, size_t length);

/* What has to hold for any bytes: else the input is named, and the program ends. */
#define MUST(condition) ((condition) ? (void)0 : fuzz_failed(#condition, __FILE__, __LINE__))
_Noreturn void fuzz_failed(const char *condition, const char *file, int line);

/* `folders`: from the top of the checkout, up to a null; or null. The test's exit status. */
int fuzz_as_test(const char *name, fuzz_one *one, const char *const *folders);

#ifdef TELLTALE_FUZZ
#define FUZZ_TARGET(name, one, folders) \
    int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length); \
    int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) \
    { \
        (void)(folders); \
        one(bytes, length); \
        return 0; \
    }
#else
#define FUZZ_TARGET(name, one, folders) \
    int main(void) \
    { \
        return fuzz_as_test(name, one, folders); \
    }
#endif

#endif
