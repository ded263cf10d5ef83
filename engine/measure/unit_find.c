/* From a spelling to its row in the table. */
#include "measure/unit_find.h"

#include <assert.h>
#include <string.h>

/* In these, small and large letters mean different things (milli and mega, metre and mega, gram and
 * giga, newton and a number): a slip of the shift key would be a factor of a thousand or more. */
static const char *const case_decides[] = {"m",    "g",  "t",  "K",     "N",   "mg",
                                           "mg/L", "ml", "mL", "ms",    "mA",  "mV",
                                           "mW",   "MW", "mS", "mS/cm", "MPa", "Mohm"};

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_strict(str spelling)
{
    for (size_t i = 0; i < sizeof case_decides / sizeof *case_decides; i++)
        if (str_is(spelling, case_decides[i])) return true;
    return false;
}

static bool ends(char c)
{
    return c == 0 || c == '|';
}

/* The next spelling of a list ("bar|bars"), or null. */
static const char *next_in(const char *list)
{
    const char *bar = strchr(list, '|');
    return bar == NULL ? NULL : bar + 1;
}

/* The spelling of a list that has these letters in any case, or an empty one. */
static str spelling_in(const char *list, str wanted)
{
    for (; list != NULL; list = next_in(list)) {
        size_t i = 0;
        while (!ends(list[i]) && i < wanted.n && lower(list[i]) == lower(wanted.p[i])) i++;
        if (i == wanted.n && ends(list[i])) return (str){list, i};
    }
    return (str){NULL, 0};
}

typedef enum likeness {
    NOT_ALIKE,
    ALIKE, /* but for the case of letters, where that does not decide */
    EQUAL,
} likeness;

static likeness likeness_in(const char *list, str wanted)
{
    assert(list != NULL && wanted.n > 0);
    str spelling = spelling_in(list, wanted);
    if (spelling.n == 0) return NOT_ALIKE;
    if (str_eq(spelling, wanted)) return EQUAL;
    /* "l" and "L" stand in one list: the equal one may come behind the one that is alike. */
    const char *rest = next_in(spelling.p);
    likeness later = rest == NULL ? NOT_ALIKE : likeness_in(rest, wanted);
    if (later == EQUAL || is_strict(spelling)) return later;
    return ALIKE;
}

static likeness likeness_of(const char *name, const char *others, str wanted)
{
    likeness first = likeness_in(name, wanted);
    if (first == EQUAL) return EQUAL;
    likeness other = likeness_in(others, wanted);
    return other > first ? other : first;
}

bool unit_find(str spelling, uint32_t meaning, unit_row *out)
{
    assert(out != NULL);
    uint32_t found[EQUAL + 1] = {0}, index[EQUAL + 1] = {0};
    const char *name, *others;
    if (spelling.n == 0) return false;
    for (uint32_t i = 0; unit_row_spellings(i, &name, &others); i++) {
        likeness how = likeness_of(name, others, spelling);
        if (how == NOT_ALIKE) continue;
        if (found[how]++ == meaning) index[how] = i;
        if (how == EQUAL && found[how] > meaning) break;
    }
    likeness best = found[EQUAL] > 0 ? EQUAL : ALIKE;
    return found[best] > meaning && unit_table_row(index[best], out);
}
