/* Which records of a case are not replayed, as several writers may say: what somebody took back
 * after somebody else had gone on, answers that were settled to be wrong, and what two reported of the
 * same fix, neither knowing of the other. All stay in the file. */
#ifndef TT_CLI_CASE_SKIPS_H
#define TT_CLI_CASE_SKIPS_H

#include <stdbool.h>

#include "host/case_file.h"

/* [case_file_count], freed by the caller. A `back` that takes back the step right before it, as
 * always with one writer, is not skipped, nor is that step. */
bool *case_skips(const case_file *file);
bool is_case_step(const char *kind); /* a kind of record that `back` can take back */

#endif
