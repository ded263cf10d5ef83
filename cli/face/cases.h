/* What `cases` prints, in words and for programs. */
#ifndef TT_CLI_CASES_H
#define TT_CLI_CASES_H

#include "cases/go_on.h"
#include "face/case_line.h"
#include "host/screen.h"
#include "summary/cases_counts.h"
#include "summary/cases_months.h"

/* `way`: to each of them. `contacts`: with who called; what of that could not be read is said, and
 * the first status of it is what these give. */
exit_status print_cases(const screen *s, const way_back *way, const case_list *list, bool contacts);
/* One line each. */
exit_status print_case_lines(const screen *s, const case_list *list, const case_reader *r,
                             bool contacts);
void print_counts(const screen *s, const cases_counts *counts);
/* One JSON object a line. */
exit_status print_cases_json(FILE *out, const way_back *way, const case_list *list, bool contacts);
void print_months(const screen *s, const month_counts *months);
void print_counts_json(FILE *out, const cases_counts *counts, const month_counts *months,
                       size_t failed);

#endif
