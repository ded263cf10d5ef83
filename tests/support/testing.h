/* What cmocka wants included before it, once. */
#ifndef TT_SUPPORT_TESTING_H
#define TT_SUPPORT_TESTING_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* A str against a literal, shown as text when they differ. */
#define assert_str(got, wanted) \
    do { \
        const str assert_str_got = (got); \
        char assert_str_copy[4096]; \
        assert_true(assert_str_got.n < sizeof assert_str_copy); \
        if (assert_str_got.n > 0) memcpy(assert_str_copy, assert_str_got.p, assert_str_got.n); \
        assert_str_copy[assert_str_got.n] = '\0'; \
        assert_string_equal(assert_str_copy, (wanted)); \
    } while (0)

#endif
