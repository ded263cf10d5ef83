/* The verbs, once: what the program can do, how each is called, and where it is done. To add one: a
 * row here, its bit in command_line.h, a file of its own. */
#ifndef TT_CLI_VERBS_H
#define TT_CLI_VERBS_H

#include <stdio.h>

#include "host/command_line.h"

typedef struct verb_entry {
    const char *name;
    unsigned bit;
    const char *words;    /* what it is called with */
    unsigned least, most; /* how many words */
    const char *help;     /* one line */
    const char *more;     /* a paragraph */
    const char *example;
    exit_status (*run)(const command_line *line);
} verb_entry;
extern const verb_entry verb_table[];
extern const unsigned verb_count;

/* verb_named.c. Null after saying what was meant. */
const verb_entry *verb_find(const char *name);

exit_status verb_ask(const command_line *line);
exit_status verb_round(const command_line *line);
exit_status verb_record(const command_line *line);
exit_status verb_history(const command_line *line);
exit_status verb_drill(const command_line *line);
exit_status verb_rank(const command_line *line);
exit_status verb_check(const command_line *line);
exit_status verb_try(const command_line *line);
exit_status verb_rehearse(const command_line *line);
exit_status verb_learn(const command_line *line);
exit_status verb_show_table(const command_line *line);
exit_status verb_schema(const command_line *line);
exit_status verb_rename(const command_line *line);
exit_status verb_compare(const command_line *line);
exit_status verb_sheet(const command_line *line);
exit_status verb_cases(const command_line *line);
exit_status verb_desk(const command_line *line);
exit_status verb_bench(const command_line *line);
exit_status verb_handbook(const command_line *line);
exit_status verb_page(const command_line *line);
exit_status verb_new(const command_line *line);
exit_status verb_settings(const command_line *line);
exit_status verb_complete(const command_line *line);
exit_status verb_help(const command_line *line);

void help_short(FILE *out);
void help_overview(void);
void help_verb(const verb_entry *verb);

#endif
