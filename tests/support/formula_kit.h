/* Names with units and numbers, for the tests of formulas. */
#ifndef TT_SUPPORT_FORMULA_KIT_H
#define TT_SUPPORT_FORMULA_KIT_H

#include "measure/formula.h"

enum { KIT_NAMES = 64, KIT_MEMBERS = 8 };

/* One name; several inputs for "x of every kind". */
typedef struct kit_name {
    str name;
    formula_input inputs[KIT_MEMBERS];
    uint32_t count;
} kit_name;

typedef struct formula_kit {
    arena *keep, *scratch;
    kit_name names[KIT_NAMES];
    uint32_t name_count, subject_count;
    str subject_names[KIT_NAMES];
    double numbers[KIT_NAMES];
    bool known[KIT_NAMES];
    str refused; /* the names that were not known, with a blank behind each */
    formula_error error;
} formula_kit;

formula_kit formula_kit_new(void);
void formula_kit_free(formula_kit *k);
/* A name and its number; the unit as text, "" for none. Gives its subject. */
uint32_t formula_kit_name(formula_kit *k, const char *name, double number, const char *unit);
/* "x of every kind": the `count` subjects from `first` on; with none, a list of that unit. */
void formula_kit_every(formula_kit *k, const char *name, uint32_t first, uint32_t count,
                       const char *unit);
/* Null with k->error. */
const formula *formula_kit_parse(formula_kit *k, const char *text);
/* Parses, and the test fails if there is an error. */
const formula *formula_kit_good(formula_kit *k, const char *text);
formula_result formula_kit_value(formula_kit *k, const formula *f);
/* The value in a unit; the test fails if there is none, or of another type. */
double formula_kit_in(formula_kit *k, const char *text, const char *unit);
/* The formula written again, with its names. */
str formula_kit_words(formula_kit *k, const formula *f);
/* A unit of which the test knows that it is one. */
unit formula_kit_unit(formula_kit *k, const char *text);

#endif
