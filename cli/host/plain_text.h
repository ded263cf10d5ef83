/* Text in the program: making it, cleaning it, measuring it. Every returned text is freed by the
 * caller. Memory that can't be had ends the program with EXIT_OUR_BUG: all that was answered is on
 * the disk by then. */
#ifndef TT_CLI_PLAIN_TEXT_H
#define TT_CLI_PLAIN_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

_Noreturn void memory_ended(void);
void *take_memory(size_t size);                /* zeroed */
void *more_memory(void *old, size_t new_size); /* as realloc */
/* Makes room for one element more in an array of `count`: grows it to the next power of two when it
 * is full. */
void *room_for_one(void *array, size_t count, size_t element_size);

char *copy_text(const char *text);
char *format_text(const char *format, ...) __attribute__((format(printf, 1, 2)));
char *format_text_list(const char *format, va_list arguments) __attribute__((format(printf, 1, 0)));

/* Without what could steer a terminal or mislead the eye: escape sequences, control characters but
 * newline (a tab becomes a space), bidirectional controls; bytes that are no UTF-8 become U+FFFD.
 */
char *clean_text(const char *text);
bool is_clean_name(const char *name); /* nothing there to clean, and no newline */

/* Decodes one code point of UTF-8 and moves on; U+FFFD for a bad byte, 0 (without moving) at the
 * end. */
uint32_t next_code_point(const char **text);
/* Cells on a terminal of `bytes` bytes: wide letters 2, combining marks 0. */
size_t display_width(const char *text, size_t bytes);

/* BCP 47 by its letters alone: a language of two or three, then parts of one to eight letters and
 * digits, with hyphens between. "english" is none. */
bool is_language_tag(const char *text);

char *trim_text(const char *text);
/* For comparing words that people type: small ASCII letters, trimmed, one space between words. */
char *fold_text(const char *text);
/* One word for a shell, in quotes if need be. */
char *shell_word(const char *text);
/* The nearest of `words` by edits, or null if none is near. */
const char *nearest_word(const char *wrong, const char *const *words, size_t count);

#endif
