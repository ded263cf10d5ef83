/* Value trees (tt_value): what records hold and what is shown to programs. Immutable once built;
 * texts, items and keys live in the builder's arena or longer. A map is a list of pairs: it keeps
 * the order in which it was built, compares without regard to it, and has one canonical order for
 * output that must not depend on it. */
#ifndef TT_BASE_VALUE_H
#define TT_BASE_VALUE_H

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

#define VALUE_WHOLE_MOST 9007199254740992.0 /* 2^53: up to here whole numbers are exact */

/* ---- making ---- */
extern const tt_value value_null, value_no, value_yes;
tt_value value_of_bool(bool truth);
tt_value value_of_number(double number);  /* null if it isn't finite; -0 is 0 */
tt_value value_of_measure(double number); /* the same; a program sees that it may have a fraction,
                                             even where it has none */
tt_value value_of_text(const char *text); /* not copied; null gives null */
tt_value value_of_str(arena *keep, str text); /* copied */

/* A list or a map under construction. It may be built further after value_done: what came out stays
 * as it is. */
typedef struct value_builder {
    arena *keep;
    tt_value_kind kind;
    uint32_t count, room;
    tt_value *items;
    const char **keys;
} value_builder;
value_builder value_list(arena *keep);
value_builder value_map(arena *keep);
void value_add(value_builder *list, tt_value item);
/* Keys are not copied. Putting a key that stands there already is a bug. */
void value_put(value_builder *map, const char *key, tt_value item);
void value_put_text(value_builder *map, const char *key, const char *text); /* null: a null */
/* null or "": the key is left out */
void value_put_some(value_builder *map, const char *key, const char *text);
void value_put_number(value_builder *map, const char *key, double number);
void value_put_bool(value_builder *map, const char *key, bool truth);
tt_value value_done(const value_builder *b);
const tt_value *value_keep(const value_builder *b); /* the same, in the arena */

/* A deep copy that lives in `keep`, texts and keys too. */
tt_value value_copy(arena *keep, const tt_value *v);

/* ---- looking ---- all take a null `v`, which has nothing in it */
const tt_value *value_get(const tt_value *map, const char *key); /* null: not there, or no map */
const char *value_text(const tt_value *map, const char *key);    /* null: not there, or no text */
/* False leaves *number alone: not there, or no number. */
bool value_number(const tt_value *map, const char *key, double *number);
/* The same for a whole number from 0 to 2^53; of a value itself. */
bool value_as_counter(const tt_value *v, uint64_t *number);
bool value_counter(const tt_value *map, const char *key, uint64_t *number);
bool value_truth(const tt_value *map, const char *key); /* false: not there, or no bool */
bool value_is(const tt_value *v, tt_value_kind kind);

/* ---- comparing ---- maps without regard to the order of their keys */
bool value_eq(const tt_value *a, const tt_value *b);
/* Some order of all values, the same everywhere: below 0, 0 (they are equal), above 0. Maps are
 * compared by the keys and values that they hold, whatever order they were built in. */
int value_compare(const tt_value *a, const tt_value *b);

#endif
