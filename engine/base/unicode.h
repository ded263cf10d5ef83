/* What Telltale needs of Unicode. The only file behind it that knows utf8proc is unicode.c. */
#ifndef TT_BASE_UNICODE_H
#define TT_BASE_UNICODE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

/* Where what nearly all texts are made of ends, from `at` on: ASCII from space to '~', and
 * newlines. Each of them is a valid character and none is unsafe, so that what looks for others
 * need not look at them one by one. */
size_t unicode_plain_end(str text, size_t at);

/* First byte offset that is not valid UTF-8 (overlong, surrogate, above U+10FFFF), or SIZE_MAX. */
size_t unicode_first_bad(str text);

/* A character that text from outside must not hold (the list is at unicode_first_unsafe). */
bool unicode_unsafe(uint32_t point);

/* First byte offset of a character that text from outside must not hold: C0 but tab and newline,
 * DEL, C1, NUL, bidirectional controls (U+061C, U+200E/F, U+202A–E, U+2066–9), U+FEFF, U+FFFE/F,
 * U+2028/9; or SIZE_MAX. */
size_t unicode_first_unsafe(str text);

/* The same text with those characters and ESC [ … sequences left out, for showing answers and old
 * records. */
str unicode_clean(arena *keep, str text);

/* NFC, and NFC of the case-folded text. Invalid bytes are replaced by U+FFFD first. */
str unicode_nfc(arena *keep, str text);
str unicode_fold(arena *keep, str text);

/* For comparing what people type: folded, marks removed (é = e), runs of anything but letters and
 * digits become one space, trimmed. An apostrophe is left out, so that "won't" and "wont" are the
 * same word. */
str unicode_plain(arena *keep, str text);

/* The next word at or after *at: letters, digits, their marks, and apostrophes between them. *at is
 * moved behind it. False: there is no more. */
bool unicode_next_word(str text, size_t *at, str *word);

/* The text with its first character as it stands at the beginning of a sentence. */
str unicode_capital(arena *keep, str text);

/* Decodes one code point at *offset and moves it on; U+FFFD for a bad byte. */
uint32_t unicode_next(str text, size_t *offset);

/* How many code points: what people count as letters, but for marks that stand alone. */
size_t unicode_points(str text);

/* Display cells (East Asian wide 2, combining 0; tab counts to the next multiple of 8 from
 * `start_cell`). */
size_t unicode_width(str text, size_t start_cell);

#endif
