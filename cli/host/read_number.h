/* Numbers of options. */
#ifndef TT_CLI_READ_NUMBER_H
#define TT_CLI_READ_NUMBER_H

#include <stdbool.h>
#include <stdint.h>

/* Digits alone; false if it is no whole number, or not from `least` to `most`. */
bool whole_number(const char *text, uint64_t least, uint64_t most, uint64_t *out);
/* "5", "5%", "2.5 %": 0.05, 0.025. False if it is no number from 0 to 100. */
bool percent_number(const char *text, double *out);

#endif
