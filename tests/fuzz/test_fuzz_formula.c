/* A formula over a few readings. What parses is written again, and means the same. */
#include "fuzz_target.h"

#include <math.h>

#include "formula_kit.h"
#include "test_sources.h"

static void one(const uint8_t *bytes, size_t length)
{
    formula_kit k = formula_kit_new();
    formula_kit_name(&k, "flow", 3.5, "gal/min");
    formula_kit_name(&k, "foam-air", 45, "psi");
    formula_kit_name(&k, "warmth", 60, "degF");
    formula_kit_name(&k, "ratio", 1.0 / 51, "1:N");
    formula_kit_name(&k, "none", 0, "");
    formula_kit_name(&k, "drop of a", 3, "psi");
    formula_kit_name(&k, "drop of b", 4, "psi");
    formula_kit_every(&k, "drop of every filter", 5, 2, "psi");
    const str text = str_copy(k.keep, (str){length > 0 ? (const char *)bytes : "", length});
    const formula *f = formula_kit_parse(&k, text.p);
    if (f == NULL) {
        MUST(k.error.from <= k.error.to && k.error.to <= text.n);
    } else {
        const formula_result r = formula_kit_value(&k, f);
        MUST(r.state != FORMULA_VALUE || (isfinite(r.base) && isfinite(r.scale)));
        const str words = formula_kit_words(&k, f);
        const formula *again =
            words.n <= FORMULA_LONGEST ? formula_kit_parse(&k, str_copy(k.keep, words).p) : NULL;
        MUST(words.n > FORMULA_LONGEST || again != NULL);
        if (again != NULL && r.state == FORMULA_VALUE) {
            const formula_result same = formula_kit_value(&k, again);
            MUST(same.state == FORMULA_VALUE &&
                 fabs(same.base - r.base) <= 1e-9 * r.scale + 1e-300);
        }
    }
    formula_kit_free(&k);
}

FUZZ_TARGET("formula", one, NULL)
