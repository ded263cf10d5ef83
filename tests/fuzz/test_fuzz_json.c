/* JSON text. What is read and written again is the same tree. */
#include "fuzz_target.h"

#include "show/json.h"
#include "test_sources.h"

static void one(const uint8_t *bytes, size_t length)
{
    arena *keep = test_arena();
    tt_value v, again;
    json_fault fault = {.line = 0};
    if (json_read(keep, (str){length > 0 ? (const char *)bytes : "", length}, 1 << 16, &v,
                  &fault)) {
        const str text = json_write(keep, &v, JSON_DIGITS_EXACT);
        MUST(json_read(keep, text, 1 << 20, &again, &fault));
        MUST(value_eq(&v, &again) && value_compare(&v, &again) == 0);
    } else {
        MUST(fault.text.n > 0);
    }
    arena_free(keep);
}

FUZZ_TARGET("json", one, NULL)
