/* settings: what holds where an option is not given, and who says so; as a file of settings is
 * written. */
#include <stdio.h>
#include <stdlib.h>

#include "host/plain_text.h"
#include "host/settings.h"
#include "verb/verbs.h"

exit_status verb_settings(const command_line *line)
{
    (void)line;
    settings s;
    const exit_status status = settings_read(&s);
    for (int i = 0; i < SETTINGS && status == EXIT_DONE; i++) {
        const setting *one = &s.all[i];
        const char *name = option_table[one->option].name;
        char *value =
            one->value != NULL ? clean_text(one->value) : NULL; /* anybody may have laid it here */
        if (value != NULL)
            printf("%s: %s   # %s\n", name, value, one->from);
        else
            printf("# %s: not set; %s\n", name, one->otherwise);
        free(value);
    }
    if (status == EXIT_DONE)
        puts("\n# The first of these that says something holds, behind an option and the "
             "environment:");
    for (int i = 0; i < 3 && status == EXIT_DONE; i++)
        if (s.files[i] != NULL) printf("#   %s%s\n", s.files[i], i == 0 ? ", where you are" : "");
    settings_free(&s);
    return status;
}
