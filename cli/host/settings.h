/* What a person or a place has settled once: an option that is not given is taken from the
 * environment, else from the file of settings in the folder where one stands, the person's own, or
 * the system's, in this order. */
#ifndef TT_CLI_SETTINGS_H
#define TT_CLI_SETTINGS_H

#include "host/command_line.h"

/* X(option, environment, verbs it holds for, may a folder set it, what holds where nothing does).
 * Who asks is never settled by a folder: it might lift somebody above their role; nor can one send
 * cases to another machine. */
#define SETTING_TABLE(X) \
    X(OPTION_AS, "TELLTALE_AS", FOR_TALKS | FOR_DRILL | FOR_DESK, false, \
      "the lowest role of the book") \
    X(OPTION_NAME, "TELLTALE_NAME", FOR_TALKS | FOR_DESK, false, "your login name") \
    X(OPTION_LANGUAGE, "TELLTALE_LANGUAGE", \
      FOR_TALKS | FOR_DRILL | FOR_DESK | FOR_SHEET | FOR_HISTORY, true, \
      "that of the book or the case") \
    X(OPTION_CASES, "TELLTALE_CASES", FOR_ALL, true, "your data folder")

enum { SETTINGS = 4 };

typedef struct setting {
    option_id option;
    const char *environment;
    unsigned verbs;
    bool by_folder;
    const char *otherwise;
    char *value, *from; /* null: nothing sets it; "settings:3", "the environment, TELLTALE_AS" */
    bool in_folder;     /* set where one stands */
} setting;

typedef struct settings {
    setting all[SETTINGS];
    char *files[3]; /* in their order, whether there is one or not */
} settings;

/* Says what is wrong with a file: EXIT_BAD_DATA. */
exit_status settings_read(settings *out);
/* Gives the line of a verb what it does not say. The settings must live as long as the line. */
void settings_apply(const settings *s, unsigned verb, command_line *line);
void settings_free(settings *s);

#endif
