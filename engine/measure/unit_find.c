/* From a spelling to its row in the table. */
#include "measure/unit_find.h"

/* In these, small and large letters mean different things (milli and mega, metre and mega, gram and
 * giga, newton and a number): a slip of the shift key would be a factor of a thousand or more. */
static const char *const case_decides[] = {"m",    "g",  "t",  "K",     "N",   "mg",
                                           "mg/L", "ml", "mL", "ms",    "mA",  "mV",
                                           "mW",   "MW", "mS", "mS/cm", "MPa", "Mohm"};

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_letters(str a, str b)
{
    if (a.n != b.n) return false;
    for (size_t i = 0; i < a.n; i++)
        if (lower(a.p[i]) != lower(b.p[i])) return false;
    return true;
}

static bool is_strict(str spelling)
{
    for (size_t i = 0; i < sizeof case_decides / sizeof *case_decides; i++)
        if (str_is(spelling, case_decides[i])) return true;
    return false;
}

static bool row_has(const unit_row *row, str wanted, bool any_case)
{
    str spelling;
    for (size_t place = 0; unit_next_spelling(row, &place, &spelling);) {
        if (str_eq(spelling, wanted)) return true;
        if (any_case && same_letters(spelling, wanted) && !is_strict(spelling)) return true;
    }
    return false;
}

static bool find(str spelling, uint32_t meaning, bool any_case, unit_row *out)
{
    for (uint32_t i = 0; unit_table_row(i, out); i++) {
        if (out->form != UNIT_PLAIN && out->form != UNIT_SCALE) continue;
        if (row_has(out, spelling, any_case) && meaning-- == 0) return true;
    }
    return false;
}

bool unit_find(str spelling, uint32_t meaning, unit_row *out)
{
    unit_row first;
    bool as_written = find(spelling, 0, false, &first);
    return find(spelling, meaning, !as_written, out);
}
