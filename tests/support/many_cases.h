/* A folder with many cases as `ask` keeps them (a dozen records each, hashes and all) on a made-up
 * book: every tenth has a second writer, every thousandth is open. The same ones each time. Ends
 * the program if one can't be written. */
#ifndef TT_SUPPORT_MANY_CASES_H
#define TT_SUPPORT_MANY_CASES_H

#include <stdint.h>

void many_cases(const char *root, uint32_t count);

#endif
