/* Units: the table, and conversion. */
#include "measure/unit.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "measure/dimension_table.h"
#include "measure/unit_find.h"
#include "measure/unit_table.h"

const unit unit_none = {.factor = 1, .form = UNIT_PLAIN, .text = {"", 0}};

#define ID(id, l, m, t, k, a, r, name, words)        DIMENSION_##id,
#define POWER_ROW(id, l, m, t, k, a, r, name, words) {{l, m, t, k, a, r}},
enum { DIMENSION_TABLE(ID) };
static const dimension dimensions[] = {DIMENSION_TABLE(POWER_ROW)};

typedef struct table_row {
    const char *name, *spellings, *says;
    int dim;
    double factor, offset;
    unit_form form;
    bool exact;
    const char *source, *gnu;
} table_row;

#define ROW(name, spellings, says, dim, factor, offset, form, exact, source, gnu) \
    {name, spellings, says, DIMENSION_##dim, factor, offset, form, exact, source, gnu},
static const table_row table[] = {UNIT_TABLE(ROW)};
enum { TABLE_COUNT = sizeof table / sizeof *table };

bool unit_table_row(uint32_t index, unit_row *out)
{
    assert(out != NULL);
    if (index >= TABLE_COUNT) return false;
    const table_row *row = &table[index];
    *out = (unit_row){
        .name = row->name,
        .spellings = row->spellings,
        .says = row->says,
        .dim = dimensions[row->dim],
        .factor = row->factor,
        .offset = row->offset,
        .form = row->form,
        .exact = row->exact,
        .source = row->source,
        .gnu = row->gnu,
    };
    return true;
}

bool unit_row_spellings(uint32_t index, const char **name, const char **others)
{
    if (index >= TABLE_COUNT) return false;
    bool spelled = table[index].form == UNIT_PLAIN || table[index].form == UNIT_SCALE;
    *name = spelled ? table[index].name : "";
    *others = table[index].spellings;
    return true;
}

bool unit_next_spelling(const unit_row *row, size_t *place, str *spelling)
{
    size_t name = strlen(row->name), at = *place;
    if (at == 0) {
        *spelling = (str){row->name, name};
        *place = name + 1;
        return true;
    }
    str rest = str_of(row->spellings);
    assert(at > name);
    at -= name + 1;
    if (at >= rest.n) return false;
    rest = str_slice(rest, at, rest.n);
    size_t bar = str_find_byte(rest, '|');
    *spelling = str_slice(rest, 0, bar == SIZE_MAX ? rest.n : bar);
    *place += spelling->n + 1;
    return true;
}

const str *unit_spellings(arena *keep, uint32_t *count)
{
    unit_row row;
    size_t most = 0;
    for (uint32_t i = 0; unit_table_row(i, &row); i++)
        most += 2 + strlen(row.spellings); /* never fewer than there are */
    str *all = ARENA_ARRAY(keep, str, most);
    *count = 0;
    for (uint32_t i = 0; unit_table_row(i, &row); i++)
        for (size_t place = 0; unit_next_spelling(&row, &place, &all[*count]);) ++*count;
    assert(*count <= most);
    return all;
}

str unit_examples(arena *keep, dimension d, uint32_t most)
{
    text_builder b = {.keep = keep};
    unit_row row;
    for (uint32_t i = 0, found = 0; found < most && unit_table_row(i, &row); i++) {
        if (!dimension_same(row.dim, d)) continue;
        text_addf(&b, "%s%s", found++ > 0 ? ", " : "", row.name);
    }
    return text_done(&b);
}

double unit_to_base(const unit *u, double number)
{
    assert(u->factor > 0);
    return number * u->factor + u->offset;
}

double unit_from_base(const unit *u, double base)
{
    assert(u->factor > 0);
    return (base - u->offset) / u->factor;
}

/* Two ways to compose one unit (L/min, dm³/min) may differ in the last bits of the factor. */
static bool same_unit(const unit *a, const unit *b)
{
    return fabs(a->factor - b->factor) <= 1e-15 * a->factor && a->offset == b->offset;
}

double unit_convert(const unit *from, const unit *to, double number)
{
    assert(dimension_same(from->dim, to->dim));
    if (same_unit(from, to)) return number;
    /* Offsets meet first, so that 32 degF loses nothing on a detour by 273.15 K. */
    return (number * from->factor + (from->offset - to->offset)) / to->factor;
}

bool unit_is_ratio(const unit *u)
{
    return u->form == UNIT_PARTS || u->form == UNIT_ONE_IN;
}

bool unit_fits(const unit *given, const unit *wanted)
{
    return dimension_same(given->dim, wanted->dim) &&
           (given->form == UNIT_SCALE) == (wanted->form == UNIT_SCALE);
}
