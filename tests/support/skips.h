/* A test that lacks its means says so in one line, "skipped: ...", which ./tests/run shows again at
 * its end: nothing is left out silently. */
#ifndef TT_SUPPORT_SKIPS_H
#define TT_SUPPORT_SKIPS_H

/* What CTest takes for a test program that was skipped as a whole. */
enum { SKIPPED_PROGRAM = 77 };

/* The words behind what only `./tests/run --everything` brings. */
#define BY_EVERYTHING "./tests/run --everything brings it"

/* Ends this test as skipped: what is missing, and what to do about it. */
__attribute__((format(printf, 1, 2))) void skip_since(const char *why, ...);

/* Skips this test where the program is not installed; ./tests/run installs the package. */
void need_program(const char *program, const char *package);

/* Skips a whole test program, before its first test: `return skip_all_since(...)` from main. */
__attribute__((format(printf, 1, 2))) int skip_all_since(const char *why, ...);

#endif
