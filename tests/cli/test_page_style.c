/* Text on pages can be read: contrast as WCAG 2.2 works it out (relative luminance, contrast
 * ratio), for each colour that text has on each that lies behind it, in the picture too; light,
 * dark and on paper. 7 to 1 is its success criterion 1.4.6, 3 to 1 for bars and frames its 1.4.11.
 */
#include <ctype.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "paper/page_style.h"

enum { SCHEMES = 3, MOST = 16 };

typedef struct names {
    char items[MOST][16];
    unsigned count;
} names;

static double linear(unsigned channel)
{
    double c = channel / 255.0;
    return c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(unsigned long rgb)
{
    return 0.2126 * linear(rgb >> 16 & 255) + 0.7152 * linear(rgb >> 8 & 255) +
           0.0722 * linear(rgb & 255);
}

static double contrast(unsigned long a, unsigned long b)
{
    double x = luminance(a), y = luminance(b);
    return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

/* Block number `scheme` in which the colours are named. */
static const char *block(unsigned scheme)
{
    const char *at = page_style;
    for (unsigned i = 0; i <= scheme; i++) {
        at = strstr(i == 0 ? at : at + 1, ":root{");
        assert_non_null(at);
    }
    return at;
}

static unsigned long colour(unsigned scheme, const char *name)
{
    char wanted[32];
    snprintf(wanted, sizeof wanted, "--%s:#", name);
    const char *begin = block(scheme), *at = strstr(begin, wanted), *end = strchr(begin, '}');
    if (at == NULL || at > end) fail_msg("scheme %u does not say what --%s is", scheme, name);
    return strtoul(at + strlen(wanted), NULL, 16);
}

/* All names used as `property`:var(--name), each once. */
static names used_as(const char *property)
{
    names all = {.count = 0};
    char wanted[48];
    snprintf(wanted, sizeof wanted, "%svar(--", property);
    for (const char *at = page_style; (at = strstr(at, wanted)) != NULL;) {
        char name[16] = "";
        at += strlen(wanted);
        for (size_t n = 0; isalpha((unsigned char)*at) && n < 15; n++) name[n] = *at++;
        bool known = false;
        for (unsigned i = 0; i < all.count; i++) known = known || strcmp(all.items[i], name) == 0;
        assert_true(known || all.count < MOST);
        if (!known) memcpy(all.items[all.count++], name, sizeof name);
    }
    return all;
}

static void add_all(names *to, names more)
{
    for (unsigned i = 0; i < more.count; i++) memcpy(to->items[to->count++], more.items[i], 16);
}

static void assert_readable(const names *fronts, const names *behind, double least)
{
    for (unsigned s = 0; s < SCHEMES; s++)
        for (unsigned i = 0; i < fronts->count; i++)
            for (unsigned k = 0; k < behind->count; k++) {
                double ratio = contrast(colour(s, fronts->items[i]), colour(s, behind->items[k]));
                if (ratio < least)
                    fail_msg("scheme %u: --%s on --%s has %.2f to 1", s, fronts->items[i],
                             behind->items[k], ratio);
            }
}

static void text_can_be_read(void **state)
{
    (void)state;
    names behind = used_as("background:"), text = used_as(";color:");
    add_all(&text, used_as("{color:"));
    add_all(&text, used_as(" text{fill:"));
    assert_true(text.count >= 3 && used_as(" text{fill:").count == 1);
    assert_int_equal(behind.count, 2);
    assert_readable(&text, &behind, 7);
}

static void bars_and_frames_can_be_seen(void **state)
{
    (void)state;
    names behind = used_as("background:"), shapes = used_as("solid ");
    add_all(&shapes, used_as("stroke:"));
    add_all(&shapes, used_as(".bar{fill:"));
    assert_true(shapes.count >= 3);
    assert_readable(&shapes, &behind, 3);
}

/* Else one could be missed here. */
static void every_colour_has_a_name(void **state)
{
    (void)state;
    for (const char *at = page_style; (at = strchr(at, '#')) != NULL; at++) {
        bool named = false;
        for (unsigned s = 0; s < SCHEMES; s++)
            named = named || (at > block(s) && at < strchr(block(s), '}'));
        assert_true(named);
    }
    assert_null(strstr(page_style, "rgb"));
    assert_null(strstr(page_style, "url("));
    assert_null(strstr(page_style, "@import"));
}

/* WCAG's own two ends. */
static void black_and_white(void **state)
{
    (void)state;
    assert_true(fabs(contrast(0x000000, 0xffffff) - 21) < 1e-12);
    assert_true(fabs(contrast(0x777777, 0x777777) - 1) < 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(black_and_white),
        cmocka_unit_test(text_can_be_read),
        cmocka_unit_test(bars_and_frames_can_be_seen),
        cmocka_unit_test(every_colour_has_a_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
