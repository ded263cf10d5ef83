/* Units of measurement: one table (unit_table.h), and units read from text.
 *
 * Every quantity has a dimension: powers of the base units metre, kilogram, second, kelvin, ampere
 * and radian; counts and ratios have none. base = number * factor + offset. Factors are those of
 * NIST Special Publication 811 (2008), appendix B.8, or follow exactly from the definitions there;
 * the table names source and exactness of each. */
#ifndef TT_MEASURE_UNIT_H
#define TT_MEASURE_UNIT_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

enum { BASE_LENGTH, BASE_MASS, BASE_TIME, BASE_TEMPERATURE, BASE_CURRENT, BASE_ANGLE, BASE_COUNT };

typedef struct dimension {
    int8_t power[BASE_COUNT];
} dimension;

typedef enum unit_form {
    UNIT_PLAIN,  /* a factor: psi, gal/min, %, cars/h, degF interval */
    UNIT_SCALE,  /* a temperature on its scale, with the offset: degF, degC */
    UNIT_PARTS,  /* "1:N", product to water in parts: its numbers are the share 1/(N+1) of the whole
                  */
    UNIT_ONE_IN, /* "1 in N": its numbers are the share 1/N of the whole */
} unit_form;

typedef struct unit {
    dimension dim;
    double factor, offset; /* factor 1 and offset 0 for the two ratio forms */
    unit_form form;
    str text; /* as it is shown: "gal/min"; lives as long as the text it was read from, or for ever
               */
} unit;

extern const unit unit_none; /* a bare number */

typedef enum unit_found {
    UNIT_FOUND,
    UNIT_NOT_FOUND, /* *bad is the part that is no unit */
    UNIT_MALFORMED, /* *bad is where it can't be read on: "gal//min", "/ /" */
} unit_found;

/* Reads "psi", "gal/min", "oz per gal", "oz per 5 gal", "ft/min", "in^2", "in2" or "in²", "sq in",
 * "/h", "lb/ft3", "1:N", "1 in N", "%".
 *
 *   unit  = ["/"] piece { ("/" | "per" | "*" | "·") piece }    from left to right: gpm/psi/ft is
 * gpm over (psi × ft); no "*" behind a "/" piece = [number, only behind "/" or "per"] ["sq" |
 * "square" | "cu" | "cubic"] spelling ["2" | "3" | "²" | "³" | "^" power]
 *
 * Spellings of the table in any case, except where case decides (mW and MW, m and M). A full stop
 * that shortens a word ("gal.") counts for nothing. `wanted` (may be null) decides where one
 * spelling has several meanings: "oz" is a fluid ounce where a volume or a ratio of volumes is
 * wanted, else a weight. A temperature is on its scale only where it stands alone: behind "/", with
 * a power, or followed by "interval" or "difference" it is an interval. Blank text is unit_none.
 * `out->text` is the text as written, trimmed. */
unit_found unit_read(arena *keep, str text, const dimension *wanted, unit *out, str *bad);

bool dimension_same(dimension a, dimension b);
bool dimension_is_none(dimension d);
dimension dimension_times(dimension a, dimension b);
dimension dimension_over(dimension a, dimension b);
/* "pressure", "speed", "flow"; where there is no name, "length³ per time"; "a plain number" for
 * none. */
str dimension_words(arena *keep, dimension d);
/* Dimension of a word that an author writes after `reading:`; false if the word names none
 * ("foam-height" is the author's own). */
bool dimension_named(str word, dimension *out);

double unit_to_base(const unit *u, double number);
double unit_from_base(const unit *u, double base);
/* The same number where the units are the same. Both must have one dimension. */
double unit_convert(const unit *from, const unit *to, double number);
/* May a number of the first be given where the second is wanted? Same dimension; a temperature on
 * its scale is not an interval. */
bool unit_fits(const unit *given, const unit *wanted);
/* "1:N" or "1 in N": its numbers are shares of the whole. */
bool unit_is_ratio(const unit *u);

/* For suggestions: every spelling in the table, a row's name before its other spellings. */
const str *unit_spellings(arena *keep, uint32_t *count);
/* "psi, bar, kPa": the commonest units of a dimension, at most `most`; empty if the table has none.
 */
str unit_examples(arena *keep, dimension d, uint32_t most);

/* The table itself, for documentation and tests: false past the end. */
typedef struct unit_row {
    const char *name;      /* as shown: "psi" */
    const char *spellings; /* others, separated by "|": "lbf/in2|pounds per square inch|lb/in2" */
    const char *says;      /* in words: "pound-force per square inch" */
    dimension dim;
    double factor, offset;
    unit_form form;
    bool exact;         /* by definition; else rounded, or measured */
    const char *source; /* "NIST SP 811 B.8", "defined: 231 in³", "common practice" */
    const char *gnu;    /* the same unit for the program `units`, or "" where it has none */
} unit_row;
bool unit_table_row(uint32_t index, unit_row *out);

#endif
