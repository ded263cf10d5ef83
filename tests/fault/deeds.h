/* Deeds through the public face, done while memory ends at one place after another: a call that
 * says so has changed nothing and is done again, and what came of the deed is told as text, which
 * is then the same. Each taking from an arena is one from memory here (tests/CMakeLists.txt).
 * Include it in one file of a program. */
#ifndef TT_TESTS_FAULT_DEEDS_H
#define TT_TESTS_FAULT_DEEDS_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ending_memory.h"
#include "telltale.h"

#if OWN_MALLOC
enum { TOLD_MOST = 1 << 19, BEGINNING = 12 };

/* What came of a deed, as text, and how often memory ended on the way. */
static struct {
    char text[TOLD_MOST];
    size_t length;
    uint32_t again;
} told;

static inline void tell(const char *text)
{
    const size_t n = strlen(text);
    assert_true(told.length + n + 2 < sizeof told.text);
    memcpy(told.text + told.length, text, n);
    told.length += n;
    told.text[told.length++] = '\n';
    told.text[told.length] = 0;
}

static inline void tell_number(double number)
{
    char text[32];
    snprintf(text, sizeof text, "%.17g", number);
    tell(text);
}

static inline bool is_again(tt_status status)
{
    if (status != TT_NO_MEMORY) return false;
    assert_true(memory.failures > 0);
    memory.on = false;
    told.again++;
    return true;
}

/* Once more if memory ended. */
#define DO(call) \
    do { \
        tt_status status_ = (call); \
        if (is_again(status_)) status_ = (call); \
        assert_int_equal(status_, TT_OK); \
    } while (0)

/* For calls that give a report as well. */
#define LOAD(call, report) \
    do { \
        tt_status loaded_ = (call); \
        if (is_again(loaded_)) { \
            tt_report_free(report); \
            loaded_ = (call); \
        } \
        assert_int_equal(loaded_, TT_OK); \
    } while (0)

typedef struct deed {
    const char *name;
    void (*done)(void);
} deed;

/* How many takings there were. */
static inline size_t do_once(const deed *d, size_t fail_at, bool from_then_on)
{
    told.length = 0;
    told.again = 0;
    memory.fail_at = fail_at;
    memory.from_then_on = from_then_on;
    memory.takings = memory.failures = 0;
    memory.live = 0;
    memory.on = memory.counts = true;
    d->done();
    memory.on = memory.counts = false;
    if (memory.live != 0)
        fail_msg("%s, memory ends at %zu: %ld blocks are left", d->name, fail_at, memory.live);
    return memory.takings;
}

static inline void assert_same(const char *whole, const deed *d, size_t at)
{
    size_t i = 0;
    while (whole[i] == told.text[i] && whole[i] != 0) i++;
    if (whole[i] == told.text[i]) return;
    while (i > 0 && whole[i - 1] != '\n') i--;
    fail_msg("%s, memory ends at %zu: it comes out otherwise: %.80s\nand not %.80s", d->name, at,
             told.text + i, whole + i);
}

/* At so many places of each, and at all of its beginning, where arenas are made of which some are
 * there already; TELLTALE_PLACES says otherwise. */
static inline void fail_everywhere(const deed *deeds, size_t count, size_t places,
                                   bool from_then_on)
{
    const char *asked = getenv("TELLTALE_PLACES");
    if (asked != NULL) places = strtoul(asked, NULL, 10);
    static char whole[TOLD_MOST];
    uint32_t ended = 0;
    for (size_t i = 0; i < count; i++) {
        do_once(&deeds[i], 0, false); /* what is made once for good is there */
        const size_t takings = do_once(&deeds[i], SIZE_MAX, false), step = takings / places + 1;
        memcpy(whole, told.text, told.length + 1);
        for (size_t at = 1; at <= takings; at += at < BEGINNING ? 1 : step) {
            do_once(&deeds[i], at, from_then_on);
            ended += told.again > 0;
            assert_same(whole, &deeds[i], at);
        }
    }
    assert_true(ended > 100);
}
#endif

#endif
