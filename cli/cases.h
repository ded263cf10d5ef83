/* What `cases` prints, in words and for programs. */
#ifndef TT_CLI_CASES_H
#define TT_CLI_CASES_H

#include "cases_counts.h"
#include "command_line.h"
#include "screen.h"

/* The command that takes a case up again; freed by the caller. `root`: as it was named, or null for
 * the usual one. */
char *go_on_command(const command_line *line, const char *root, const case_summary *s);

void print_cases(const screen *s, const command_line *line, const char *root,
                 const case_list *list);
void print_counts(const screen *s, const cases_counts *counts);
/* One JSON object a line. */
void print_cases_json(FILE *out, const command_line *line, const char *root, const case_list *list);
void print_counts_json(FILE *out, const cases_counts *counts, size_t failed);

#endif
