/* What `cases` prints, in words and for programs. */
#ifndef TT_CLI_CASES_H
#define TT_CLI_CASES_H

#include "face/cases_counts.h"
#include "host/screen.h"

/* The command that takes a case up again; freed by the caller. `program`: as it was called. `root`: as it was named, or null for
 * the usual one. */
char *go_on_command(const char *program, const char *root, const case_summary *s);

void print_cases(const screen *s, const char *program, const char *root,
                 const case_list *list);
void print_counts(const screen *s, const cases_counts *counts);
/* One JSON object a line. */
void print_cases_json(FILE *out, const char *program, const char *root, const case_list *list);
void print_counts_json(FILE *out, const cases_counts *counts, size_t failed);

#endif
