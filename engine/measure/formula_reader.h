/* The state in which a formula is read, shared by the files that read it. */
#ifndef TT_MEASURE_FORMULA_READER_H
#define TT_MEASURE_FORMULA_READER_H

#include "measure/formula_tree.h"

typedef struct formula_reader {
    arena *keep, *scratch;
    str text;
    size_t at;
    uint32_t depth;
    formula_look_up look_up;
    void *context;
    formula_error *error;
    bool failed; /* *error is set; nothing more is read */
    bool told;   /* a name was not known, and the look-up has said so */
    uint32_t *subjects;
    uint32_t subject_count, subject_room;
} formula_reader;

/* The first error stays. Both texts must live as long as `keep`. Always null, so that a reading
 * function can return it. */
formula_node *formula_fail(formula_reader *r, size_t from, size_t to, const char *what,
                           const char *help);
const char *formula_say(formula_reader *r, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
formula_node *formula_new(formula_reader *r, formula_kind kind, size_t from, size_t to);

/* ---- formula_reader.c, on: bytes ---- */

bool formula_space(char c);
bool formula_digit(char c);
bool formula_letter(char c);
/* The byte there, 0 at the end. */
char formula_byte(const formula_reader *r, size_t at);
size_t formula_skip(const formula_reader *r, size_t at);
str formula_text(const formula_reader *r, size_t from, size_t to);
/* Any white space becomes one blank, as in texts that go over several lines. */
str formula_joined(arena *keep, str text);
/* End of the word of letters, digits, hyphens that begins there. */
size_t formula_word_end(const formula_reader *r, size_t at);
/* Is there a number? */
bool formula_amount_begins(const formula_reader *r, size_t at);

/* ---- formula_amount.c ---- */

/* Reads a number and its unit at r->at; `from` is where its minus stands if it is negative. */
formula_node *formula_amount(formula_reader *r, size_t from, bool negative);
/* The same amount where its spelling can also mean the dimension wanted, "oz" for one; false if it
 * can't. */
bool formula_amount_as(formula_reader *r, formula_node *n, dimension wanted);
/* "x / 5 degF": a step of 5 degrees, whatever the scale. */
void formula_amount_step(formula_node *n);

/* ---- formula_types.c: each sets the type, or fails ---- */

/* `part` joins a sum whose parts so far begin at sum->first and have the type of `sum`. */
bool formula_type_add(formula_reader *r, formula_node *sum, formula_node *part);
bool formula_type_multiply(formula_reader *r, formula_node *product, formula_node *part);
bool formula_type_minus(formula_reader *r, formula_node *minus);
bool formula_type_call(formula_reader *r, formula_node *call);

/* ---- formula_slips.c: what is wrong where something else must stand ---- */

/* Does a word there mean a sign, "times" or a cross? */
bool formula_slipped_sign(const formula_reader *r, size_t from, size_t to);
/* A sign without the spaces that it needs; the text left of it begins at `left`. */
formula_node *formula_tight_sign(formula_reader *r, size_t left, size_t sign);
/* Behind a value: no sign, bracket or end. */
formula_node *formula_stray(formula_reader *r);
/* Where a value must stand. */
formula_node *formula_no_value(formula_reader *r);
formula_node *formula_unknown_call(formula_reader *r, size_t from, size_t to);

#endif
